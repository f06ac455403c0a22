"""What stands on the bench and in the tables beside it: sugars, milks, other starts, stores, uses."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class Sugar:
    """A sugar, of which a part can be fermented."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    fermentable_frac: Figure
    loose_kg_per_l: float


@dataclass(frozen=True)
class Milk:
    """A milk, and the serum that parts from it."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    serum_yield_l_per_l: Figure
    curds: bool
    note: str


@dataclass(frozen=True)
class Start:
    """A way to begin the chain, and the link from which it goes on."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    from_link: str  # rice_wash, milk, serum or heel
    is_today: bool  # whether it works on scraps on the day it is at hand
    does: str
    amount: str
    when_afresh: str


@dataclass(frozen=True)
class StepSigns:
    """A step of the chain: what is done, how one sees that it is ready, and when it goes away."""

    id: str
    what: str
    ready_when: str
    throw_away_when: str
    meanwhile: str


@dataclass(frozen=True)
class Store:
    """A way to keep something alive: how fast it declines, and what custom and publications say."""

    id: str
    matter: str
    name: str
    decline: str  # the parameter that holds it
    known_c: float
    low_c: float
    high_c: float
    custom: str
    custom_low_d: float
    custom_high_d: float
    published: str


@dataclass(frozen=True)
class Use:
    """Another use of bran, or of serum."""

    id: str
    name: str
    low: float
    usual: float
    high: float
    unit: str
    does: str
    evidence: str = ""  # trial, habit or none found
    trial_says: str = ""
    trial: str = ""  # the source of the trial
    caution: str = ""


@dataclass(frozen=True)
class Circulating:
    """A recipe in circulation: carrier, liquid, and the moisture that it says it aims at."""

    id: str
    name: str
    carrier: str
    carrier_kg: float
    liquid_l: float
    aim_low_frac: float | None
    aim_high_frac: float | None


@dataclass(frozen=True)
class Bench:
    """All of them, each in the order of its table."""

    sugars: tuple[Sugar, ...]
    milks: tuple[Milk, ...]
    starts: tuple[Start, ...]
    steps: tuple[StepSigns, ...]
    stores: tuple[Store, ...]
    uses: tuple[Use, ...]
    serum_uses: tuple[Use, ...]
    recipes: tuple[Circulating, ...]
