"""What rots cold, and what waits: leaf mould, a cold pile, green matter soured until there is enough for a pile."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, written
from sourloam.base.numbers import FloatArray, keep_shape

TOUGH: Final = ("oak-leaves", "beech-leaves", "evergreen-leaves", "pine-needles", "walnut-leaves")
SHRINKS_TO: Final = 0.25  # of its room, of leaves that are done; judgement
MONTHS_IN_YEAR: Final = 12.0


@dataclass(frozen=True)
class SlowParameters:
    """Filled from `parameters/slow_pile.toml`."""

    cold_d: Figure
    vanish_d: Figure
    q10: Figure
    soft_months: Figure
    tough_times: Figure
    shredded_times: Figure
    dry_times: Figure
    halves_months: Figure
    sack_l: Figure
    lying_frac_per_wk: Figure
    soured_frac: Figure
    pressed_frac: Figure


@law("months of soft leaves × what toughness, shredding and dryness do", unit="mo")
def mould_months(
    soft_months: ArrayLike, *, tough: ArrayLike, shredded: ArrayLike, dry: ArrayLike
) -> float | FloatArray:
    """Return the months until leaves are leaf mould."""
    return keep_shape(_f(soft_months) * _f(tough) * _f(shredded) * _f(dry))


@law("volume × 0.5^(months ÷ half time), to a quarter at the least", unit="L")
def left_l(volume_l: ArrayLike, months: ArrayLike, halves_months: ArrayLike, speed: ArrayLike) -> float | FloatArray:
    """Return the room that leaves take after some months."""
    part = 0.5 ** (_f(months) / (_f(halves_months) * _f(speed)))
    return keep_shape(_f(volume_l) * np.maximum(part, SHRINKS_TO))


@law("days at 15 °C × Q10^((15 − T) ÷ 10) ÷ 30.4", unit="mo")
def cold_months(cold_d: ArrayLike, q10: ArrayLike, mean_c: ArrayLike) -> float | FloatArray:
    """Return the months in which a cold pile is done."""
    return keep_shape(_f(cold_d) * _f(q10) ** ((15.0 - _f(mean_c)) / 10.0) * MONTHS_IN_YEAR / 365.25)


@law("days at 18 °C × Q10^((18 − T) ÷ 10)", unit="d")
def vanish_d(days: ArrayLike, q10: ArrayLike, mean_c: ArrayLike) -> float | FloatArray:
    """Return the days until a batch is no longer to be told from the rest of a cold pile."""
    return keep_shape(_f(days) * _f(q10) ** ((18.0 - _f(mean_c)) / 10.0))


@law("room of the pile ÷ what a week brings, loose", unit="wk")
def saving_weeks(wanted_l: ArrayLike, weekly_l: ArrayLike) -> float | FloatArray:
    """Return the weeks until there is enough."""
    return keep_shape(_f(wanted_l) / _f(weekly_l))


@law("what is kept, trodden down ÷ room of a vessel", unit="{vessel}")
def vessels(wanted_l: ArrayLike, pressed_frac: ArrayLike, vessel_l: ArrayLike) -> float | FloatArray:
    """Return the vessels that hold it until then."""
    return keep_shape(np.ceil(_f(wanted_l) * _f(pressed_frac) / _f(vessel_l)))


@law("100 × (1 − (1 − loss of a week)^(half of the weeks))", unit="%")
def lost_lying_pct(weeks: ArrayLike, lying_frac_per_wk: ArrayLike) -> float | FloatArray:
    """Return the nitrogen that is lost where it lies until then; the mean of what came first and last."""
    return keep_shape(100.0 * (1.0 - (1.0 - _f(lying_frac_per_wk)) ** (_f(weeks) / 2.0)))


@law("100 × loss soured", unit="%")
def lost_soured_pct(soured_frac: ArrayLike) -> float | FloatArray:
    """Return the nitrogen that is lost where it is soured and shut."""
    return keep_shape(100.0 * _f(soured_frac))


@law("browns of a year ÷ what a sack holds", unit="{sack}")
def sacks(browns_l: ArrayLike, sack_l: ArrayLike) -> float | FloatArray:
    """Return the sacks of leaves to keep dry in autumn."""
    return keep_shape(np.ceil(_f(browns_l) / _f(sack_l)))


def leaf_figures(
    litres: float, p: SlowParameters, *, is_tough: bool, is_shredded: bool, is_dry: bool, months: float
) -> dict[str, Figure]:
    """Return when leaves are leaf mould, and how much is left of them."""
    count = p.q10.members.size

    def times(figure: Figure, *, holds: bool, words: str) -> Figure:
        return figure if holds else written(words.replace(" ", "_"), 1.0, "1", words=words, members=count)

    shredded = times(p.shredded_times, holds=is_shredded, words="left whole")
    done = derive(
        "mould_months",
        mould_months,
        words="months until it is leaf mould",
        soft_months=p.soft_months,
        tough=times(p.tough_times, holds=is_tough, words="soft leaves"),
        shredded=shredded,
        dry=times(p.dry_times, holds=is_dry, words="kept moist"),
    )
    left = derive(
        "left_l",
        left_l,
        words=f"room that is left of them after {months:.0f} months",
        volume_l=written("volume_l", litres, "L", words="leaves as they are sacked", members=count),
        months=written("months", months, "mo", words="months", members=count),
        halves_months=p.halves_months,
        speed=shredded,
    )
    return {"mould_months": done, "left_l": left}


def saving_figures(
    weekly_l: float, wanted_l: float, vessel_l: float, p: SlowParameters, *, mean_c: float = 15.0
) -> dict[str, Figure]:
    """Return how long green matter is saved up, in how many vessels, and what that keeps."""
    count = p.q10.members.size
    weekly = written("weekly_l", weekly_l, "L", words="what a week brings, loose", members=count)
    wanted = written("wanted_l", wanted_l, "L", words="room of the pile", members=count)
    vessel = written("vessel_l", vessel_l, "L", words="room of a vessel", members=count)
    mean = written("mean_c", mean_c, "Cel", words="mean temperature", members=count)
    weeks = derive("saving_weeks", saving_weeks, words="weeks until there is enough", wanted_l=wanted, weekly_l=weekly)
    many = derive(
        "vessels", vessels, words="vessels that hold it", wanted_l=wanted, pressed_frac=p.pressed_frac, vessel_l=vessel
    )
    lying = derive(
        "lost_lying_pct",
        lost_lying_pct,
        words="nitrogen lost, if it lies in a heap until then",
        weeks=weeks,
        lying_frac_per_wk=p.lying_frac_per_wk,
    )
    soured = derive(
        "lost_soured_pct", lost_soured_pct, words="nitrogen lost, soured and shut", soured_frac=p.soured_frac
    )
    cold = derive(
        "cold_months", cold_months, words="months, piled cold as it comes", cold_d=p.cold_d, q10=p.q10, mean_c=mean
    )
    return {each.name: each for each in (weeks, many, lying, soured, cold)}


def cold_figures(mean_c: float, p: SlowParameters) -> dict[str, Figure]:
    """Return how long a pile takes that rots cold, at a mean temperature outdoors; one that warms is sooner."""
    mean = written("mean_c", mean_c, "Cel", words="mean temperature outdoors", members=p.q10.members.size)
    done = derive("cold_months", cold_months, words="months, if it rots cold", cold_d=p.cold_d, q10=p.q10, mean_c=mean)
    gone = derive(
        "vanish_d",
        vanish_d,
        words="days until the batch is not to be told from it",
        days=p.vanish_d,
        q10=p.q10,
        mean_c=mean,
    )
    return {each.name: each for each in (done, gone)}


def _f(values: ArrayLike) -> FloatArray:
    return np.asarray(values, dtype=float)
