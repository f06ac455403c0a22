"""What the plan says beside its answer: cautions of this site, assumptions, and what it would ask."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sourloam.base.figure import Figure
from sourloam.fleet.arrivals import usual_kg
from sourloam.fleet.habits import habits_of
from sourloam.fleet.life import Life
from sourloam.plan.clash import clash_hints
from sourloam.plan.loads import load_hints
from sourloam.plan.question import Question
from sourloam.plan.warmth import warmth_hints
from sourloam.plan.winter import winter_hints
from sourloam.site.streams import Stream

ALWAYS = ("always",)
OUTSIDE_HOME = ("business", "school")
HEAVY_HOME_KG_PER_D = 3.0  # a six-person home that weighed its scraps for half a year had 2.6 kg a day
COLD_C, HOT_C = 8.0, 30.0
SLOW_FILL_D: Final = 35.0  # JUDGEMENT: well beyond that
LITTLE_BRAN_KG: Final = 2.0  # JUDGEMENT
MUCH_ANIMAL_FRAC: Final = 0.05  # JUDGEMENT
MIXED: Final = "dish"  # the kind of materials that are a mixture


def cautions(question: Question, life: Life) -> tuple[str, ...]:
    """Return the cautions that arise at this site, each once, in the order of the table."""
    arises = set(_situations(question))
    placed = {key for batch in life.batches for placing in batch.placings for key in placing.cautions}
    return tuple(
        question.speech.told(f"{each.text} {each.authority}".strip())
        for each in question.cautions
        if each.id in placed or arises & set(each.when)
    )


def _situations(question: Question) -> Iterator[str]:
    """Give the situations of this site that cautions are about."""
    site = question.site
    yield from ALWAYS
    for table in ("pile", "worm_bin", "soil_tub", "taker"):
        if site.parts()[table]:
            yield table
    if site.beds:
        yield "bed"
    if any(each.food for each in site.beds):
        yield "food-bed"
    if any(each.has_drain for each in site.vessels):
        yield "leachate"
    if site.stock.bran_from == "made":
        yield "bran"
    yield from _of_people_and_animals(question)


def _of_people_and_animals(question: Question) -> Iterator[str]:
    site = question.site
    premises = {each.premises for each in site.streams}
    yield from premises & set(OUTSIDE_HOME)
    if premises - {"home"}:
        yield "other-premises"
    animals = set(site.keeper.animals)
    if animals & {"dog", "cat"}:
        yield "pets"
    if animals & {"rats", "larger-wildlife", "dog"}:
        yield "rats"
    if "hens" in animals:
        yield "hens"
    if animals & {"pigs", "ruminants", "hens"}:
        yield "farmed-animals"
    if any(question.knowledge.materials[name].animal for stream in site.streams for name, _ in stream.shares):
        yield "animal-matter"
    if any(_full_kg(question, each.usable_l) > site.keeper.lift_kg for each in site.vessels):
        yield "lifting"


def _full_kg(question: Question, usable_l: float) -> float:
    """Return what a vessel weighs when it is full, settled to about 0.8 kg a litre."""
    usual = usual_kg(question.site.streams, question.knowledge.materials)
    vessel = question.knowledge.vessel
    return usable_l / usual.pressed_l / (1.0 - vessel.settles_frac.value)


def assumptions(question: Question) -> tuple[str, ...]:
    """Return what was assumed, each once, with what it is about."""
    from_file = _grouped((each.subject, question.speech.told(each.says)) for each in question.assumptions)
    return (*from_file, *_of_method(question))


def _grouped(pairs: Iterable[tuple[str, str]]) -> tuple[str, ...]:
    """Return sentences with all that each is about."""
    said: dict[str, list[str]] = {}
    for subject, says in pairs:
        said.setdefault(says, []).append(subject)
    return tuple(f"{_subjects(subjects)}: {says}" for says, subjects in said.items())


def _subjects(subjects: list[str]) -> str:
    names = list(dict.fromkeys(subjects))
    kind = names[0].partition(' "')[0]
    if len(names) == 1:
        return names[0]
    if all(each.startswith(f'{kind} "') for each in names):
        return f"{kind} " + ", ".join(each.partition('"')[2].rstrip('"') for each in names)
    return ", ".join(names)


def _of_method(question: Question) -> Iterator[str]:
    yield "ferment: A thermal clock forecasts each vessel from its temperature alone; what is in it does not."
    yield "places: Worms are fed first; then a batch goes whole to the first that takes it: bed, tub, pile, taker."
    habits = habits_of(question.site, question.knowledge)
    every = "every day" if habits.loads_every_d == 1 else f"every {habits.loads_every_d} days"
    waits = f"{question.speech.litres(habits.holding_l)} may wait in it and in the cold"
    yield f"loading: The caddy is emptied into a vessel {every}; {waits}."
    if question.site.takers and any(each.kind == "waste-bin" for each in question.site.takers):
        yield "waste bin: It takes a batch only when no vessel is left to fill."


def hints(question: Question, life: Life, figures: Mapping[str, Figure]) -> tuple[str, ...]:
    """Return what would make this chain better, where something plainly would."""
    return tuple(_hints(question, life, figures))


def _hints(question: Question, life: Life, figures: Mapping[str, Figure]) -> Iterator[str]:
    speech, fill = question.speech, figures["fill_days"].value
    if fill > SLOW_FILL_D:
        size = speech.size(figures["two_week_vessel_l"].value, digits=0)
        fits = f"One of about {size} would be 80 % full in two weeks"
        yield (
            f"The largest vessel takes {round(fill)} days to fill, and every opening lets air in. {fits}; others fill "
            "over four weeks without trouble. Or let scraps wait in the freezer and load them at once."
        )
    yield from load_hints(question)
    yield from clash_hints(question, life, figures)
    yield from warmth_hints(question)
    yield from winter_hints(question, figures)
    if any(_plain_animal_frac(question, each) >= MUCH_ANIMAL_FRAC for each in question.site.streams):
        yield (
            "Much of it is meat, fish, egg or dairy. The forecast knows its warmth only; custom leaves any batch 10 to "
            "30 days, and such a one three or four weeks: longer does no harm where it is dry and sealed."
        )
    resorts = {each.id for each in question.site.takers if each.kind == "waste-bin"}
    placed = [placing for batch in life.batches for placing in batch.placings]
    wasted = sum(each.mass_kg for each in placed if each.place in resorts)
    if wasted > 0.0 and wasted >= 0.5 * sum(each.mass_kg for each in placed):
        use = "A soil tub or somebody with a bed would give them a use."
        yield f"{speech.kg(wasted)} of finished batches end in the waste bin. {use}"
    bran = figures["bran_kg_per_year"].value
    if question.site.stock.bran_from == "made" and bran < LITTLE_BRAN_KG:
        little = f"{speech.kg(bran)} of bran last the whole year"
        yield f"{little}: so little is hardly worth brewing. Ready bran can be bought."


def _plain_animal_frac(question: Question, stream: Stream) -> float:
    """Return the part of a stream that is plainly of an animal; in mixed dishes there is only a little."""
    known = question.knowledge.materials
    return sum(share for name, share in stream.shares if known[name].animal and known[name].kind != MIXED)


def asks(question: Question) -> tuple[str, ...]:
    """Return what is possible but doubtful, as questions."""
    return _grouped(_doubts(question))


def _doubts(question: Question) -> Iterator[tuple[str, str]]:
    """Give what each doubt is about, and the doubt."""
    site, speech = question.site, question.speech
    for stream in site.streams:
        subject = f'stream "{stream.id}"'
        if stream.premises == "home" and not stream.flow.is_by_volume and stream.flow.per_day > HEAVY_HOME_KG_PER_D:
            yield subject, f"{speech.kg(stream.flow.per_day)} a day are much for one home. Is it so?"
        if "handful" in stream.flow.typed:
            handful = speech.kg(site.keeper.handful_kg)
            yield subject, f"A handful counts as {handful}, your handful of bran. Weigh the scraps of a day once."
    for vessel in site.vessels:
        heavy = _full_kg(question, vessel.usable_l)
        if heavy > site.keeper.lift_kg:
            weighs = (
                f"Full it weighs about {speech.kg(heavy)}, more than the {speech.kg(site.keeper.lift_kg)} you lift."
            )
            yield f'vessel "{vessel.id}"', f"{weighs} Can it be emptied where it stands, or filled half?"
    if not COLD_C <= site.facts.indoors_c <= HOT_C:
        yield "site", f"A kitchen at {speech.told(f'{site.facts.indoors_c:g} °C')} all year is unusual. Is it so?"
