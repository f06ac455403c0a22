"""What the tests of all places share: products, climates, and every kind of place with its packaged numbers."""

from datetime import date, timedelta

from hypothesis import strategies as st

from sourloam.evidence.parameters import load_parameters
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.parameters import ClimateParameters
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.bed.place import BedPlace
from sourloam.science.places.offer import PlaceState
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.pile.place import PilePlace
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.science.places.soil_tub.place import SoilTubPlace
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.taker import Taker, TakerParameters, TakerPlace
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.science.places.worm_bin.place import WormBinPlace
from sourloam.science.places.worm_bin.worm_bin import WormBin

CLIMATE = load_parameters(ClimateParameters, "climate")
BED = load_parameters(BedParameters, "bed")
PILE = load_parameters(PileParameters, "pile")
WORM_BIN = load_parameters(WormBinParameters, "worm_bin")
SOIL_TUB = load_parameters(SoilTubParameters, "soil_tub")
TAKER = load_parameters(TakerParameters, "taker")

MILD_C = (6.0, 5.9, 7.2, 8.8, 11.4, 14.0, 15.8, 15.7, 13.8, 11.1, 8.2, 6.4)
COLD_C = (-12.0, -11.0, -5.0, 3.0, 11.0, 16.0, 18.0, 16.5, 11.0, 4.0, -3.0, -9.0)
START = date(2027, 3, 1)
SPRING = date(2027, 5, 3)  # a Monday
WINTER = date(2028, 1, 31)

PRODUCTS = st.builds(
    lambda mass_kg, litres_per_kg, moisture, nitrogen_db, carbon_to_nitrogen, **rest: Product(
        batch="blue-1/1",
        mass_kg=mass_kg,
        volume_l=mass_kg * litres_per_kg,
        moisture_wb_frac=moisture,
        carbon_g=1000.0 * mass_kg * (1.0 - moisture) * nitrogen_db * carbon_to_nitrogen,
        nitrogen_g=1000.0 * mass_kg * (1.0 - moisture) * nitrogen_db,
        sodium_g=2.0 * mass_kg,
        acid_mol=0.2 * mass_kg,
        **rest,
    ),
    mass_kg=st.floats(0.5, 60.0),
    litres_per_kg=st.floats(1.0, 2.0),
    moisture=st.floats(0.5, 0.9),
    nitrogen_db=st.floats(0.005, 0.05),
    carbon_to_nitrogen=st.floats(8.0, 40.0),
    animal_matter=st.booleans(),
)
DAYS = st.integers(0, 1200).map(lambda days: START + timedelta(days=days))
# One batch after another: what comes, and how many days after the last.
RUNS = st.lists(st.tuples(PRODUCTS, st.integers(0, 60)), min_size=1, max_size=12)


def climate(months=MILD_C, indoors_c=20.0):
    return Climate.from_monthly(months, indoors_c=indoors_c, latitude_deg=53.0, parameters=CLIMATE)


def flat(temperature_c):
    return climate((temperature_c,) * 12)


MILD = climate()
COLD = climate(COLD_C)


def bucket(mass_kg=15.0, **changes):
    """A bucket of a quarter dry matter, with 2.5 % nitrogen in it."""
    whole = {
        "batch": "blue-1/1",
        "mass_kg": mass_kg,
        "volume_l": mass_kg / 0.8,
        "moisture_wb_frac": 0.75,
        "carbon_g": 93.75 * mass_kg,
        "nitrogen_g": 6.25 * mass_kg,
        "sodium_g": 2.0 * mass_kg,
        "acid_mol": 0.2 * mass_kg,
    }
    return Product(**{**whole, **changes})


def bed(area_m2=20.0, site_closed=(), **keys):
    return BedPlace(Bed("herbs", area_m2, **keys), BED, site_closed)


def pile(volume_l=1000.0, **keys):
    return PilePlace(Pile("heap", volume_l, **keys), PILE)


def worm_bin(area_m2=0.5, worms_kg=0.8, **keys):
    return WormBinPlace(WormBin("worms", area_m2, worms_kg, stands=keys.pop("stands", "indoors"), **keys), WORM_BIN)


def soil_tub(volume_l=70.0, **keys):
    return SoilTubPlace(SoilTub("tub", volume_l, **keys), SOIL_TUB)


def taker(kind="neighbour", **keys):
    return TakerPlace(Taker("next-door", kind, **keys), TAKER)


EVERY = (
    bed(),
    bed(dug="strips", texture="sand"),
    bed(food=False),
    pile(browns_l=400.0, browns_l_per_d=3.0),
    pile(filled_l=800.0),
    worm_bin(),
    worm_bin(is_accustomed=True, stands="shed"),
    soil_tub(),
    soil_tub(stands="cellar"),
    taker(),
    taker("shared-garden", days=("sat",), every_weeks=2, first=date(2027, 3, 6), litres_l=30.0),
    taker("waste-bin"),
)


def owner(place):
    """The table of the site file that a place was made from."""
    return next(
        getattr(place, each) for each in ("bed", "pile", "worm_bin", "soil_tub", "taker") if hasattr(place, each)
    )


def opened(place):
    return owner(place).at_start(START)


def fed(place, run, weather=MILD, state=None):
    """Offer batch after batch and place what is offered; return the state and what was placed, with the day."""
    state = state or opened(place)
    day, placed = START, []
    for product, pause_d in run:
        day += timedelta(days=pause_d)
        offer = place.can_take(state, product, day, climate=weather)
        if offer.takes_kg >= 0.001:
            state, effect = place.after(state, product, offer.takes_kg, day, climate=weather)
            placed.append((day, product, offer, effect))
    return state, placed


EMPTY = PlaceState("any")
