"""Use case: the bench of cultures. Which of its questions was asked, and the answer."""

from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import BadInput, OutOfRange, Problem
from sourloam.service.culture_ask import Read, read_asked
from sourloam.service.culture_kept import alive
from sourloam.service.culture_made import make
from sourloam.service.culture_other import activation, other_uses, poured
from sourloam.service.culture_reading import AskedCulture
from sourloam.views.culture import CultureView

OPTIONS: Final = MappingProxyType(  # where a number that is out of range was written
    {
        "room_c": "--at",
        "store_c": "--kept",
        "wetted_moisture_wb_frac": "--moisture",
        "dry_moisture_wb_frac": "--carrier",
        "bran_kg": "--bran",
        "layer_m": "--layer",
    }
)


def work_culture(asked: AskedCulture, *, today: date) -> CultureView:
    """Return the answer of the bench.

    Raises
    ------
    BadInput
        If what was asked cannot be read, or cannot be done; all of it is named.
    """
    try:
        return _answer(read_asked(asked, today))
    except OutOfRange as out:
        option = OPTIONS.get(out.name, "")
        given = f"{out.value:g} {out.limits.unit}".strip()
        found = f"{given} is outside {out.limits}: {out.why}"
        raise BadInput("culture", (Problem(option, found),)) from None


def _answer(read: Read) -> CultureView:
    asked = read.asked
    if asked.alive is not None:
        return alive(read)
    if asked.ph:
        return activation(read)
    if asked.uses is not None or asked.dilute is not None:
        return other_uses(read) if asked.uses else other_uses(_serum_of(read))
    if asked.poured is not None or asked.squeeze is not None:
        return poured(read)
    return make(read)


def _serum_of(read: Read) -> Read:
    """Return the same question, of serum: only that is thinned."""
    return replace(read, asked=replace(read.asked, uses="serum"))
