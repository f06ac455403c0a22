"""What the plan is asked: a site, its situation, and everything known that bears on it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from sourloam.base.days import YEAR_D
from sourloam.base.fields import Assumption
from sourloam.base.source import Source
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.setting import Year, year_of
from sourloam.plan.words import Speech
from sourloam.science.batch.cautions import Caution
from sourloam.science.climate.climate import Climate
from sourloam.site.site import Site
from sourloam.site.situation import Situation


@dataclass(frozen=True)
class Question:
    """A year to be planned."""

    site: Site
    first: date
    situation: Situation  # on the first day
    climate: Climate
    knowledge: Knowledge
    cautions: tuple[Caution, ...]
    sources: Mapping[str, Source]
    assumptions: tuple[Assumption, ...] = ()
    days: int = YEAR_D

    @property
    def speech(self) -> Speech:
        """Return the units in which the keeper is spoken to."""
        return Speech(self.site.keeper.units)

    @cached_property
    def year(self) -> Year:
        """Return the year as it comes to the site, worked out once."""
        return year_of(self.site.streams, self.first, self.days, climate=self.climate, knowledge=self.knowledge)
