"""Three months of Quillet Yard, day by day, as two households would write them down: what they typed, and what was so.

What is so is kept here on its own, as plain numbers, and knows nothing of entries: the views are held against it.
"""

import random
from dataclasses import dataclass, field
from datetime import date, timedelta

FIRST = date(2027, 3, 1)
DAYS = 92
FULL_KG = 11.0
VESSELS = ("blue-1", "blue-2", "green-1", "green-2")
PLACES = ("long-bed", "hedge", "heap", "worms")
SEALED_D = 21


@dataclass
class Vessel:
    """What lies in a vessel in truth."""

    phase: str = "empty"
    kg: float = 0.0
    sealed_on: date | None = None
    fillings: int = 0


@dataclass
class Yard:
    """The yard as it is in truth, and what its keepers type; a slip is typed first and then put right."""

    chance: random.Random
    bran_kg: float
    vessels: dict = field(default_factory=lambda: {each: Vessel() for each in VESSELS})
    placed_kg: dict = field(default_factory=dict)
    drawn_l: float = 0.0
    laid_kg: float = 0.0
    ended: int = 0
    failed: int = 0

    def day(self, on):
        """Give what is typed on a day: (words, day on which it happened, what follows: keep, undo or correct)."""
        yield from self._feed(on)
        for name, vessel in self.vessels.items():
            if vessel.phase == "sealed":
                yield from self._watch(name, vessel, on)
        if on.weekday() == 5 and self.bran_kg < 2.0:
            self.bran_kg += 3.0
            yield "bagged 3 kg bran" if self.chance.random() < 0.5 else "bran 3 kg bought", on, "keep"
        if on.day == 15:
            yield "note: counted the buckets, all there", on, "keep"

    def _feed(self, on):
        filling = next((name for name, each in self.vessels.items() if each.phase == "filling"), None)
        name = filling or next((each for each in VESSELS if self.vessels[each].phase == "empty"), None)
        if name is None:
            return
        kg = round(self.chance.uniform(0.4, 1.9), 1)
        bran_g = 10 * round(4 * kg)
        yield from self._slip(name, kg, bran_g, on)
        vessel = self.vessels[name]
        if vessel.phase == "empty":
            self.vessels[name] = vessel = Vessel("filling", fillings=vessel.fillings + 1)
        vessel.kg += kg + bran_g / 1000
        self.laid_kg += kg + bran_g / 1000
        self.bran_kg -= bran_g / 1000
        if vessel.kg > FULL_KG:
            vessel.phase, vessel.sealed_on = "sealed", on
            yield f"{name} sealed", on, "keep"

    def _slip(self, name, kg, bran_g, on):
        """Type a layer: mostly right, else into another vessel and taken back, with a wrong weight and put right."""
        right = f"{name} {kg} kg vegetable scraps, {bran_g} g bran"
        luck = self.chance.random()
        others = [each for each in VESSELS if each != name and self.vessels[each].phase in ("empty", "filling")]
        if luck < 0.08 and others:
            yield f"{others[0]} {kg} kg vegetable scraps, {bran_g} g bran", on, "undo"
            yield right, on, "keep"
        elif luck < 0.16:
            yield f"{name} {kg * 10} kg vegetable scraps, {bran_g} g bran", on, f"correct:{right}"
        elif luck < 0.22 and self.vessels[name].kg + kg + bran_g / 1000 <= FULL_KG:
            yield right, on, "late"
        elif luck < 0.26:
            yield right, on, "twice"
        else:
            yield right, on, "keep"

    def _watch(self, name, vessel, on):
        days = (on - vessel.sealed_on).days
        if days % 5 == 4:
            litres = round(self.chance.uniform(0.05, 0.3), 2)
            vessel.kg -= litres
            self.drawn_l += litres
            yield f"drew {int(litres * 1000)} ml off {name}, amber, smells sour", on, "keep"
        if days == 10:
            yield f"{name} ph 3.9", on, "keep"
        if days >= SEALED_D:
            yield from self._empty(name, vessel, on)

    def _empty(self, name, vessel, on):
        place = PLACES[self.ended % len(PLACES)]
        if self.ended % 3 == 1:
            self.failed += 1
            yield f"{name} failed yeasty", on, "keep"
        if self.chance.random() < 0.3:
            part = round(vessel.kg / 2, 1)
            yield f"{part} kg from {name} to heap", on, "keep"
            self._put("heap", part)
            vessel.kg -= part
        yield f"{name} to {place}", on, "keep"
        self._put(place, vessel.kg)
        self.ended += 1
        self.vessels[name] = Vessel(fillings=vessel.fillings)
        yield f"{name} washed", on, "keep"

    def _put(self, place, kg):
        self.placed_kg[place] = self.placed_kg.get(place, 0.0) + kg


def days():
    """Give the days of the quarter."""
    return [FIRST + timedelta(days=each) for each in range(DAYS)]
