"""Links that cross from one line of working time to another, through instants.

`bound` looks forward, `allowed` backward, and the two agree to the minute: a
predecessor at or before `allowed` never pushes its successor. A lag in working time
ends at the first instant by which the predecessor's calendar has counted it.
"""

from .board import Board
from .joins import ENDS, WORK
from .network import LinkKind

FAR = 1 << 60  # later than any late date: nothing bounds it


def bound(board: Board, number: int, early: list[int]) -> tuple[int, int]:
    """The instant a link asks for, and the least start mark of its successor."""
    link, after = board.links[number], board.second[number]
    source, target = ENDS[link.kind]
    at = _lagged(board, number, point_at(board, early, 2 * board.first[number] + source))
    line = board.line[after]
    if not target:
        return at, line.mark(at)
    handover = link.kind is LinkKind.SF and not link.lag
    finish = line.mark(at) if handover else line.reach(at)
    return at, finish - board.length[after]


def point_at(board: Board, marks: list[int], point: int) -> int:
    """The instant of a start (even point) or a finish (odd point)."""
    row = point >> 1
    actual = board.activities[row].actual_start
    if point & 1:
        return board.line[row].ends(marks[point])
    return board.line[row].begins(marks[point]) if actual is None else actual


def _lagged(board: Board, number: int, at: int) -> int:
    link = board.links[number]
    if not link.lag:
        return at
    if link.clock is not WORK:
        return board.zone.after(at, link.lag)
    own = board.own[board.first[number]]
    return own.ends(own.mark(at) + link.lag)


def allowed(board: Board, number: int, marks: list[int]) -> int:
    """The greatest start mark of the predecessor that leaves the successor at `marks`."""
    link, after = board.links[number], board.second[number]
    source, target = ENDS[link.kind]
    mark, line = marks[2 * after + target], board.line[after]
    if mark > FAR >> 1:
        return FAR
    from_finish = target and not (link.kind is LinkKind.SF and not link.lag)
    at = _unlagged(board, number, line.ends(mark) if from_finish else line.begins(mark))
    row = board.first[number]
    return board.line[row].mark(at) - board.length[row] if source else board.line[row].leave(at)


def _unlagged(board: Board, number: int, at: int) -> int:
    link = board.links[number]
    if not link.lag:
        return at
    if link.clock is not WORK:
        return board.zone.before(at, link.lag)
    own = board.own[board.first[number]]
    return own.begins(own.mark(at) - link.lag)
