"""An entry as text for a terminal: what was understood and kept, and what follows from it."""

from collections.abc import Iterator

from sourloam.cli.lines import wrapped
from sourloam.plan.words import when
from sourloam.views.logbook import RecordView


def record_text(view: RecordView) -> str:
    """Return what was understood and kept, and what follows from it."""
    return "\n".join(_record(view))


def _record(view: RecordView) -> Iterator[str]:
    line = view.line
    yield from wrapped("", f"{line.says}.", hang=2)
    if line.mark:
        yield from wrapped("  ? ", f"{line.mark}.")
    if view.is_kept and not view.is_new:
        yield f"  It was written down already, as {line.id}."
    if view.now and view.is_kept:
        yield from wrapped("  ", view.now)
    if view.clashes:
        yield "Now this no longer fits; both are kept, and it counts for nothing until it is put right:"
        for each in view.clashes:
            yield from wrapped("  - ", each)
    if view.is_kept and view.is_new:
        yield f"Kept on {when(line.on)} as {line.id}. Wrong? sourloam undo"
