"""What each entry about stocks, cultures, places and tasks does to the state."""

from dataclasses import replace
from typing import Final

from sourloam.logbook.entries import Culture, Stocked, TaskKept, Worked
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import Impossible, Knows, State

BRAN, SERUM = "bran", "serum"
CRUMB: Final = 1e-6
IN: Final = ("bought", "made", "received")


def stocked(state: State, entry: Entry, value: Stocked, _knows: Knows) -> State:
    """Take something into the cupboard or out of it; a count sets it."""
    amount = value.volume_l if value.mass_kg is None else value.mass_kg
    if amount is None:
        raise Impossible(f"how much {value.thing} is not said;", f'write it, for example "2 kg {value.thing} bought".')
    if value.thing == BRAN and value.mass_kg is None:
        raise Impossible("bran is kept by mass;", 'weigh it, for example "bran 1.2 kg counted".')
    if value.thing == SERUM and value.volume_l is None:
        raise Impossible("serum is kept by volume;", 'write litres, for example "serum 200 ml counted".')
    if value.act == "counted":
        return _set(state, value.thing, amount)
    return changed(state, value.thing, amount if value.act in IN else -amount)


def changed(state: State, thing: str, amount: float) -> State:
    """Return the state with more or less of something.

    Raises
    ------
    Impossible
        If there is less of it than was taken.
    """
    held = held_of(state, thing)
    if held + amount < -CRUMB:
        unit = "L" if thing == SERUM else "kg"
        nearest = f'If there was, count it first: "{thing} {-amount:.3g} {unit} counted".'
        raise Impossible(
            f"{-amount:.3g} {unit} of {thing} cannot have been taken: by the record there are {held:.3g} {unit}.",
            nearest,
        )
    return _set(state, thing, max(held + amount, 0.0))


def held_of(state: State, thing: str) -> float:
    """Return how much there is of something, in kg or L."""
    _, situation = state.must()
    if thing == BRAN:
        return situation.bran_kg
    return situation.serum_l if thing == SERUM else state.stocks.get(thing, 0.0)


def _set(state: State, thing: str, amount: float) -> State:
    _, situation = state.must()
    if thing == BRAN:
        return replace(state, situation=situation._replace(bran_kg=amount))
    if thing == SERUM:
        return replace(state, situation=situation._replace(serum_l=amount))
    return replace(state, stocks={**state.stocks, thing: amount})


def cultured(state: State, entry: Entry, value: Culture, _knows: Knows) -> State:
    """Take a step of the culture: serum is strained, used for bran, and bran comes dry into the bag."""
    state.must()
    if value.step == "strain" and value.serum_l is not None:
        return changed(state, SERUM, value.serum_l)
    if value.step == "mix" and value.serum_l is not None:
        return changed(state, SERUM, -value.serum_l)
    if value.step == "bag":
        if value.bran_kg is None:
            raise Impossible("how much bran came dry is not said;", 'write it, for example "bagged 2 kg bran".')
        return changed(state, BRAN, value.bran_kg)
    return state


def worked(state: State, entry: Entry, value: Worked, _knows: Knows) -> State:
    """Write down that a place was worked."""
    state.place(value.place)
    return replace(state, works=(*state.works, entry))


def task_kept(state: State, entry: Entry, value: TaskKept, _knows: Knows) -> State:
    """Write down what became of a task."""
    state.must()
    if value.act == "put-off" and value.until is None:
        raise Impossible(f"until when {value.task} is put off is not said;", "say a day, such as 2027-03-01.")
    return replace(state, tasks={**state.tasks, value.task: entry})
