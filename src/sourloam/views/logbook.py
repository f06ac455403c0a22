"""What may be shown of an entry: as a sentence, with what is doubtful about it and what follows from it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from sourloam.logbook import entries as of
from sourloam.logbook.accept import Accepted
from sourloam.logbook.entry import Entry, plain
from sourloam.logbook.state import Clash
from sourloam.plan.words import Speech, enumerated, when
from sourloam.site.site import Site

FOUND: Final = MappingProxyType({"": "opened and shut", "ready": "opened: ready", "not-yet": "opened: not ready yet"})
STEP_WORDS: Final = MappingProxyType(
    {
        "rice": "Rice-wash water set up",
        "milk": "Milk added to the rice-wash water",
        "strain": "Serum strained",
        "mix": "Bran mixed and packed",
        "dry": "Bran spread out to dry",
        "bag": "Bran dry and bagged",
    }
)


@dataclass(frozen=True)
class LineView:
    """One line of the logbook."""

    sequence: int
    id: str
    on: date
    says: str
    mark: str
    is_gone: bool
    clash: str  # why it cannot have happened as the others stand
    about: tuple[str, ...]  # ids of what it is about
    plain: Mapping[str, Any]


@dataclass(frozen=True)
class RecordView:
    """An entry that was written or is proposed."""

    line: LineView
    is_new: bool
    is_kept: bool
    now: str  # how the vessel stands after it
    clashes: tuple[str, ...]


def record_view(accepted: Accepted, *, is_new: bool, is_kept: bool = True) -> RecordView:
    """Return what is shown of an entry that was accepted."""
    site, _ = accepted.state.must()
    clashes = tuple(clash_words(each, site) for each in accepted.clashes)
    return RecordView(line_view(accepted.entry, site), is_new, is_kept, _now(accepted, site), clashes)


def line_view(entry: Entry, site: Site, *, is_gone: bool = False, clash: Clash | None = None) -> LineView:
    """Return what is shown of an entry."""
    why = f"{clash.found} {clash.remedy}" if clash else ""
    says = sentence(entry.value, site)
    if isinstance(entry.value, of.Withdrawn) and entry.typed:
        says = f"taken back: {entry.typed}"
    return LineView(entry.sequence, entry.id, entry.on, says, entry.mark, is_gone, why, _about(entry), plain(entry))


def clash_words(clash: Clash, site: Site) -> str:
    """Say what no longer fits, and what to do about it."""
    return f"{when(clash.entry.on)}, {sentence(clash.entry.value, site)} ({clash.entry.id}): {clash.found}"


def sentence(value: of.Value, site: Site) -> str:
    """Return what an entry says, in words."""
    return WORDS[type(value)](value, site, Speech(site.keeper.units))


def _about(entry: Entry) -> tuple[str, ...]:
    names = ("vessel", "into", "place", "subject", "thing", "task", "entry")
    return tuple(str(held) for held in (getattr(entry.value, each, "") for each in names) if held)


def _now(accepted: Accepted, site: Site) -> str:
    id_ = getattr(accepted.entry.value, "vessel", "")
    if not id_:
        return ""
    _, situation = accepted.state.must()
    speech = Speech(site.keeper.units)
    state = next((each for each in situation.vessels if each.vessel == id_), None)
    if state is None or state.phase == "empty":
        return f"{site.name_of(id_)} is empty now." if state else ""
    held = speech.kg(state.mass_kg)
    left = f" Bran left: {speech.kg(situation.bran_kg)}." if isinstance(accepted.entry.value, of.LayerAdded) else ""
    return f"{site.name_of(id_)} holds {held} now.{left}"


def _layer(value: of.LayerAdded, site: Site, speech: Speech) -> str:
    parts = enumerated([f"{speech.kg(mass)} {name.replace('-', ' ')}" for name, mass in value.parts])
    bran = f", {speech.kg(value.bran_kg)} bran" if value.bran_kg else ", no bran"
    top = " to top it up" if value.is_top_up else ""
    return f"{site.name_of(value.vessel)}: {parts}{bran}{top}"


def _draw(value: of.DrawOff, site: Site, speech: Speech) -> str:
    told = ", ".join(filter(None, (value.colour, value.smell and f"smells {value.smell}", value.went)))
    return f"{site.name_of(value.vessel)}: {speech.litres(value.litres_l)} drawn off{', ' + told if told else ''}"


def _reading(value: of.Reading, site: Site, speech: Speech) -> str:
    return f"{site.name_of(value.subject)}: {', '.join(_readings(value, speech)) or 'looked at'}"


def _readings(value: of.Reading, speech: Speech) -> Iterator[str]:
    if value.ph is not None:
        yield f"pH {value.ph:g}"
    if value.temperature_c is not None:
        yield speech.celsius(value.temperature_c)
    if value.weight_kg is not None:
        yield speech.kg(value.weight_kg)
    if value.smell:
        yield f"smells of {value.smell}"
    if value.growth:
        yield f"growth: {value.growth}"
    if value.says:
        yield value.says


def _placed(value: of.Placed, site: Site, speech: Speech) -> str:
    what = "all of it" if value.mass_kg is None else speech.kg(value.mass_kg)
    return f"{site.name_of(value.vessel)}: {what} to {site.name_of(value.place)}"


def _stocked(value: of.Stocked, site: Site, speech: Speech) -> str:
    amount = speech.litres(value.volume_l) if value.mass_kg is None and value.volume_l is not None else ""
    amount = speech.kg(value.mass_kg) if value.mass_kg is not None else amount
    return f"{value.thing.replace('-', ' ')}: {amount} {value.act}"


def _culture(value: of.Culture, site: Site, speech: Speech) -> str:
    kilograms = (("bran", value.bran_kg), ("sugar", value.sugar_kg), ("rice", value.rice_kg))
    litres = (("serum", value.serum_l), ("milk", value.milk_l), ("water", value.water_l))
    told = [f"{speech.kg(each)} {name}" for name, each in kilograms if each is not None]
    told += [f"{speech.litres(each)} {name}" for name, each in litres if each is not None]
    told += [f"pH {value.ph:g}"] if value.ph is not None else []
    told += [f"smells of {value.smell}"] if value.smell else []
    told += ["passed" if value.passed else "not passed"] if value.passed is not None else []
    return f"{STEP_WORDS[value.step]}{': ' + ', '.join(told) if told else ''}"


def _worked(value: of.Worked, site: Site, speech: Speech) -> str:
    told = [value.what] if value.what else []
    told += [speech.kg(value.mass_kg)] if value.mass_kg is not None else []
    told += [speech.litres(value.volume_l)] if value.volume_l is not None else []
    told += [f"pH {value.ph:g}"] if value.ph is not None else []
    told += ["passed" if value.passed else "not passed"] if value.passed is not None else []
    return f"{site.name_of(value.place)}: {' '.join([value.act, ', '.join(told)]).rstrip()}"


def _vessel_kept(value: of.VesselKept, site: Site, speech: Speech) -> str:
    held = f", with {speech.kg(value.mass_kg)} of unknown scraps in it" if value.mass_kg else ""
    return f"{site.name_of(value.vessel)}: {value.act.replace('-', ' ')}{held}"


def _task(value: of.TaskKept, site: Site, speech: Speech) -> str:
    act = value.act.replace("-", " ")
    return f"task {value.task}: {act}{f' until {when(value.until)}' if value.until else ''}"


WORDS: Final[Mapping[type[Any], Callable[..., str]]] = MappingProxyType(
    {
        of.SiteSet: lambda value, site, speech: f"the site is set: {site.facts.name or site.facts.id}",
        of.LayerAdded: _layer,
        of.Sealed: lambda value, site, speech: f"{site.name_of(value.vessel)}: sealed",
        of.Unsealed: lambda value, site, speech: f"{site.name_of(value.vessel)}: unsealed, to be filled further",
        of.Opened: lambda value, site, speech: f"{site.name_of(value.vessel)}: {FOUND[value.found]}",
        of.Moved: lambda value, site, speech: f"{site.name_of(value.vessel)}: stands in the {value.stands} now",
        of.Joined: lambda value, site, speech: f"{site.name_of(value.vessel)}: put into {site.name_of(value.into)}",
        of.DrawOff: _draw,
        of.Reading: _reading,
        of.Placed: _placed,
        of.Failed: lambda value, site, speech: f"{site.name_of(value.vessel)}: failed, {value.how}",
        of.Remedy: lambda value, site, speech: f"{site.name_of(value.vessel)}: {value.what}",
        of.Culture: _culture,
        of.Stocked: _stocked,
        of.Worked: _worked,
        of.VesselKept: _vessel_kept,
        of.TaskKept: _task,
        of.Note: lambda value, site, speech: f"note: {value.words}",
        of.Withdrawn: lambda value, site, speech: f"taken back: {value.entry}{f' ({value.why})' if value.why else ''}",
        of.Corrected: lambda value, site, speech: f"put right: {value.entry}",
    }
)
