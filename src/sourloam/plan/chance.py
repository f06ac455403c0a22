"""What chance does to the year of a plan: as many years as a plan has time for, and the first cure that is enough."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from sourloam.base.figure import Figure
from sourloam.fleet.cures import candidates, commonest, with_vessels
from sourloam.fleet.outcome import outcome_of
from sourloam.fleet.replicate import Chances, stall_chance
from sourloam.plan.lived import LivedYears, lived_years
from sourloam.plan.question import Question
from sourloam.plan.sizing import LEVEL_FRAC, chance_figures, chances_of
from sourloam.site.site import Site

SEED: Final = 1  # the years of a plan are those of `sourloam size` with its own seed
YEARS: Final = 10  # a plan may take two seconds in all, and one readable year takes some hundredths of one
TRIED_YEARS: Final = 6  # with each cure, for the same reason
KINDS: Final = ("cold", "warmth", "day")  # those that cost nothing or a habit; one more vessel is tried last
NAME: Final = "stall_chance_per_week"


class Weighed(NamedTuple):
    """The chance of a stall, of how many years, and what would bring it within the level."""

    figure: Figure
    years: int
    cure: str  # in the voice of "What if you ...?"; empty where none is needed or none was enough
    cured_frac: float  # stalled weeks with it
    lived: LivedYears

    @property
    def is_enough(self) -> bool:
        """Whether the chance is within the level that a keeper is held to."""
        return self.figure.value <= LEVEL_FRAC


def weighed(question: Question, *, seeks_cure: bool) -> Weighed:
    """Live the year of a plan some times with chance; where it stalls too often, look for the first cure if asked."""
    chances = chances_of(question, seed=SEED)
    lives = [chances.live(question.site, number) for number in range(YEARS)]
    outcomes = [outcome_of(each, question.site) for each in lives]
    figure = chance_figures(question, outcomes, failing_frac=chances.failing_frac)[NAME]
    lived = lived_years(outcomes, lives.__getitem__, question.site, level=LEVEL_FRAC)
    found = Weighed(figure, YEARS, "", figure.value, lived)
    return found if found.is_enough or not seeks_cure else _with_cure(found, question, chances)


def _with_cure(found: Weighed, question: Question, chances: Chances) -> Weighed:
    for what, site in _tried(question.site, question.climate.indoors_c):
        chance, _ = stall_chance(chances.outcome(site, number) for number in range(TRIED_YEARS))
        if chance <= LEVEL_FRAC:
            return found._replace(cure=question.speech.told(what), cured_frac=chance)
    return found


def _tried(site: Site, indoors_c: float) -> Iterator[tuple[str, Site]]:
    for kind, what, changed in candidates(site, indoors_c, is_place_bound=False):
        if kind in KINDS:
            yield what, changed
    yield f"add one more vessel of {commonest(site).volume_l:.3g} L", with_vessels(site, len(site.vessels) + 1)
