"""The model of a vessel, compiled as it stands: the same functions, many members side by side.

Every plain function that another calls is compiled, and put in its place; no
line of the model is written twice. This module alone imports the compiler.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from types import CodeType, FunctionType
from typing import Any, Final, cast
from zlib import crc32

import numba

from sourloam.science.ferment.stack import life
from sourloam.science.ferment.stack.life import Run

OURS: Final = "sourloam."


@lru_cache(maxsize=1)
def live_all() -> Run:
    """Return `life.live_all`, compiled; the first call on a machine takes half a minute, and is kept on disk."""
    whole = cast(FunctionType, life.live_all)
    copy = _copied(whole, {})
    # What is kept on disk is found by this name: another model must never find it.
    copy.__qualname__ = f"{whole.__qualname__}_{_fingerprint(whole):08x}"
    return cast(Run, numba.njit(error_model="numpy", parallel=True, cache=True)(copy))


def _copied(function: FunctionType, done: dict[FunctionType, Callable[..., Any]]) -> FunctionType:
    """Return a copy of a plain function that calls compiled ones, and runs its loop over members side by side."""
    names = dict(function.__globals__)
    for name, used in _used(function):
        if isinstance(used, FunctionType):
            if used not in done:
                done[used] = numba.njit(error_model="numpy")(_copied(used, done))
            names[name] = done[used]
        elif used is range:
            names[name] = numba.prange
    copy = FunctionType(_by_position(function.__code__), names, function.__name__)
    copy.__module__, copy.__qualname__ = function.__module__, function.__qualname__
    return copy


def _used(function: FunctionType) -> Iterator[tuple[str, object]]:
    """Return the plain functions of ours, numbers and the like that a function uses, by their names."""
    for name in sorted(function.__code__.co_names):
        used = function.__globals__.get(name)
        if isinstance(used, FunctionType) and not used.__module__.startswith(OURS):
            continue
        yield name, used


def _by_position(code: CodeType) -> CodeType:
    """Return code whose arguments may all be given by position: the compiler mixes up those that may not."""
    return code.replace(co_argcount=code.co_argcount + code.co_kwonlyargcount, co_kwonlyargcount=0)


def _fingerprint(function: FunctionType) -> int:
    """Return a number that changes when the function, or anything that it uses, changes."""
    seen: dict[FunctionType, None] = {}
    sum_ = 0
    waiting = [function]
    while waiting:
        here = waiting.pop()
        if here in seen:
            continue
        seen[here] = None
        code = here.__code__
        sum_ = crc32(repr((code.co_code, code.co_consts, code.co_names)).encode(), sum_)
        for name, used in _used(here):
            if isinstance(used, FunctionType):
                waiting.append(used)
            elif isinstance(used, int | float | tuple):
                sum_ = crc32(f"{name}={used!r}".encode(), sum_)
    return sum_
