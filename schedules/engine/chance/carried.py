"""Which rows carry the date, draw by draw: driving links traced back from the end."""

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
    found = [(walk.ahead(number), walk.reached(number)) for number in _holding(walk, end)]
    if not found:
        return None
    most = _latest(walk, end)
    return _greatest([np.where(bound == most, at, np.iinfo(np.int64).min) for bound, at in found])


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
        most = _latest(walk, row)
        return [(n, np.asarray(walk.ahead(n) == most)) for n in _holding(walk, row)]
    if row not in walk.mark:
        return [(number, np.asarray(True)) for number in reasons.binding(row)]
    return [(number, walk.binds(row, number)) for number in walk.board.into[row]]


def _latest(walk: Walk, end: int) -> Ints:
    """The bound that links put on an event, whether or not its own date binds more."""
    return _greatest([walk.ahead(number) for number in _holding(walk, end)])


def _holding(walk: Walk, row: int) -> list[int]:
    if row in walk.board.finished:
        return []
    return [number for number in walk.board.into[row] if not met(walk.board, number)]


def _greatest(found: list[Ints]) -> Ints:
    most = found[0] if found else np.asarray(0)
    for other in found[1:]:
        most = np.maximum(most, other)
    return most
