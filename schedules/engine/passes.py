"""The forward and the backward pass."""

from .board import FAR, Board, Marks
from .crossing import ahead, back
from .table import Placed


def forward(board: Board) -> Marks:
    """Early dates: each start as early as every bound allows.

    Finishes are pushed on to the rows that wait for nothing else of their predecessor.
    """
    early = Marks.unbounded(len(board.activities))
    mark, start, finish = early.mark, early.start, early.finish
    ready, line, length, out = board.ready[:], board.line, board.length, board.out
    careful = board.points | board.started | board.other_into.keys()
    for row in board.order:
        placed = (
            _place_with_care(board, row, ready[row], early)
            if row in careful
            else line[row].place(ready[row], length[row])
        )
        mark[row], start[row], until = placed
        finish[row] = until
        for after in out[row]:
            if until > ready[after]:
                ready[after] = until
    return early


def backward(board: Board, rows: list[int], caps: list[int], early: Marks, late: Marks) -> None:
    """Fill the late dates of `rows`; FAR where nothing bounds them.

    `caps` are the latest finishes that imposed dates and the end allow. What is finished
    stays where it was.
    """
    mark, start, finish = late.mark, late.start, late.finish
    line, length, out = board.line, board.length, board.out
    careful = board.points | board.finished | board.other_out.keys()
    for row in reversed(rows):
        limit = caps[row]
        for after in out[row]:
            if start[after] < limit:
                limit = start[after]
        if row in careful:
            placed = _place_back_with_care(board, row, limit, early, late)
        elif limit == FAR:
            placed = FAR, FAR, FAR
        else:
            placed = line[row].place_back(limit, length[row])
        mark[row], start[row], finish[row] = placed


def _place_with_care(board: Board, row: int, ready: int, early: Marks) -> Placed:
    if row in board.finished:
        return _actual(board, row)
    line = board.line[row]
    mark = line.mark(ready)
    for number in board.other_into.get(row, ()):
        mark = max(mark, ahead(board, early, number))
    if row in board.points:
        mark = settle(board, row, mark)
        return mark, mark, mark
    return line.span(mark, board.length[row])


def _actual(board: Board, row: int) -> Placed:
    activity = board.activities[row]
    finish = activity.actual_finish or 0
    if activity.actual_start is not None:
        return activity.actual_start, activity.actual_start, finish
    own = board.own[row]
    start = own.begins(own.mark(finish) - activity.duration)
    return start, start, finish


def _place_back_with_care(board: Board, row: int, limit: int, early: Marks, late: Marks) -> Placed:
    if row in board.finished:
        return early.mark[row], early.start[row], early.finish[row]
    line, length = board.line[row], board.length[row]
    mark = FAR if limit == FAR else line.mark(limit) - length
    for number in board.other_out.get(row, ()):
        mark = min(mark, back(board, late, number))
    if mark == FAR:
        return FAR, FAR, FAR
    if row in board.points:
        mark = settle_back(board, row, mark)
    return line.span(mark, length)


def rooms(board: Board, early: Marks) -> list[int]:
    """The greatest start marks that leave all successors where they are; FAR without any."""
    found = []
    start, line = early.start, board.line
    for row, following in enumerate(board.out):
        limit, first = FAR, row
        for after in following:
            if start[after] < limit:
                limit, first = start[after], after
        mark = early.mark[first] if line[first] is line[row] else line[row].mark(limit)
        found.append(mark - board.length[row] if following else FAR)
    for row, numbers in board.other_out.items():
        found[row] = min(found[row], *(back(board, early, number) for number in numbers))
    return found


def settle(board: Board, row: int, at: int) -> int:
    """The first instant, not before `at`, at which a milestone may fall.

    A finish milestone may fall where work ends, a start milestone only where it
    goes on; an event falls where it is set.
    """
    own, activity = board.own[row], board.activities[row]
    if row in board.finished or row in board.events:
        return at
    if activity.finish_milestone or activity.duration:
        return at if own.ends(own.mark(at)) == at else own.begins(own.mark(at))
    return own.begins(own.mark(at))


def settle_back(board: Board, row: int, at: int) -> int:
    """The last instant, not after `at`, at which a milestone may fall."""
    own, activity = board.own[row], board.activities[row]
    if row in board.finished or row in board.events:
        return at
    if activity.finish_milestone or activity.duration:
        return at if own.begins(own.mark(at)) == at else own.ends(own.mark(at))
    return own.begins(own.leave(at))
