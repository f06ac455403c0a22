"""The names that a site may use, made by hand, so that the tests of the reader rest on no table."""

from difflib import get_close_matches

from sourloam.sitefile.validate import Known
from tests.site.strategies import CLIMATES, CROPS, JURISDICTIONS, MATERIALS

LIQUIDS = ("soup", "milk")
REFUSED = {"large-bones": "they outlast the ferment."}
NAMES = (*MATERIALS, *LIQUIDS, *REFUSED)

KNOWN = Known(
    has_material=NAMES.__contains__,
    is_liquid=LIQUIDS.__contains__,
    is_refused=lambda name: REFUSED.get(name, ""),
    near_materials=lambda name: tuple(get_close_matches(name, NAMES, n=3)),
    crops=CROPS,
    climates=CLIMATES,
    jurisdictions=JURISDICTIONS,
)
