"""Exit codes, and how an error is printed: one table for people and scripts."""

import json
import sys
import textwrap
import traceback
from collections.abc import Callable
from enum import IntEnum
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.views.problems import error_object, problems_object

WIDTH: Final = 78  # columns


class Exit(IntEnum):
    """What a command ends with."""

    DONE = 0  # done, or a question was asked
    NO = 1  # the answer is no or not yet
    INPUT = 2  # what was written cannot be used
    OURS = 3  # our fault
    SURROUNDINGS = 4  # a disk, a lock, a missing part
    STOPPED = 130


def guarded(run: Callable[[], Exit], *, as_json: bool) -> Exit:
    """Run a command; turn every error into its sentence and its exit code."""
    try:
        return run()
    except BadInput as error:
        _say(_folded(str(error)), problems_object(error) if as_json else None)
        return Exit.INPUT
    except Surroundings as error:
        _say(_folded(str(error)), error_object("surroundings", error) if as_json else None)
        return Exit.SURROUNDINGS
    except KeyboardInterrupt:
        _say("Stopped. Nothing was written.")
        return Exit.STOPPED
    except BrokenPipeError:
        sys.stderr.close()  # whoever read our output has gone; there is nobody to tell
        return Exit.DONE
    except Exception as error:  # noqa: BLE001 - the last resort: our fault, said so, with the trace kept
        _say(_ours(error), error_object("ours", error) if as_json else None)
        return Exit.OURS


def refused(found: str) -> None:
    """Write what is wrong with the words of the command, for scripts."""
    _print(problems_object(BadInput("command line", (Problem("", found),))))


def _ours(error: Exception) -> str:
    trace = "".join(traceback.format_exception(error))
    return (
        f"{trace}\nThis is our fault, not yours. Nothing that you wrote is lost. The lines above are what to send us."
    )


def _folded(words: str) -> str:
    """Return lines that a terminal can show whole; what goes on in the next one hangs under its beginning."""
    return "\n".join(each for line in words.splitlines() for each in _lines(line))


def _lines(line: str) -> list[str]:
    indent = line[: len(line) - len(line.lstrip())]
    return textwrap.wrap(
        line.strip(),
        WIDTH,
        initial_indent=indent,
        subsequent_indent=f"{indent}  ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def _say(words: str, held: dict[str, Any] | None = None) -> None:
    """Write words on the error stream and, for scripts, one object on the output."""
    if held is not None:
        _print(held)
    sys.stderr.write(words + "\n")


def _print(held: dict[str, Any]) -> None:
    """Write one JSON object on the output."""
    sys.stdout.write(json.dumps(held, ensure_ascii=False, allow_nan=False) + "\n")
