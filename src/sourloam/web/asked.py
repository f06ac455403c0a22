"""What was sent to a question, handed to the use case that answers it."""

from collections.abc import Mapping
from datetime import date
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem
from sourloam.service.batches import AskedBatch
from sourloam.service.bed import AskedBed, judge_bed
from sourloam.service.charcoal import AskedCharcoal, add_charcoal
from sourloam.service.compiled import compiled
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from sourloam.service.ferment import forecast_batch
from sourloam.service.heap import AskedHeap, build_heap
from sourloam.service.leachate import AskedLeachate, judge_leachate
from sourloam.service.leaves import AskedLeaves, keep_leaves
from sourloam.service.mix import Asked as AskedMix
from sourloam.service.mix import judge_mix
from sourloam.service.pile import AskedPile, judge_pile
from sourloam.service.product import AskedProduct
from sourloam.service.tub import AskedTub, judge_tub
from sourloam.service.worms import AskedWorms, feed_worms
from sourloam.web.answers import Answer, of_culture, of_ferment, of_heap, of_mix, of_place

Sent = Mapping[str, str]
MEMBERS: Final = 400


def _lines(text: str) -> tuple[str, ...]:
    return tuple(each.strip() for each in text.replace(";", "\n").splitlines() if each.strip())


def _of(sent: Sent, *names: str) -> dict[str, Any]:
    """Return the fields that were filled in."""
    return {each: sent[each].strip() for each in names if sent.get(each, "").strip()}


def _day(text: str, where: str) -> date | None:
    """Return a date as it was written, or nothing."""
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BadInput(where, (Problem("", f'"{text}" is not a date;', "write one such as 2027-03-01."),)) from None


def _product(sent: Sent, today: date) -> AskedProduct:
    animal = {"yes": True, "no": False}.get(sent.get("animal", ""))
    return AskedProduct(
        today=today,
        product=sent.get("product", "").strip() or None,
        state=sent.get("state") or None,
        animal=animal,
        units=sent.get("units") or None,
    )


def mix(sent: Sent, today: date) -> Answer:
    """Answer it."""
    drain = {"yes": True, "no": False}.get(sent.get("drain", ""))
    asked = AskedMix(
        _lines(sent.get("amounts", "")),
        has_drain=drain,
        at_hand=_lines(sent.get("at_hand", "")),
        units=sent.get("units") or None,
        **_of(sent, "vessel", "over"),
    )
    return of_mix(judge_mix(asked))


def batch(sent: Sent, today: date) -> Answer:
    """Answer it."""
    drain = {"yes": True, "no": False}.get(sent.get("drain", ""))
    asked = AskedBatch(
        _lines(sent.get("amounts", "")),
        at=sent.get("at", "").strip() or "18 C",
        vessel=sent.get("vessel", "").strip() or None,
        has_drain=drain,
        units=sent.get("units") or None,
        members=MEMBERS,
    )
    return of_ferment(forecast_batch(asked, compiler=compiled))


def bran(sent: Sent, today: date) -> Answer:
    """Answer it."""
    asked = AskedCulture(
        carriers=_lines(sent.get("carriers", "")),
        by=_day(sent.get("by", "").strip(), "by"),
        units=sent.get("units") or None,
        **_of(sent, "bran", "at", "serum", "milk", "air"),
    )
    return of_culture(work_culture(asked, today=today))


def alive(sent: Sent, today: date) -> Answer:
    """Answer it."""
    asked = AskedCulture(units=sent.get("units") or None, **_of(sent, "alive", "age", "kept", "jar", "dried"))
    return of_culture(work_culture(asked, today=today))


def bed(sent: Sent, today: date) -> Answer:
    """Answer it."""
    asked = AskedBed(
        _product(sent, today),
        fizz=sent.get("fizz") == "yes",
        **_of(sent, "area", "crop", "texture", "soil", "soil_temp", "seedlings", "tree", "well"),
    )
    return of_place(judge_bed(asked, compiled).view)


def pile(sent: Sent, today: date) -> Answer:
    """Answer it."""
    turn = sent.get("turn_every", "").strip()
    asked = AskedPile(
        _product(sent, today),
        at_hand=_lines(sent.get("at_hand", "")),
        volume=sent.get("volume", "").strip() or None,
        turn_every=int(turn) if turn.isdecimal() else None,
    )
    return of_place(judge_pile(asked, compiled).view)


def worms(sent: Sent, today: date) -> Answer:
    """Answer it."""
    accustomed = {"yes": True, "no": False}.get(sent.get("accustomed", ""))
    asked = AskedWorms(
        _product(sent, today),
        is_accustomed=accustomed,
        is_eaten=sent.get("eaten") != "no",
        **_of(sent, "worms", "area", "at", "shell"),
    )
    return of_place(feed_worms(asked, compiled))


def tub(sent: Sent, today: date) -> Answer:
    """Answer it."""
    return of_place(
        judge_tub(AskedTub(_product(sent, today), **_of(sent, "volume", "temp", "stands", "every")), compiled)
    )


def leachate(sent: Sent, today: date) -> Answer:
    """Answer it."""
    return of_place(
        judge_leachate(
            AskedLeachate(_product(sent, today), **_of(sent, "liquid", "for_what", "dilute", "drawn", "soil", "crop")),
            compiled,
        )
    )


def charcoal(sent: Sent, today: date) -> Answer:
    """Answer it."""
    return of_place(add_charcoal(AskedCharcoal(_product(sent, today), **_of(sent, "kind")), compiled))


def leaves(sent: Sent, today: date) -> Answer:
    """Answer it."""
    asked = AskedLeaves(
        sent.get("amount", "").strip() or "200 L dry leaves",
        is_shredded=sent.get("shredded") == "yes",
        is_dry=sent.get("dry") == "yes",
        units=sent.get("units") or "metric",
    )
    return of_place(keep_leaves(asked))


def heap(sent: Sent, today: date) -> Answer:
    """Answer it."""
    return of_heap(build_heap(AskedHeap(_lines(sent.get("amounts", "")), units=sent.get("units") or "metric")))
