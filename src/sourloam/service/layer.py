"""Use case: a layer written down by pressing, not typing: what is offered, and what each choice comes to."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from statistics import median
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.fleet.arrivals import mass_shares
from sourloam.logbook.corrections import effective
from sourloam.logbook.entries import LayerAdded
from sourloam.logbook.entry import Entry
from sourloam.logbook.phrase import bran_mass
from sourloam.logbook.state import State
from sourloam.plan.words import Speech
from sourloam.service.book import Known
from sourloam.service.record import words_of
from sourloam.site.streams import Stream
from sourloam.views.layer import LayerOffer, Offered

RECENT: Final = 40  # entries back that count as what comes often
MOST_KINDS: Final = 6
USUAL: Final = "usual:"  # before the id of a stream: its own mixture
HALF, DOUBLE = 0.5, 2.0


def layer_offer(state: State, history: Sequence[Entry], known: Known, vessel: str) -> LayerOffer:
    """Return what is offered for a layer into a vessel."""
    site, situation = state.must()
    speech = Speech(site.keeper.units)
    added = [each.value for each in effective(history) if isinstance(each.value, LayerAdded)][-RECENT:]
    held = state.vessel(vessel)
    names = {id_: each.name for id_, each in known.knowledge.materials.items()}
    return LayerOffer(
        vessel,
        site.name_of(vessel),
        tuple(_kinds(added, site.streams, names)),
        _amounts(added, speech, known.knows.likely.layer_kg.value),
        f"holds {speech.kg(held.mass_kg)}" if held.phase != "empty" else "empty",
        speech.kg(situation.bran_kg),
        _warns(held.phase, site.name_of(vessel)),
    )


def layer_of_choice(state: State, known: Known, vessel: str, *, kind: str, amount: str, bran: str = "") -> LayerAdded:
    """Return the layer that a choice means, with the usual bran where no other is written.

    Raises
    ------
    BadInput
        If the amount cannot be read, or nothing of that kind is known.
    """
    site, _ = state.must()
    words = words_of(state, site, known)
    if not amount.strip():
        raise BadInput("amount", (Problem("", "how much went in is not said;", 'write it: "1.5 kg", "3 L".'),))
    shares = _shares(kind, site.streams, known)
    first = max(shares, key=lambda each: each[1])[0]
    name, mass_kg = words.weigh(f"{amount} {first}")
    parts = (
        tuple((each, round(mass_kg * share, 4)) for each, share in shares) if len(shares) > 1 else ((name, mass_kg),)
    )
    dose_kg = words.dose_kg(parts)
    return LayerAdded(vessel, parts, bran_mass(bran, site.keeper.handful_kg) if bran.strip() else dose_kg)


def _kinds(added: Sequence[LayerAdded], streams: Sequence[Stream], names: Mapping[str, str]) -> Iterator[Offered]:
    """Give the mixtures of the streams, then single materials, those that came most often first."""
    for each in streams:
        yield Offered(f"The usual of {each.name or each.id}", f"{USUAL}{each.id}")
    often = Counter(name for each in added for name, _ in each.parts)
    own = [name for each in streams for name, _ in each.shares]
    ranked = dict.fromkeys([*(name for name, _ in often.most_common()), *own])
    for name in [each for each in ranked if each in names][:MOST_KINDS]:
        yield Offered(names[name].capitalize(), name)


def _amounts(added: Sequence[LayerAdded], speech: Speech, usual_kg: float) -> tuple[Offered, ...]:
    """Return half of what a layer usually weighs, that much, twice that much."""
    usual = median(sum(mass for _, mass in each.parts) for each in added) if added else usual_kg
    return tuple(Offered(speech.kg(usual * times), f"{usual * times:.3g} kg") for times in (HALF, 1.0, DOUBLE))


def _warns(phase: str, name: str) -> str:
    if phase in ("fermenting", "ready"):
        return f"{name} is sealed. A layer goes into it only after it is written down as unsealed."
    return ""


def _shares(kind: str, streams: Sequence[Stream], known: Known) -> tuple[tuple[str, float], ...]:
    """Return what a kind is made of, by mass."""
    if not kind.startswith(USUAL):
        return ((kind, 1.0),)
    stream = next((each for each in streams if each.id == kind.removeprefix(USUAL)), None)
    if stream is None:
        raise BadInput("kind", (Problem("", f'"{kind}" is no mixture of this site;', "choose one that is offered."),))
    return tuple(mass_shares(stream, known.knowledge.materials).items())
