"""Materials made up for tests, so that a law is tested apart from the packaged table."""

from hypothesis import strategies as st

from sourloam.base.source import Basis
from sourloam.science.materials.composition import CONSTITUENTS, Composition, Material, Method, Provenance, Rule

NOWHERE = Provenance("judgement", "made up", Basis.JUDGEMENT)
SHARES = st.lists(st.floats(0.01, 1.0), min_size=len(CONSTITUENTS), max_size=len(CONSTITUENTS))


def composition(shares, nitrogen=0.01):
    whole = sum(shares)
    parts = {f"{name}_wb_frac": share / whole for name, share in zip(CONSTITUENTS, shares, strict=True)}
    minerals = dict.fromkeys((f"{name}_wb_frac" for name in ("sodium", "potassium", "phosphorus", "calcium")), 0.002)
    return Composition(**parts, nitrogen_wb_frac=nitrogen, **minerals)


def material(name, held=None, *, kind="vegetable", rule=Rule.YES, at_most=1.0, loose=0.3, pressed=0.6):
    return Material(
        id=name,
        name=name.replace("-", " "),
        synonyms=(),
        kind=kind,
        animal=False,
        rule=rule,
        reason="A reason.",
        preparation="",
        at_most_frac=at_most,
        composition=held or composition([0.8, 0.03, 0.01, 0.05, 0.02, 0.05, 0.01, 0.01, 0.02]),
        water_low_wb_frac=0.7,
        water_high_wb_frac=0.9,
        spread_frac=0.2,
        loose_kg_per_l=loose,
        pressed_kg_per_l=pressed,
        provenance=NOWHERE,
        density_provenance=NOWHERE,
        method=Method.RULE,
    )


@st.composite
def loads(draw):
    """A load of up to six materials, each with its own composition and density."""
    count = draw(st.integers(1, 6))
    found = {}
    for number in range(count):
        held = composition(draw(SHARES), draw(st.floats(0.0, 0.1)))
        found[material(f"m{number}", held, pressed=draw(st.floats(0.05, 1.5)))] = draw(st.floats(0.01, 100.0))
    return found
