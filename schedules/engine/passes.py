"""The forward and the backward pass."""

from .board import Board
from .crossing import FAR, Crossing


def forward(board: Board) -> list[int]:
    """Early marks of all points: each start as early as every bound allows."""
    early = [0] * (2 * len(board.activities))
    floor, length, into = board.floor, board.length, board.into
    crossing, settled = board.crossing_into, board.points | board.finished
    for row in board.order:
        mark = floor[row]
        for source, offset, _ in into[row]:
            value = early[source] + offset
            if value > mark:
                mark = value
        if row in crossing:
            mark = max(mark, _crossed(board, crossing[row], early))
        if row in settled:
            mark = settle(board, row, mark)
        early[2 * row] = mark
        early[2 * row + 1] = mark + length[row]
        if row in board.finished:
            early[2 * row : 2 * row + 2] = _actual(board, row)
    return early


def _crossed(board: Board, crossings: list[Crossing], early: list[int]) -> int:
    """The greatest bound; each is kept for the reasons."""
    most = -FAR
    for number, point, leave, lag, enter, shift in crossings:
        at = leave(early[point])
        if lag:
            at = lag(at)
        mark = enter(at) - shift
        board.bounds[number] = at, mark
        if mark > most:
            most = mark
    return most


def _allowed(crossings: list[Crossing], marks: list[int]) -> int:
    """The greatest start mark that leaves all successors at `marks`."""
    least = FAR
    for _, point, leave, lag, enter, shift in crossings:
        if marks[point] < FAR >> 1:
            at = leave(marks[point])
            least = min(least, enter(lag(at) if lag else at) - shift)
    return least


def _actual(board: Board, row: int) -> tuple[int, int]:
    activity = board.activities[row]
    finish = activity.actual_finish or 0
    if activity.actual_start is not None:
        return activity.actual_start, finish
    own = board.own[row]
    return own.begins(own.mark(finish) - activity.duration), finish


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


def backward(
    board: Board, rows: list[int], caps: list[int], early: list[int], late: list[int]
) -> list[int]:
    """Fill the late marks of `rows`; return how late each row may start for its successors' sake.

    `caps` are the greatest start marks that imposed dates and the end allow.
    """
    room = [FAR] * len(board.activities)
    length, out, crossing, points = board.length, board.out, board.crossing_out, board.points
    for row in reversed(rows):
        limit, free = caps[row], FAR
        for target, offset in out[row]:
            value = late[target] - offset
            if value < limit:
                limit = value
            value = early[target] - offset
            if value < free:
                free = value
        if row in crossing:
            limit = min(limit, _allowed(crossing[row], late))
            free = min(free, _allowed(crossing[row], early))
        if row in points and limit < FAR >> 1:
            limit = settle_back(board, row, limit)
        late[2 * row] = limit
        late[2 * row + 1] = limit + length[row]
        room[row] = free
    return room
