"""Use case: something is wrong, and nobody knows what: at most five questions, and the answer by the watch."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Final

from sourloam.base.figure import Figure, derive, written
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.signs import load_signs
from sourloam.evidence.sources import load_sources
from sourloam.plan.words import Speech
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.ground.rest import rest_d
from sourloam.science.watch.asking import most_telling
from sourloam.science.watch.insects import InsectParameters, left_kg, stage_d
from sourloam.service.batches import AskedBatch
from sourloam.service.watch import MEMBERS, USUAL_C, AskedWatch, Compiler, Says, watched
from sourloam.service.wrong_answers import KINDS, sign_of
from sourloam.views.reason import reason_of
from sourloam.views.trouble import (
    FIRST,
    MOST,
    OPEN,
    QUESTIONS,
    SHORT,
    TROUBLE,
    Question,
    TroubleView,
    needless,
    so_asked,
)
from sourloam.views.trouble_insects import OUT, flies, grubs, of_liquid, worm_flies
from sourloam.views.trouble_words import filled_so, frozen, full, learned, planted
from sourloam.views.watch import WatchView

USUAL_D: Final = 14
USUAL_BRAN_KG: Final = 0.15  # what `mix` advises on 10 kg of mixed scraps
OLD_CADDY: Final = "4 days"
INSTEAD: Final = ("flies", "many", "worms")  # insects that make the vessel itself beside the point
FILLED: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {  # in place of 10 kg of mixed scraps
        "meat": ("5 kg vegetable peelings", "5 kg raw meat trimmings"),
        "wet": ("6 kg mixed household scraps", "4 kg melon"),
    }
)


@dataclass(frozen=True)
class Answered:
    """What was answered, by the name of each question; an empty answer means that somebody cannot tell."""

    given: Mapping[str, str] = field(default_factory=dict)
    units: str | None = None
    members: int = MEMBERS

    @property
    def trouble(self) -> str:
        """Return what made somebody look."""
        return self.given.get("trouble", "")

    def said(self, name: str, answer: str) -> "Answered":
        """Return the answers with one more."""
        return Answered({**self.given, name: answer}, self.units, self.members)


def next_question(answered: Answered) -> Question | None:
    """Return what to ask next, the most telling first; nothing after five, or where two are enough."""
    given = answered.given
    if "trouble" not in given:
        return TROUBLE
    if len(given) >= MOST:
        return None
    for name in FIRST[answered.trouble]:
        if name not in given and not needless(name, given):
            return so_asked(name, answered.trouble)
    left = [each for each in OPEN if each not in given]
    if answered.trouble in SHORT or given.get("insects") in INSTEAD or not left:
        return None
    signs = load_signs()
    seen = [sign for name, answer in given.items() for sign in [sign_of(name, answer)] if sign]
    options = [(name, _options(name)) for name in left]
    return QUESTIONS[most_telling(options, seen, signs)]


def _options(name: str) -> tuple[str, ...]:
    if name == "fizz":
        return ("low", "middle", "high")
    return tuple(dict.fromkeys(each.sign for each in QUESTIONS[name].choices))


def answer_of(answered: Answered, *, compiler: Compiler | None = None, says: Says | None = None) -> TroubleView:
    """Return what is wrong and what to do.

    Raises
    ------
    BadInput
        If an answer cannot be used.
    """
    given = answered.given
    day = int(given.get("days") or USUAL_D)
    warmth = given.get("warmth") or None
    readings = tuple(_readings(given, day))
    is_short = answered.trouble in SHORT or given.get("insects") in INSTEAD
    # What is asked of a frozen vessel is how it goes on once it has thawed, there; of a planted one, the soil.
    at = warmth if answered.trouble != "planted" else None
    batch = AskedBatch(
        FILLED.get(given.get("fed", ""), ()),
        at=at or USUAL_C,
        bran_kg=USUAL_BRAN_KG if given.get("fed") == "meat" else None,  # with no more of it for the meat
        has_drain=False if given.get("wet") == "stands" else None,
        units=answered.units,
        members=answered.members,
    )
    view = watched(AskedWatch(batch, readings, day, is_advised=not is_short), compiler=compiler, says=says)
    if batch.batch:
        stands_for = view.batch.speech.told(" and ".join(batch.batch))
        view = _assumed(view, f"{stands_for} stand for what went in.")
    if at is None:
        view = _assumed(view, f"It stands at {view.batch.speech.celsius(_celsius(None))}, an ordinary room.")
    told = tuple((name, answer or "I cannot tell") for name, answer in given.items())
    if is_short:
        return _short(answered, view, told, day=day, warmth=warmth)
    usual = None
    if batch.batch:  # what the same would be with usual scraps
        usual = watched(
            AskedWatch(replace(batch, batch=(), bran_kg=None), (), day, is_advised=False), compiler=compiler, says=says
        )
    view = replace(view, causes=(*filled_so(given, view, usual), *view.causes))
    liquid = of_liquid(view, given.get("liquid", ""), day) if answered.trouble == "liquid" else ""
    return TroubleView(
        answered.trouble,
        told,
        view.heading,
        f"{view.says} {liquid}".strip(),
        view.is_sound,
        view.do,
        tuple(each.what for each in view.look_next),
        view.worry_if,
        view.route,
        (*view.hints, *learned(given)),
        replace(view, says=f"{view.says} {liquid}".strip(), hints=(*view.hints, *learned(given))),
    )


def _assumed(view: WatchView, says: str) -> WatchView:
    return replace(view, batch=replace(view.batch, assumptions=(says, *view.batch.assumptions)))


def _readings(given: Mapping[str, str], day: int) -> Iterator[str]:
    """Give the answers as readings."""
    for name, kind in KINDS.items():
        sign = sign_of(name, given.get(name, ""))
        if sign:
            where = f" {given['where']}" if name == "smell" and given.get("where") else ""
            yield f"day {day} {kind} {sign}{where}"
    if given.get("fizz"):
        yield f"day {day} fizz {given['fizz']}"
    if given.get("liquid"):
        yield f"day {day} leachate {given['liquid']}"
    if given.get("fed") == "old":
        yield f"day 0 caddy {OLD_CADDY}"
    if given.get("fed") == "nobran":
        yield "day 0 bran none"
    if given.get("trouble") == "maggots" or given.get("insects") in ("few", "many"):
        yield f"day {day} larvae yes"
    if given.get("trouble") == "bulging":
        yield f"day {day} lid bulging"


def _short(
    answered: Answered, view: WatchView, told: tuple[tuple[str, str], ...], *, day: int, warmth: str | None
) -> TroubleView:
    """Return the answer to what is no matter of signs: no room, frost, roots that came too early."""
    speech = Speech(answered.units or "metric")
    reasons = dict(view.reasons)
    given_insects = answered.given.get("insects", "")
    if answered.trouble == "planted":
        soil_c = _celsius(warmth)
        bed = load_parameters(BedParameters, "bed")
        soil = written("soil_c", soil_c, "Cel", words="warmth of the soil")
        rest = derive(
            "rest_d", rest_d, words="rest before planting", soil_c=soil, at_20c_d=bed.rest_at_20c_d, q10=bed.rest_q10
        )
        reasons["rest_d"] = reason_of(rest, load_sources())
        said = planted(rest, day, soil_c=soil_c, stops_c=bed.rest_stops_c.value, speech=speech)
    elif given_insects in INSTEAD:
        found = _insects(view, warmth)
        reasons |= {name: reason_of(each, load_sources()) for name, each in found.items()}
        warm = speech.celsius(_celsius(warmth))
        said = (
            grubs(view, found, speech=speech)
            if given_insects == "many"
            else (flies if given_insects == "flies" else worm_flies)(found, warm=warm, speech=speech)
        )
    elif answered.trouble == "frozen":
        said = frozen(view, speech.celsius(_celsius(warmth)))
    else:
        said = full(view, day)
    do = tuple(replace(each, do=speech.told(each.do), because=speech.told(each.because)) for each in said.do)
    return TroubleView(
        answered.trouble, told, said.heading, f"{said.heading} {said.rest}".strip(), said.is_well, do,
        said.look_next, said.worry_if, speech.told(OUT) if given_insects == "many" else "",
        tuple(speech.told(each) for each in said.hints),
        replace(view, reasons=reasons), is_short=True,
    )  # fmt: skip


def _celsius(warmth: str | None) -> float:
    return float((warmth or USUAL_C).split()[0])


def _insects(view: WatchView, warmth: str | None) -> dict[str, Figure]:
    """Return the figures of flies and grubs."""
    known = load_parameters(InsectParameters, "insects")
    room = written("room_c", _celsius(warmth), "Cel", words="warmth of the room")
    laid = sum(each.mass.value for layer in view.batch.filling.layers for each in layer.portions)
    scraps = written("laid_kg", laid, "kg", words="what was laid in")
    stage = {"room_c": room, "stops_c": known.fly_stops_c}
    return {
        "hatch_d": derive(
            "hatch_d", stage_d, words="days until eggs hatch", degree_days=known.fly_hatch_degree_days, **stage
        ),
        "clear_d": derive(
            "clear_d",
            stage_d,
            words="days until the last egg is a fly",
            degree_days=known.fly_grown_degree_days,
            **stage,
        ),
        "left_kg": derive("left_kg", left_kg, words="left by grubs", laid_kg=scraps, eaten_frac=known.grubs_eat_frac),
        "laid_kg": scraps,
        "stops_c": known.fly_stops_c,
        "mesh_mm": known.mesh_mm,
        "bedding_mm": known.bedding_mm,
    }
