"""Which question to put next: the one whose answer is expected to say most of what a vessel is.

By the table of signs alone, so that nobody waits between two questions.
"""

from collections.abc import Iterable, Sequence

import numpy as np

from sourloam.science.readings.signs import Signs, by_table


def gain_bits(options: Sequence[str], seen: Iterable[str], signs: Signs) -> float:
    """Return the information of a question, one of whose options is seen, on the condition of a vessel."""
    now = by_table(signs, seen)
    chances = np.array([signs.by_id[each].chances for each in options]).T
    chances = chances / chances.sum(axis=1, keepdims=True)
    joint = now[:, None] * chances
    apart = joint.sum(axis=1, keepdims=True) * joint.sum(axis=0, keepdims=True)
    return float(np.sum(joint * np.log2(joint / apart)))


def most_telling(questions: Sequence[tuple[str, Sequence[str]]], seen: Iterable[str], signs: Signs) -> str:
    """Return the name of the question that says most, given what was seen."""
    held = tuple(seen)
    return max(questions, key=lambda each: gain_bits(each[1], held, signs))[0]
