"""Somebody who takes a batch: a neighbour, a shared garden, a collection; last of all the waste bin."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final

from sourloam.base.days import daily, weekday
from sourloam.base.fields import Key
from sourloam.base.figure import Figure
from sourloam.base.kinds import WEEK, Choice, Day, Flag, Ident, Text, Whole, amount
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
from sourloam.science.places.offer import (
    UNSOUND,
    Effect,
    Limit,
    Offer,
    PlaceState,
    Receipt,
    nothing,
    part_given,
    spoken,
    tightest,
)

KINDS: Final = ("neighbour", "shared-garden", "collection", "waste-bin")
TAKES_UNSOUND: Final = ("collection", "waste-bin")
NOT_SANITISED: Final = "fermented-scraps-are-not-sanitised"
FARMED_ANIMALS: Final = "feeding-kitchen-or-catering-waste-to-farmed-animals"


@dataclass(frozen=True)
class Taker:
    """Who takes batches away, when, and how much."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    kind: Annotated[str, Key("kind", Choice(KINDS), "Who it is; the waste bin is always there, and asked last.")]
    name: Annotated[str, Key("name", Text(80), "What you call them.", default="")] = ""
    days: Annotated[
        tuple[str, ...], Key("days", WEEK, "On which days they take something; any day if left out.", default=[])
    ] = ()
    every_weeks: Annotated[int, Key("every_weeks", Whole(1, 12), "Every how many weeks.", default=1)] = 1
    first: Annotated[
        date | None,
        Key("first", Day(), "The first day on which they come; weeks are counted from it.", default=None),
    ] = None
    litres_l: Annotated[
        float | None,
        amount(
            "litres",
            "0.5 L",
            "5000 L",
            help="How much they take at each visit.",
            default=None,
            assume="At each visit a neighbour or shared garden takes 20 L, a collection or the waste bin all there is.",
        ),
    ] = None
    takes_meat: Annotated[
        bool,
        Key("meat", Flag(), "Whether they take batches into which meat, fish, egg or dairy went.", default=True),
    ] = True
    terms: Annotated[str, Key("terms", Text(), "What was agreed: no meat, own bucket back.", default="")] = ""

    def at_start(self, on: date) -> PlaceState:
        """Return its state on the first day."""
        return PlaceState(self.id)

    @property
    def is_last_resort(self) -> bool:
        """Whether it is asked only when nobody else takes the batch."""
        return self.kind == "waste-bin"

    def comes_on(self, day: date) -> bool:
        """Whether something is taken on a day."""
        if self.is_last_resort:
            return True
        if self.first and day < self.first:
            return False
        monday = (self.first or date.min).toordinal() - (self.first or date.min).weekday()
        weeks = (day.toordinal() - monday) // 7
        return weeks % self.every_weeks == 0 and (not self.days or weekday(day) in self.days)

    def next_visit(self, day: date) -> date:
        """Return the first day from `day` on, on which something is taken."""
        start = max(day, self.first or day)
        return next(each for each in daily(start, 7 * (self.every_weeks + 1)) if self.comes_on(each))


@dataclass(frozen=True)
class TakerParameters:
    """Filled from `parameters/taker.toml`."""

    usual_l: Figure  # what a neighbour or shared garden takes at a visit, where nothing was agreed


@dataclass(frozen=True)
class TakerPlace:
    """A taker with the numbers that it goes by."""

    taker: Taker
    p: TakerParameters

    @property
    def id(self) -> str:
        """Return the id of the taker."""
        return self.taker.id

    @property
    def agreed_l(self) -> float:
        """Return the litres that are taken at a visit."""
        if self.taker.litres_l is not None:
            return self.taker.litres_l
        return float("inf") if self.taker.kind in TAKES_UNSOUND else self.p.usual_l.value

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much is taken away: on their days, up to their litres, and of most only what is sound."""
        if product.state != "ready" and self.taker.kind not in TAKES_UNSOUND:
            return nothing(self.id, f"{UNSOUND[product.state]}, and they take only what is sound")
        if product.animal_matter and not self.taker.takes_meat:
            return nothing(self.id, "they take nothing with meat or fish in it")
        if not self.taker.comes_on(on):
            return nothing(self.id, f"next taken on {spoken(self.taker.next_visit(on), on)}")
        left_l = self._left_l(state, on)
        if left_l <= 0.0:
            return nothing(self.id, "took its litres today")
        by_volume = product.mass_kg * left_l / product.volume_l if product.volume_l > 0.0 else product.mass_kg
        limit = tightest(product, Limit(by_volume, f"{left_l:.3g} L at each visit"))
        return Offer(self.id, limit.kg, limit.words, self._effect(), 0.0, self._cautions())

    def after(
        self,
        state: PlaceState,
        product: Product,
        mass_kg: float,
        on: date,
        *,
        climate: Climate,
    ) -> tuple[PlaceState, Effect]:
        """Return the taker after `mass_kg` was handed over.

        Raises
        ------
        OutOfRange
            If that is nothing, or more than there is.
        """
        part = part_given(product, mass_kg)
        receipt = Receipt(on, part.batch, part.mass_kg, part.volume_l, part.nitrogen_g, usable_on=on)
        return state.given(receipt), Effect(part.mass_kg, part.nitrogen_g, on, self._cautions())

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first visit on which there is room after all that it got.

        One that got nothing has always been free: the earliest date there is.
        """
        if not state.receipts:
            return date.min
        last = max(each.on for each in state.receipts)
        if self.taker.comes_on(last) and self._left_l(state, last) > 0.0:
            return last
        return self.taker.next_visit(last + timedelta(days=1))

    def _left_l(self, state: PlaceState, on: date) -> float:
        """Return the litres that are left of a visit."""
        return max(self.agreed_l - sum(each.volume_l for each in state.receipts if each.on == on), 0.0)

    def _effect(self) -> str:
        """Say what becomes of it."""
        if self.taker.is_last_resort:
            return "goes to waste"
        return f"taken away{': ' + self.taker.terms if self.taker.terms else ''}"

    def _cautions(self) -> tuple[str, ...]:
        """Return the cautions that arise where a batch leaves the site."""
        return () if self.taker.is_last_resort else (NOT_SANITISED, FARMED_ANIMALS)
