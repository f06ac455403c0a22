"""What a record says of its site, as text for a terminal."""

from collections.abc import Iterator

from sourloam.cli.lines import wrapped
from sourloam.views.learned import LearnedLine, LearnedView
from sourloam.views.reason import Number


def learned_text(view: LearnedView) -> str:
    """Return this site's own values beside the usual ones."""
    return "\n".join(_lines(view))


def _lines(view: LearnedView) -> Iterator[str]:
    yield f"{view.site}, by its own record (in brackets: nine in ten)"
    for each in view.lines:
        here = f"{_shown(each.site)} by {each.seen}" if each.count else "nothing seen yet"
        yield from wrapped("  ", f"{each.words}: {here}; usual {_shown(each.usual)}", hang=2)
    offers = [each for each in view.offered if each.write]
    if offers:
        yield "\nNothing of it is taken by itself. If you find it right, write it in the site file and import that:"
        yield from (f"  {each.write}" for each in offers)
    yield from _odd(view.offered)


def _odd(offered: tuple[LearnedLine, ...]) -> Iterator[str]:
    for each in offered:
        if each.site.value is not None and each.usual.high is not None and each.site.value > each.usual.high:
            yield from wrapped("", f"More than usual: {each.words}.", hang=2)
        elif each.site.value is not None and each.usual.low is not None and each.site.value < each.usual.low:
            yield from wrapped("", f"Less than usual: {each.words}.", hang=2)


def _shown(number: Number) -> str:
    if number.value is None:
        return "not known"
    low, high = number.low or 0.0, number.high or 0.0
    if number.unit == "1":
        return f"{100 * number.value:.2g} % ({100 * low:.2g} to {100 * high:.2g} %)"
    return f"{number.value:.3g} {number.unit} ({low:.2g} to {high:.2g})"
