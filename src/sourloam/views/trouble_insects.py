"""What is said of flies and their grubs, and of liquid: how much is usual by a day."""

from collections.abc import Mapping
from typing import Final

from sourloam.base.figure import Figure
from sourloam.plan.words import Speech, days
from sourloam.views.mix import ToDo
from sourloam.views.trouble_words import Said
from sourloam.views.watch import WatchView

NEVER_D: Final = 60.0  # days to the next fly from which it is said that they hardly breed
OUT: Final = "Bury it 20 to 30 cm deep, or lay it under dry leaves outdoors and let them finish."


def flies(found: Mapping[str, Figure], *, warm: str, speech: Speech) -> Said:
    """Say how a kitchen gets rid of vinegar flies while vessels go on being filled."""
    hatch, grown = found["hatch_d"], found["clear_d"]
    heading = (
        f"At {warm} vinegar flies hardly breed: they come from a warmer place."
        if grown.value >= NEVER_D
        else f"It need not stop: without food left out they are gone in about {_between(grown)}."
    )
    return Said(
        heading,
        f"At {warm} an egg takes about {_between(hatch)} to hatch, and {_between(grown)} to the next fly.",
        False,
        (
            ToDo(
                "Leave nothing out overnight: keep scraps and ripe fruit in the fridge, in a bag or a shut box",
                1.0,
                "1",
                f"under about {speech.celsius(found['stops_c'].value)} eggs do not hatch",
            ),
            ToDo(
                "Fill the vessel once a day, strew bran, press down, and shut it at once",
                max(hatch.low, 0.5),
                "d",
                f"what lies at {warm} for longer than {days(max(round(hatch.low), 1))} may have grubs in it",
            ),
            ToDo(
                "Freeze peels of fruit overnight before they go in",
                1.0,
                "1",
                "eggs are laid on the fruit before it is bought; frost kills most of them",
            ),
            ToDo(
                "Stand a cup of vinegar with a drop of dish soap beside it, and wipe the rim of the vessel",
                1.0,
                "1",
                "it catches those that fly already",
            ),
        ),
        ("Look under the lid: do flies sit inside, or only outside?",),
        ("Maggots crawl at the lid or on top: then flies get in, and the lid is not tight.",),
        (_mesh(found, speech),),
    )


def worm_flies(found: Mapping[str, Figure], *, warm: str, speech: Speech) -> Said:
    """Say how peels go to worms without flies."""
    grown = found["clear_d"]
    cover = "3 inches" if speech.is_us else f"{found['bedding_mm'].value / 10.0:.0f} cm"
    return Said(
        f"Eggs come in on the peels: frozen overnight and covered, the flies are gone in about {_between(grown)}.",
        f"At {warm} that is what an egg takes to become a fly.",
        False,
        (
            ToDo("Freeze peels overnight, or heat them for a minute, before they go to the worms", 1.0, "1",
                 "both kill eggs; let them come to the warmth of the bin before they go in"),
            ToDo(f"Bury the food, and keep {cover} of moist bedding over it", found["bedding_mm"].value, "mm",
                 "flies lay where they can reach the food"),
            ToDo("Indoors, at most one citrus peel a day", 1.0, "1", "its oil harms worms, and flies breed on it"),
            ToDo("Mix dry torn cardboard in with thawed peels; outdoors, half of the bin of dry brown stuff", 0.5, "1",
                 "thawed peels let their water go: count it as wet food"),
        ),
        ("Lift the bedding: do flies rise from the food or from the rim?",),
        ("It smells of rot or ammonia, or worms crawl up the walls: feed nothing until it has gone.",),
        (_mesh(found, speech),),
    )  # fmt: skip


def grubs(view: WatchView, found: Mapping[str, Figure], *, speech: Speech) -> Said:
    """Say what becomes of a vessel that is full of grubs."""
    left = found["left_kg"]
    laid = speech.kg(found["laid_kg"].value)
    share = f"{speech.kg(left.value)} of {laid} ({speech.kg(left.low)} to {speech.kg(left.high)})"
    return Said(
        "Grubs have taken it over: it is no ferment any more, so days and acid say nothing of it.",
        f"When they have done, about {share} is left. They neither bite nor sting; they eat and breathe off the rest.",
        False,
        (
            ToDo("Let them finish outdoors: fill up with dry leaves, under a roof, with the lid ajar", 14.0, "d",
                 "it is wet and full of air now; leaves take up the wet, and in two weeks or so little is left"),
            ToDo("Or bury it now, 20 to 30 cm deep, with soil over it", 1.0, "1", "under soil no fly comes out"),
            ToDo("Then wash the vessel, and mend the lid: a new seal, no gap, no hole", 1.0, "1",
                 "they came in where the fit was loose"),
        ),
        ("Press the lid on and look against the light: where does it shine through?",),
        ("It smells of rot or ammonia: do not wait for the grubs, bury it deep and off beds of food.",),
        (_mesh(found, speech), "A tub of soil that must breathe gets such a mesh over every hole."),
    )  # fmt: skip


def _mesh(found: Mapping[str, Figure], speech: Speech) -> str:
    mesh_mm = found["mesh_mm"].value
    opening = f"a {25.4 / mesh_mm:.0f}th of an inch" if speech.is_us else f"{mesh_mm:.0f} mm"
    return f"Mesh with openings of {opening} or less keeps vinegar flies out, and larger ones too."


def _between(figure: Figure) -> str:
    low, middle, high = (max(round(each), 1) for each in (figure.low, figure.value, figure.high))
    return f"{days(middle)} ({low} to {high})" if low < high else days(middle)


def of_liquid(view: WatchView, answer: str, day: int) -> str:
    """Say how much liquid is usual by a day, and whether what came is among it; nothing where it is not known."""
    course = view.before.course.get("leachate_l")
    if course is None:
        return ""
    at = min(day, len(course.median) - 1)
    low, middle, high = (each[at] for each in (course.low, course.median, course.high))
    if low is None or middle is None or high is None or high <= 0.0:
        return ""
    speech = view.batch.speech
    between = f"{speech.litres(low)} to {speech.litres(high)}"
    told = f"By day {day} about {speech.litres(middle)} of liquid is usual for such scraps ({between})"
    if not answer:
        return f"{told}. Colour and thickness are those of the food; only a foul smell counts."
    litres = 0.0 if answer == "none" else float(answer.split(maxsplit=1)[0])
    if litres < low:
        rest = "yours is little. Dry scraps keep theirs, and that is no fault: smell decides"
    elif litres > high:
        rest = "yours is much. Draw it off, and put something dry with it"
    else:
        rest = "yours is among it"
    return f"{told}; {rest}."
