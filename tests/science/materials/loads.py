"""Materials made up for tests, so that a law is tested apart from the packaged table."""

from hypothesis import strategies as st

from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.science.materials.composition import (
    CONSTITUENTS,
    MINERALS,
    Composition,
    Flora,
    Ground,
    Group,
    Material,
    Method,
    Persists,
    Provenance,
    Rule,
)

NOWHERE = Ground(Provenance("judgement", "made up", Basis.JUDGEMENT), Method.RULE, 0.2)
SHARES = st.lists(st.floats(0.01, 1.0), min_size=len(CONSTITUENTS), max_size=len(CONSTITUENTS))
USUAL = (0.8, 0.03, 0.01, 0.05, 0.02, 0.05, 0.01, 0.003, 0.005, 0.001, 0.001, 0.02)


def composition(shares, nitrogen=0.01):
    whole = sum(shares)
    parts = {f"{name}_wb_frac": share / whole for name, share in zip(CONSTITUENTS, shares, strict=True)}
    minerals = dict.fromkeys((f"{name}_wb_frac" for name in MINERALS), 0.002)
    return Composition(**parts, nitrogen_wb_frac=nitrogen, **minerals)


def material(name, held=None, *, kind="vegetable", rule=Rule.YES, at_most=1.0, loose=0.3, pressed=0.6):
    held = held or composition(USUAL)
    return Material(
        id=name,
        name=name.replace("-", " "),
        synonyms=(),
        kind=kind,
        family=kind,
        animal=False,
        rule=rule,
        reason="A reason.",
        preparation="",
        at_most_frac=at_most,
        is_barred_by_strict=False,
        persists=Persists.WEEKS,
        composition=held,
        water_low_wb_frac=max(held.water_wb_frac - 0.1, 0.0),
        water_high_wb_frac=min(held.water_wb_frac + 0.1, 0.99),
        ph=Spread(5.8, 5.4, 6.2, "normal"),
        buffering_meq_per_kg_dry=None,
        alkali=None,
        loose_kg_per_l=loose,
        pressed_kg_per_l=pressed,
        held_kg_per_kg_dry=2.5,
        piece_mm=30.0,
        piece_kg=None,
        flora=Flora(3.5, 5.0, 4.0, 2.5),
        grounds=dict.fromkeys((group for group in Group if group is not Group.ALKALI), NOWHERE),
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
