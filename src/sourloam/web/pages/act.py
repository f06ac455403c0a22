"""What can be written of a vessel beside a layer: each act is a row of the table, a form and an entry."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.logbook.entries import FAILINGS
from sourloam.service.fates import fates_of
from sourloam.service.record import log_record
from sourloam.site.site import PLACES, Site
from sourloam.site.vessels import ROOMS
from sourloam.views.trouble import QUESTIONS
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import desk_of, page
from sourloam.web.shelved import vessel_of

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Asked:
    """One thing that a form asks: its key in the entry, its words, how it is answered."""

    key: str
    words: str
    hint: str = ""
    choices: Callable[[Site], Choices] | None = None
    is_open: bool = False  # choices, and a field for what is none of them
    is_number: bool = False


@dataclass(frozen=True)
class Act:
    """One act: the kind of its entry, its heading, what it asks, what its button says, what stands beside it."""

    kind: str
    heading: str
    asks: tuple[Asked, ...]
    button: str
    subject: str = "vessel"
    fixed: Choices = ()
    caution: str = ""


def _signs(question: str) -> Callable[[Site], Choices]:
    return lambda site: tuple({each.sign: (each.sign, each.words) for each in QUESTIONS[question].choices}.values())


def _listed(*words: str) -> Callable[[Site], Choices]:
    return lambda site: tuple((each, each) for each in words)


def _places(site: Site) -> Choices:
    parts = site.parts()
    return tuple((each.id, site.name_of(each.id)) for table in PLACES for each in parts[table])


def _rooms(site: Site) -> Choices:
    return tuple((each, each) for each in ROOMS)


STEPS_PH: Final = ("3.5", "4", "4.5", "5", "5.5", "6", "6.5", "7")
ACTS: Final[Mapping[str, Act]] = MappingProxyType(
    {
        "draw": Act(
            "draw_off",
            "How much came out?",
            (
                Asked("litres", "How much", choices=_listed("100 ml", "300 ml", "500 ml", "1 L"), is_open=True),
                Asked("colour", "Its colour", choices=_listed("clear", "amber", "brown", "milky", "grey")),
                Asked("smell", "Its smell", choices=_listed("sour", "vinegar", "rotten", "none")),
                Asked(
                    "went", "Where it went", choices=_listed("thinned, on bare soil", "on the pile", "down the drain")
                ),
            ),
            "Keep the draw-off",
            caution="Gloves. On plants never stronger than 1 part in 100 of water, and not on leaves that are eaten.",
        ),
        "reading": Act(
            "reading",
            "What did you see, smell or read?",
            (
                Asked(
                    "ph", "A strip, in the liquid or the core", choices=_listed(*STEPS_PH), is_open=True, is_number=True
                ),
                Asked("smell", "It smells, most of all", choices=_signs("smell")),
                Asked("growth", "On top grows", choices=_signs("growth")),
                Asked(
                    "temperature",
                    "How warm it is inside",
                    hint='Such as "21 C". Leave it empty if you did not measure it.',
                ),
                Asked("says", "Anything else", hint="In your own words."),
            ),
            "Keep the reading",
            subject="subject",
        ),
        "seal": Act("sealed", "Seal it for good?", (), "It is sealed"),
        "unseal": Act(
            "unsealed",
            "Open it to fill it further?",
            (Asked("why", "Why", hint="In a few words."),),
            "It is open again",
        ),
        "open": Act(
            "opened",
            "What did you find?",
            (
                Asked(
                    "found",
                    "It is",
                    choices=lambda site: (("ready", "ready: sour, and nothing rotten"), ("not-yet", "not ready yet")),
                ),
            ),
            "Keep it",
        ),
        "place": Act(
            "placed",
            "Where did it go?",
            (
                Asked("place", "To", choices=_places),
                Asked("mass", "How much of it", hint='All of it if you leave this empty; or such as "5 kg".'),
            ),
            "It is placed",
            caution="It is sour, not sanitised: gloves, and keep it off leaves and roots that are eaten raw.",
        ),
        "move": Act(
            "moved", "Where does it stand now?", (Asked("stands", "In the", choices=_rooms),), "It stands there"
        ),
        "failed": Act(
            "failed",
            "How did it fail?",
            (Asked("how", "It is", choices=lambda site: tuple((each, each) for each in FAILINGS)),),
            "It failed",
            caution="Not into beds with food, worms or pots: deep into other ground, or the core of a hot pile.",
        ),
        "wash": Act("vessel_kept", "It was washed?", (), "It was washed", fixed=(("act", "washed"),)),
        "damage": Act("vessel_kept", "It is damaged?", (), "It is damaged", fixed=(("act", "damaged"),)),
    }
)


def ask(request: Request) -> Response:
    """Show the form of an act."""
    return _form(request, {}, ())


@taking
def keep(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep the entry, and say what was kept."""
    desk = desk_of(request)
    act, vessel = _act(request), vessel_of(request, desk.shelf()).vessel
    try:
        view = log_record(
            desk.must_book(), act.kind, _raw(act, vessel, fields), by_of(request, fields), known=desk.known
        )
    except BadInput as bad:
        return _form(request, fields, tuple(bad.problems))
    return page(request, "kept.html", here="shelf", view=view, back=f"/shelf/{vessel}", again="")


def _act(request: Request) -> Act:
    found = ACTS.get(request.path_params["act"])
    if found is None:
        raise HTTPException(404)
    return found


def _raw(act: Act, vessel: str, fields: Mapping[str, str]) -> dict[str, Any]:
    """Return the fields of the entry as people write them; what was left empty is not there."""
    raw: dict[str, Any] = {act.subject: vessel, **dict(act.fixed)}
    for each in act.asks:
        text = fields.get(f"{each.key}-other", "").strip() or fields.get(each.key, "").strip()
        if text:
            raw[each.key] = _number(text) if each.is_number else text
    return raw


def _number(text: str) -> float | str:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text


def _form(request: Request, fields: Mapping[str, str], problems: tuple[object, ...]) -> Response:
    desk = desk_of(request)
    view = desk.shelf()
    vessel, act = vessel_of(request, view), _act(request)
    kind = request.path_params["act"]
    fates = desk.kept(f"fates {vessel.vessel}", lambda: fates_of(desk, vessel.vessel)) if kind == "place" else None
    asks = tuple((each, each.choices(desk.site) if each.choices else ()) for each in act.asks)
    return page(
        request,
        "act.html",
        here="shelf",
        status=422 if problems else 200,
        name=view.names[vessel.vessel],
        id=vessel.vessel,
        act=act,
        asks=asks,
        fates=fates,
        fields=fields,
        problems=problems,
    )
