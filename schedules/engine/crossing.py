"""Links other than the plain one, from the finish of one row to the start of the next.

Between rows that live on one line of working time a link is an addition of marks. Any
other leaves a mark for its instant, shifts that by the lag, and enters the other line.
`ahead` bounds the successor's start from below, `back` the predecessor's start from
above, and the two agree to the minute: a predecessor at or before `back` never pushes
its successor. A lag in working time ends at the first instant by which the calendar of
its clock has counted it, whatever the lines of the two rows.
"""

from .board import FAR, Board, Marks
from .network import LagClock, LinkKind
from .table import Line

WORK = LagClock.WORK
FS, SS, FF, SF = LinkKind.FS, LinkKind.SS, LinkKind.FF, LinkKind.SF


def met(board: Board, number: int) -> bool:
    """Whether progress has overtaken a link, so that it holds nothing any more."""
    row, after = board.first[number], board.second[number]
    if after in board.finished or (after in board.ahead and row not in board.finished):
        return True
    both_begun = row in board.started and after in board.started
    return both_begun and board.links[number].kind is SS


def crosses(board: Board, number: int) -> bool:
    """Whether a link is more than an addition of marks."""
    if board.home[board.first[number]] is not board.home[board.second[number]]:
        return True
    link = board.links[number]
    if not link.lag or link.clock is WORK:
        return False
    return lag_line(board, number) is not board.own[board.first[number]]


def lag_line(board: Board, number: int) -> Line | None:
    """The line on which the lag of a link is counted; None for elapsed time."""
    clock = board.links[number].clock
    if clock is LagClock.ELAPSED:
        return None
    if clock is LagClock.PROJECT:
        return board.project
    return board.own[(board.first if clock is WORK else board.second)[number]]


def step(board: Board, number: int) -> int | None:
    """What a link adds to the start of its predecessor to bound that of its successor, in marks.

    None when the link crosses lines, -FAR when progress has met it.
    """
    row, after = board.first[number], board.second[number]
    if after in board.started and met(board, number):
        return -FAR
    if crosses(board, number):
        return None
    kind, lag = board.links[number].kind, board.links[number].lag
    if kind is FS or kind is FF:
        lag += board.length[row]
    return lag - board.length[after] if kind is FF or kind is SF else lag


def reached(board: Board, early: Marks, number: int) -> int:
    """The instant that a link gives its successor's start or finish, lag included."""
    link, row = board.links[number], board.first[number]
    if link.kind is FS or link.kind is FF:
        at = early.finish[row]
    else:
        actual = board.activities[row].actual_start
        at = early.start[row] if actual is None else actual
    return _shifted(board, number, at, 1) if link.lag else at


def ahead(board: Board, early: Marks, number: int) -> int:
    """The least start mark that a link leaves its successor; below -BOUND when it is met."""
    row, add = board.first[number], board.step.get(number)
    if add is not None:
        return early.mark[row] + add
    link, after = board.links[number], board.second[number]
    if link.kind is FS and not link.lag and board.home[row] is board.home[after]:
        return early.mark[row] + board.length[row]
    at, line = reached(board, early, number), board.line[after]
    if link.kind is FS or link.kind is SS:
        return line.mark(at)
    place = line.reach if link.lag or link.kind is FF else line.mark
    return place(at) - board.length[after]


def back(board: Board, marks: Marks, number: int) -> int:
    """The greatest start mark of the predecessor that leaves its successor at `marks`, or FAR."""
    row, after = board.first[number], board.second[number]
    if marks.mark[after] == FAR:
        return FAR
    add = board.step.get(number)
    if add is not None:
        return FAR if add == -FAR else marks.mark[after] - add
    link, line = board.links[number], board.line[row]
    from_finish = link.kind is FS or link.kind is FF
    if row in board.started and (row in board.finished or not from_finish):
        return FAR
    at = _leaves(board, marks, number)
    at = _shifted(board, number, at, -1) if link.lag else at
    return line.mark(at) - board.length[row] if from_finish else line.leave(at)


def _leaves(board: Board, marks: Marks, number: int) -> int:
    """The instant of the successor's point that a link holds."""
    link, after = board.links[number], board.second[number]
    if link.kind is FS or link.kind is SS:
        return marks.start[after]
    if link.lag or link.kind is FF:
        return marks.finish[after]
    return board.line[after].begins(marks.mark[after] + board.length[after])


def _shifted(board: Board, number: int, at: int, sign: int) -> int:
    """An instant with the lag of a link added, or taken off when `sign` is -1."""
    lag, line, zone = board.links[number].lag, lag_line(board, number), board.zone
    if line is None:
        return zone.after(at, lag) if sign > 0 else zone.before(at, lag)
    mark = line.mark(at) + sign * lag
    return line.ends(mark) if sign > 0 else line.begins(mark)
