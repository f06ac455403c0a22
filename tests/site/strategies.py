"""Generated sites: anything that a site file could validly say, made from the declarations of its keys."""

from datetime import date, timedelta
from functools import lru_cache

from hypothesis import strategies as st

from sourloam.base.days import Span
from sourloam.base.fields import Asking, Key, declared
from sourloam.base.kinds import Amount, Amounts, Choice, Choices, Day, Factors, Flag, Shares, Spans, Text, Whole
from sourloam.base.money import Money
from sourloam.science.ferment.ensemble.failing import Kind
from sourloam.science.ferment.ensemble.past import Past
from sourloam.science.places.bed.bed import Planting
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import PLACES, REPEATED, Site
from sourloam.site.stocks import Stock
from sourloam.site.streams import Flows, Glut, Gluts

# Names that the packaged tables know too, so that a generated site can be planned.
MATERIALS = ("vegetable-scraps", "fruit-scraps", "coffee-grounds", "bread", "leftover-dishes", "mixed-household-scraps")
CROPS = ("tomato", "lettuce", "leek", "potato")
CLIMATES = ("cool-maritime", "mild-maritime", "continental")
JURISDICTIONS = ("UK", "OTHER")
TIME_ZONES = ("UTC", "Europe/London", "America/New_York", "Asia/Tokyo")
NAMED = {"climate": CLIMATES, "jurisdiction": JURISDICTIONS, "time_zone": TIME_ZONES, "crop": CROPS}
PAST = ("since", "bran_made", "strips_opened")
STARTS = (date(2027, 3, 1), date(2024, 2, 29), date(2030, 12, 31))
EARLIER, LATER = timedelta(days=366), timedelta(days=731)

WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=40).map(
    lambda text: " ".join(text.split())
) | st.sampled_from(('the "long" bed', "C:\\yard", "löss, ½", "2019-05-01", "# no comment", "'''"))
IDS = st.from_regex(r"\A[a-z][a-z0-9-]{0,11}\Z")
AMOUNTS_A_DAY = st.sampled_from(
    (
        "4 kg/week",
        "650 g a day",
        "2.4 gal/week",
        "two handfuls/day",
        "1,5 kg/day",
        "12 L per week",
        "half a gallon a day",
    )
)


WEIGHTS = st.dictionaries(st.sampled_from(MATERIALS), st.integers(1, 20), min_size=1, max_size=4)


def values_of(key, start):
    """Give the values that a declared key may have in a site whose plan begins on `start`."""
    if key.name in NAMED:
        values = st.sampled_from(NAMED[key.name])
    elif key.name in PAST:
        values = st.dates(start - EARLIER, start)
    else:
        values = of_kind(key.kind, start)
    return st.none() | values if key.default is None else values


def of_kind(kind, start):
    """Give the values of a kind."""
    return DATED[type(kind)](start) if type(kind) in DATED else UNDATED[type(kind)](kind)


def amounts(kind):
    """Give amounts from the least to the most that will do."""
    low, high = (kind.read(end, Asking()) for end in (kind.low, kind.high))
    return st.floats(low, high)


def some_of(kind):
    """Give some of the words, in their order."""
    return st.sets(st.sampled_from(kind.options)).map(lambda some: tuple(sorted(some, key=kind.options.index)))


def spans(start):
    """Give times that a plan can reach."""
    day = st.dates(start - EARLIER, start + LATER)
    return st.tuples(day, day).map(lambda ends: Span(min(ends), max(ends)))


def in_order(each):
    """Give a few of them, earliest first."""
    return st.lists(each, max_size=2).map(lambda some: tuple(sorted(some, key=lambda one: getattr(one, "span", one))))


def shares(weights):
    """Return what part of the whole each is, from weights."""
    return tuple((name, weight / sum(weights.values())) for name, weight in weights.items())


UNDATED = {
    Amount: amounts,
    Amounts: lambda kind: st.tuples(*[amounts(kind.each)] * kind.count),
    Text: lambda kind: WORDS.map(lambda words: words[: kind.longest].strip()),
    Choice: lambda kind: st.sampled_from(kind.options),
    Choices: some_of,
    Whole: lambda kind: st.integers(kind.low, kind.high),
    Flag: lambda _kind: st.booleans(),
    Money: lambda kind: st.floats(0.0, kind.most),
    Factors: lambda kind: st.tuples(*[st.floats(0.0, 100.0)] * kind.count).filter(any),
    Shares: lambda _kind: WEIGHTS.map(shares),
}
DATED = {
    Day: lambda start: st.dates(start - EARLIER, start + LATER),
    Spans: lambda start: in_order(spans(start)),
    Gluts: lambda start: in_order(st.builds(Glut, spans(start), st.floats(1.0, 50.0, exclude_min=True))),
}
BY_HAND = ("id", "flow")


@lru_cache
def values_by_name(kind, start):
    """Give the values of each declared field of a table."""
    return {
        name: values_of(mark, start) for name, mark in declared(kind) if isinstance(mark, Key) and name not in BY_HAND
    }


@lru_cache
def records(kind, start, *without):
    """Give what the fields of a table may hold, without some of them, as a mapping."""
    return st.fixed_dictionaries(
        {name: values for name, values in values_by_name(kind, start).items() if name not in without}
    )


@st.composite
def plantings(draw, start):
    """Give a crop that is cleared no sooner than it is planted."""
    found = draw(records(Planting, start))
    if found["until"] is not None:
        found["on"], found["until"] = sorted((found["on"], found["until"]))
    return Planting(**found)


@st.composite
def parts(draw, table, id_, start, keeper):
    """Give one row of a repeated table that agrees with itself."""
    found = {"id": id_} | draw(records(REPEATED[table], start))
    if table == "stream":
        found["flow"] = Flows().read(draw(AMOUNTS_A_DAY), Asking(keeper.handful_kg))
    elif table == "vessel" and found["drain_space_l"] is not None:
        found["drain_space_l"] = min(found["drain_space_l"], 0.9 * found["volume_l"] * found["fill_limit_frac"])
    elif table == "pile":
        found["filled_l"] = min(found["filled_l"], found["volume_l"])
    elif table == "bed":
        found["plantings"] = tuple(draw(st.lists(plantings(start), max_size=2)))
    return REPEATED[table](**found)


@st.composite
def sites(draw):
    """Give any site that a file could describe."""
    start = draw(st.sampled_from(STARTS))
    keeper = Keeper(**draw(records(Keeper, start)))
    tables = draw(st.lists(st.sampled_from((*PLACES, "stream", "vessel")), max_size=3))
    tables += ["stream", "vessel", draw(st.sampled_from(PLACES))]
    ids = draw(st.lists(IDS, min_size=len(tables) + 1, max_size=len(tables) + 1, unique=True))
    rows = [(table, draw(parts(table, id_, start, keeper))) for table, id_ in zip(tables, ids[1:], strict=True)]
    held = {table: tuple(row for each, row in rows if each == table) for table in REPEATED}
    facts = Facts(id=ids[0], start=start, **draw(records(Facts, start, "start")))
    failed = draw(st.fixed_dictionaries({each.value: st.integers(0, 9) for each in Kind}))
    past = Past(sum(failed.values()) + draw(st.integers(1, 90)), **failed)
    return Site.of(facts, Stock(**draw(records(Stock, start))), keeper, held, past=past)
