"""Something is wrong: at most five plain questions, then what it is, how sure, what to do. No site is needed."""

from collections.abc import Mapping
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.draw.canvas import drawing
from sourloam.draw.twenty import twenty
from sourloam.service.compiled import compiled
from sourloam.service.wrong import Answered, answer_of, next_question
from sourloam.service.wrong_answers import read_answer
from sourloam.views.trouble import MOST, QUESTIONS, TroubleView
from sourloam.web.answers import to_do
from sourloam.web.furniture import page

MEMBERS: Final = 600
PHONE_PX, TABLE_PX, HIGH_PX = 354.0, 520.0, 150.0


def show(request: Request) -> Response:
    """Ask the next question, or answer."""
    answered, fault = _answered(request.query_params)
    question = next_question(answered) if fault is None else QUESTIONS[fault[0]]
    so_far = tuple((name, _words(name, answer)) for name, answer in answered.given.items())
    if question is None:
        view = answer_of(answered, compiler=compiled)
        return page(request, "trouble.html", here="wrong", view=view, do=to_do(view.do), so_far=so_far, **_twenty(view))
    return page(
        request,
        "wrong.html",
        here="wrong",
        status=200 if fault is None else 422,
        question=question,
        step=len(answered.given) + 1,
        most=MOST,
        given=answered.given,
        so_far=so_far,
        fault=fault[1] if fault else None,
    )


def _answered(query: Mapping[str, str]) -> tuple[Answered, tuple[str, BadInput] | None]:
    """Return the answers in the address, and the first that cannot be read."""
    answered = Answered({}, None, MEMBERS)
    for name, text in query.items():
        if name not in QUESTIONS:
            continue
        try:
            answered = answered.said(name, read_answer(QUESTIONS[name], text))
        except BadInput as bad:
            return answered, (name, bad)
    return answered, None


def _words(name: str, answer: str) -> str:
    return next((each.words for each in QUESTIONS[name].choices if each.name == answer), answer or "I cannot tell")


def _twenty(view: TroubleView) -> dict[str, Any]:
    """Return the twenty buckets for a phone and for a table."""
    if view.is_short or not view.watch.is_known:
        return {"tall": "", "wide": ""}
    words = "Of 20 buckets that smell and look like yours"
    return {
        key: drawing(
            (width, HIGH_PX),
            twenty(view.watch.twenty, words, (0.0, 4.0), width)[0],
            title=f"{words}: {', '.join(f'{count} {state}' for state, count in view.watch.twenty)}",
            desc="Each small bucket is one case.",
            key=f"twenty-{key}",
        )
        for key, width in (("tall", PHONE_PX), ("wide", TABLE_PX))
    }
