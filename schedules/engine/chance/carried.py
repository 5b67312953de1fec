"""Which rows carry the date, draw by draw: driving links traced back from the end."""

from functools import reduce

import numpy as np
from numpy.typing import NDArray

from ..crossing import met
from ..reasons import Reasons
from .spread import Ints
from .walk import Walk

Bools = NDArray[np.bool_]


def ready(walk: Walk, end: int) -> Ints | None:
    """When everything before the end is done; None when nothing leads into it.

    Of an end that is no event, its own finish.
    """
    if end not in walk.board.events:
        return walk.finish_of(end)
    found = [walk.reached(number) for number in _holding(walk, end)]
    return reduce(np.maximum, found) if found else None


def carried(walk: Walk, end: int) -> dict[int, float]:
    """The share of draws in which each row is on a longest path; every tie counts."""
    board, holds = walk.board, {end: np.asarray(True)}
    reasons = Reasons(board, walk.plain)
    for row in reversed(board.order):
        if row not in holds or not holds[row].any():
            continue
        for number, binds in _binding(walk, reasons, row, end):
            before = board.first[number]
            so_far = holds.get(before, np.asarray(False))
            holds[before] = so_far | (holds[row] & binds)
    return {row: float(np.mean(held)) for row, held in holds.items()}


def _binding(walk: Walk, reasons: Reasons, row: int, end: int) -> list[tuple[int, Bools]]:
    if row == end and row in walk.board.events:
        last = ready(walk, row)
        return [(n, np.asarray(walk.reached(n) == last)) for n in _holding(walk, row)]
    if row not in walk.mark:
        return [(number, np.asarray(True)) for number in reasons.binding(row)]
    return [(number, walk.binds(row, number)) for number in walk.board.into[row]]


def _holding(walk: Walk, row: int) -> list[int]:
    if row in walk.board.finished:
        return []
    return [number for number in walk.board.into[row] if not met(walk.board, number)]
