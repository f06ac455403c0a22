"""Invariants of the whole chain, from a site file to the end of a year, over generated sites."""

import re
from datetime import timedelta

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sourloam.base.figure import recomputed
from sourloam.plan.figures import figures
from sourloam.plan.forecast import batches
from sourloam.plan.ground import ground
from sourloam.plan.matter import matter
from tests.fleet.sites import KNOWN, lived, question

MATERIALS = sorted(each.id for each in KNOWN().materials.values() if each.kind != "liquid" and each.rule.name != "NO")
PLACES = {
    "bed": '[[bed]]\nid = "bed"\narea = "{size} m2"\ndug = "strips"\n',
    "pile": '[[pile]]\nid = "pile"\nvolume = "{size}00 L"\nbrowns = "100 L"\nbrowns_coming = "10 L/week"\n',
    "worm": '[[worm_bin]]\nid = "worms"\narea = "0.5 m2"\nworms = "0.{size} kg"\nstands = "indoors"\n',
    "tub": '[[soil_tub]]\nid = "tub"\nvolume = "{size}0 L"\nstands = "indoors"\n',
    "garden": '[[taker]]\nid = "shared"\nkind = "shared-garden"\nlitres = "{size} L"\ndays = ["sun"]\n',
    "waste": '[[taker]]\nid = "grey"\nkind = "waste-bin"\n',
}
STATES = ("empty", "filling", "fermenting", "ready")


@st.composite
def sites(draw):
    """Write a site as a person might: one or two streams, some vessels, one to four kinds of place."""
    parts = draw(st.lists(st.sampled_from(MATERIALS), min_size=1, max_size=3, unique=True))
    shares = ", ".join(f'{each} = "{100 / len(parts):.6f} %"' for each in parts)
    amount = draw(st.sampled_from(["300 g/day", "5 kg/week", "9 L/week", "12 kg/week"]))
    stream = f'[[stream]]\nid = "kitchen"\namount = "{amount}"\nmaterials = {{ {shares} }}\n'
    if draw(st.booleans()):
        stream += 'absences = ["2027-07-01 to 2027-07-14"]\ngluts = ["2027-09-01 to 2027-09-20 x 3"]\n'
    stands = draw(st.sampled_from(["kitchen", "cellar", "shed", "outdoors"]))
    vessel = (
        f'[[vessel]]\nid = "pail"\ncount = {draw(st.integers(1, 5))}\nvolume = "{draw(st.integers(8, 60))} L"\n'
        f'stands = "{stands}"\nstate = "{draw(st.sampled_from(STATES))}"\n'
        f"drain = {str(draw(st.booleans())).lower()}\n"
    )
    kinds = draw(st.lists(st.sampled_from(sorted(PLACES)), min_size=1, max_size=4, unique=True))
    places = "".join(PLACES[kind].format(size=draw(st.integers(1, 9))) for kind in kinds)
    keeper = f'[keeper]\ndays = ["sat"]\nfreezer = "{draw(st.integers(0, 30))} L"\n'
    return {"stream": stream, "vessel": vessel, "taker": places, "keeper": keeper}


def slow(examples):
    return settings(max_examples=examples, suppress_health_check=[HealthCheck.too_slow])


@slow(25)
@given(sites())
def test_mass_and_nitrogen_are_kept_from_the_first_day_to_the_last(tables):
    # `simulate` refuses any day whose mass does not balance; the year is added up once more from its parts.
    asked = question(**tables)
    life = lived(asked)
    ledger = matter(life)
    assert sum(each.mass_kg for each in ledger.came) == pytest.approx(sum(each.mass_kg for each in ledger.became))
    for batch in life.batches:
        placed_g = sum(each.nitrogen_g for each in batch.placings)
        assert placed_g <= batch.contents.nitrogen_g * (1 + 1e-9)
    got = {each.place: each.got_kg for each in ground(asked, life)}
    for state in life.end.places:
        assert got[state.place] == pytest.approx(sum(each.mass_kg for each in state.receipts))


@slow(15)
@given(sites())
def test_every_batch_keeps_the_order_of_its_days_and_its_forecast(tables):
    asked = question(**tables)
    for batch in batches(asked, lived(asked)):
        known = [each for each in (batch.first_layer, batch.sealed, batch.ready, batch.placed) if each]
        assert known == sorted(known)
        if batch.ready:
            assert batch.ready_low <= batch.ready
            assert batch.ready_high is None or batch.ready <= batch.ready_high


@slow(15)
@given(sites())
def test_figures_recompute_and_are_never_negative(tables):
    asked = question(**tables)
    for figure in figures(asked).values():
        assert np.array_equal(recomputed(figure), figure.members, equal_nan=True)
        assert np.all(figure.members[np.isfinite(figure.members)] >= 0.0), figure.name
        assert np.isnan(figure.value) or figure.low <= figure.value <= figure.high


@slow(15)
@given(sites())
def test_a_stall_is_a_day_on_which_something_is_turned_away(tables):
    life = lived(question(**tables))
    for day in life.days:
        assert day.is_stalled == (day.turned_away_kg > 0.0) == (day.binding != "")
    told = {first + timedelta(days=k) for first, last, _ in life.stalls() for k in range((last - first).days + 1)}
    assert {day.on for day in life.days if day.is_stalled} <= told


@slow(10)
@given(sites())
def test_it_does_not_matter_in_which_unit_an_amount_is_written(tables):
    # 1 lb is 0.45359237 kg by definition.
    metric = re.sub(r'amount = ".*"', 'amount = "5 kg/week"', tables["stream"])
    tables = tables | {"stream": metric}
    other = tables | {"stream": metric.replace("5 kg/week", f"{5 / 0.45359237!r} lb/week")}
    kilograms, pounds = (sum(day.placed_kg for day in lived(question(**each)).days) for each in (tables, other))
    assert pounds == pytest.approx(kilograms, rel=1e-6)
