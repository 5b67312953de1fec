"""Links that cross from one line of working time to another, through instants.

A crossing leaves a mark for its instant, shifts that by the lag, and enters the other
line. `ahead` bounds the successor's start from below, `back` the predecessor's start
from above, and the two agree to the minute: a predecessor at or before `back` never
pushes its successor. A lag in working time ends at the first instant by which the
predecessor's calendar has counted it.
"""

from collections.abc import Callable
from typing import NamedTuple

from .board import Board
from .network import LagClock, LinkKind

WORK, FS = LagClock.WORK, LinkKind.FS
# Which point holds which: 0 the start, 1 the finish.
ENDS: dict[str, tuple[int, int]] = {"FS": (1, 0), "SS": (0, 0), "FF": (1, 1), "SF": (0, 1)}
FAR = 1 << 60  # later than any late date: nothing bounds it

Move = Callable[[int], int]


class Crossing(NamedTuple):
    """One direction of a link: from the mark of a point to a start mark elsewhere."""

    number: int
    point: int
    leave: Move
    lag: Move | None
    enter: Move
    shift: int

    def at(self, marks: list[int]) -> int:
        """The instant reached, lag included, before it enters the other line."""
        instant = self.leave(marks[self.point])
        return self.lag(instant) if self.lag else instant


def ahead(board: Board, number: int) -> Crossing:
    """From the predecessor to the least start mark of the successor."""
    link, row, after = board.links[number], board.first[number], board.second[number]
    line, other = board.line[row], board.line[after]
    if link.kind is FS and not link.lag:
        return Crossing(number, 2 * row + 1, line.ends, None, other.mark, 0)
    source, target = ENDS[link.kind.value]
    actual = board.activities[row].actual_start
    leave = line.ends if source else line.begins if actual is None else _always_at(actual)
    handover = link.kind is LinkKind.SF and not link.lag
    enter = other.reach if target and not handover else other.mark
    shift = board.length[after] if target else 0
    return Crossing(number, 2 * row + source, leave, _lag(board, number, 1), enter, shift)


def back(board: Board, number: int) -> Crossing:
    """From the successor to the greatest start mark of the predecessor."""
    link, row, after = board.links[number], board.first[number], board.second[number]
    line, other = board.line[row], board.line[after]
    if link.kind is FS and not link.lag:
        return Crossing(number, 2 * after, other.begins, None, line.mark, board.length[row])
    source, target = ENDS[link.kind.value]
    handover = link.kind is LinkKind.SF and not link.lag
    leave = other.ends if target and not handover else other.begins
    enter, shift = (line.mark, board.length[row]) if source else (line.leave, 0)
    return Crossing(number, 2 * after + target, leave, _lag(board, number, -1), enter, shift)


def _lag(board: Board, number: int, sign: int) -> Move | None:
    lag = board.links[number].lag
    if not lag:
        return None
    if board.links[number].clock is not WORK:
        through = board.zone.after if sign > 0 else board.zone.before
        return lambda at: through(at, lag)
    own = board.own[board.first[number]]
    side = own.ends if sign > 0 else own.begins
    return lambda at: side(own.mark(at) + sign * lag)


def _always_at(actual: int) -> Move:
    return lambda mark: actual
