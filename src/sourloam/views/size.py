"""What a sizing may show: the answer in a sentence, the chance, what binds, what would help."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.days import LONG_MONTHS
from sourloam.plan.question import Question
from sourloam.plan.sizing import Sizing, Tried
from sourloam.plan.words import Speech, days, share
from sourloam.views.reason import Number, Reason, number_of, reason_of

LINKS: Final = MappingProxyType(
    {
        "places": "finished batches wait for a place",
        "vessels": "all vessels still ferment",
        "bran": "the bag of bran is empty",
    }
)
LEAST_GAIN: Final = 0.02  # of the stalls: a change that takes away less is no help


@dataclass(frozen=True)
class SizeView:
    """A sizing."""

    site: str
    says: str
    is_enough: bool
    sizing: Sizing
    numbers: tuple[Number, ...]
    reasons: Mapping[str, Reason]
    names: Mapping[str, str]
    today: tuple[str, ...]
    lift_kg: float
    currency: str
    replications: int
    seed: int
    stopped: str
    speech: Speech

    @property
    def helping(self) -> tuple[Tried, ...]:
        """Return the options that take something off the stalls."""
        return tuple(each for each in self.sizing.options if self._helps(each))

    @property
    def useless(self) -> tuple[Tried, ...]:
        """Return the options that take nothing off the stalls."""
        return tuple(each for each in self.sizing.options if not self._helps(each))

    def _helps(self, option: Tried) -> bool:
        now = self.sizing.figures["stall_chance_per_week"].value
        return option.chance < now * (1.0 - LEAST_GAIN)


def size_view(
    sizing: Sizing, question: Question, *, names: Mapping[str, str], seed: int, asked: int, lived: bool
) -> SizeView:
    """Return what of a sizing is shown."""
    done = len(sizing.outcomes)
    return SizeView(
        site=question.site.facts.name or question.site.facts.id,
        says=_says(sizing),
        is_enough=sizing.figures["stall_chance_per_week"].value <= sizing.level,
        sizing=sizing,
        numbers=tuple(number_of(each) for each in sizing.figures.values()),
        reasons={name: reason_of(each, question.sources) for name, each in sizing.figures.items()},
        names=names,
        today=tuple(_today(sizing, question.speech, names)),
        lift_kg=question.site.keeper.lift_kg,
        currency=question.site.stock.currency,
        replications=done,
        seed=seed,
        stopped="" if lived else f"Stopped early: {done} of {asked} years were lived; what is missing was not tried.",
        speech=question.speech,
    )


def _says(sizing: Sizing) -> str:
    chance = sizing.figures["stall_chance_per_week"].value
    stalled = f"scraps have nowhere to go in {share(chance)} of the weeks"
    if chance <= sizing.level:
        return f"Enough: {stalled}, and {share(sizing.level)} are allowed."
    best = next(iter(sizing.options), None)
    if best is None or best.chance >= chance:
        return f"Not enough: {stalled}, and {share(sizing.level)} are allowed."
    word = "cheapest cure" if best.is_within(sizing.level) else "what helps most"
    return f"Not enough: {stalled}; {word}: {best.what}, then in {share(best.chance)}."


def _today(sizing: Sizing, speech: Speech, names: Mapping[str, str]) -> Iterator[str]:
    """Say what costs nothing where no vessel is open today."""
    full = sizing.full
    if full is None:
        return
    yield (
        f"All vessels are full or closed today. One is free in {days(full.free_in_d)}, at worst in "
        f"{days(full.free_late_d)}; until then {speech.litres(full.comes_l)} come, and caddy and cold hold "
        f"{speech.litres(full.holds_l)}."
    )
    if full.ready:
        yield f"{names.get(full.ready[0], full.ready[0])} is finished: empty it first, if a place takes it."
    yield "Keep what comes in the freezer, the fridge or a lidded tub in the cold until then; it costs nothing."
    if full.settled_l >= 0.5:
        name = names.get(full.settled, full.settled)
        yield f"{name} has sunk and takes {speech.litres(full.settled_l)} more: open it once, press, add bran, close."


def month_words(month: int, link: str) -> str:
    """Return what binds in a month."""
    return f"{LONG_MONTHS[month - 1]}: {LINKS[link]}"
