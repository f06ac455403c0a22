"""What the tests of vessels share: contents of any size, and the packaged numbers."""

from hypothesis import strategies as st

from sourloam.evidence.parameters import load_parameters
from sourloam.science.vessel.contents import Contents
from sourloam.science.vessel.parameters import VesselParameters

VESSEL = load_parameters(VesselParameters, "vessel")


def _whole(scraps_kg, bran_ratio, dry, carbon_db, nitrogen_db, animal, loose_kg_per_l, pressed_kg_per_l):
    dry_kg = scraps_kg * dry
    bran_kg = scraps_kg * bran_ratio
    return Contents(
        scraps_kg=scraps_kg,
        bran_kg=bran_kg,
        scraps_dry_kg=dry_kg,
        dry_kg=dry_kg + 0.88 * bran_kg,
        carbon_g=1000.0 * dry_kg * carbon_db,
        nitrogen_g=1000.0 * dry_kg * nitrogen_db,
        sodium_g=scraps_kg,
        animal_kg=scraps_kg * animal,
        loose_l=scraps_kg / loose_kg_per_l,
        pressed_l=scraps_kg / pressed_kg_per_l,
    )


CONTENTS = st.builds(
    _whole,
    scraps_kg=st.floats(0.05, 60.0),
    bran_ratio=st.floats(0.0, 0.06),
    dry=st.floats(0.08, 0.6),
    carbon_db=st.floats(0.35, 0.5),
    nitrogen_db=st.floats(0.01, 0.06),
    animal=st.floats(0.0, 1.0),
    loose_kg_per_l=st.floats(0.15, 0.6),
    pressed_kg_per_l=st.floats(0.4, 0.9),
)
