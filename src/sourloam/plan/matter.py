"""Where every kilogram of the year went: one whole, and the parts that it falls into."""

from dataclasses import dataclass

from sourloam.fleet.life import Life


@dataclass(frozen=True)
class Part:
    """A part of the year's mass, and where it came from or went."""

    what: str  # scraps | bran | held before | place | liquid | gas | turned away | still held
    subject: str  # id of the stream or place, where there is one
    mass_kg: float


@dataclass(frozen=True)
class Matter:
    """All that came in, and all that it became; both sides weigh the same."""

    came: tuple[Part, ...]
    became: tuple[Part, ...]

    @property
    def whole_kg(self) -> float:
        """Return the mass of the year."""
        return sum(each.mass_kg for each in self.came)


def matter(life: Life) -> Matter:
    """Return the ledger of the year in parts, each side the heaviest first; parts of nothing are left out."""
    first = life.days[0]
    out_on_first = first.turned_away_kg + first.drawn_kg + first.gas_kg + first.placed_kg
    before = first.held_kg + out_on_first - first.scraps_kg - first.bran_kg
    came = (
        Part("scraps", "", sum(each.scraps_kg for each in life.days)),
        Part("bran", "", sum(each.bran_kg for each in life.days)),
        Part("held before", "", before),
    )
    placed: dict[str, float] = {}
    for batch in life.batches:
        for placing in batch.placings:
            placed[placing.place] = placed.get(placing.place, 0.0) + placing.mass_kg
    became = (
        *(Part("place", place, mass) for place, mass in placed.items()),
        Part("liquid", "", sum(each.drawn_kg for each in life.days)),
        Part("gas", "", sum(each.gas_kg for each in life.days)),
        Part("turned away", "", life.turned_away_kg),
        Part("still held", "", life.days[-1].held_kg),
    )
    return Matter(_heaviest_first(came), _heaviest_first(became))


def _heaviest_first(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    return tuple(sorted((each for each in parts if each.mass_kg > 1e-6), key=lambda each: -each.mass_kg))
