"""How late each activity may be: from the chosen end, or from the last finish of all."""

from .board import Board
from .crossing import FAR
from .network import KeyDateRole
from .passes import backward


def late_marks(
    board: Board, early: list[int], last: int, end: int | None
) -> tuple[list[int], list[int]]:
    """Late marks of all points, and how late each row may start for its successors' sake.

    Rows that neither the chosen end nor a later imposed date bounds are measured
    against `last`, the last finish of all.
    """
    late = [FAR] * len(early)
    if end is None:
        room = backward(board, board.order, _impose(board, _caps_at(board, last)), early, late)
        return late, room
    caps = [FAR] * len(board.activities)
    caps[end] = early[2 * end]
    room = backward(board, board.order, _impose(board, caps), early, late)
    free = [row for row in board.order if late[2 * row] > FAR >> 1]
    backward(board, free, _caps_at(board, last), early, late)
    return late, room


def _caps_at(board: Board, last: int) -> list[int]:
    marks = {line: line.mark(last) for line in set(board.line)}
    return [marks[line] - length for line, length in zip(board.line, board.length, strict=True)]


def _impose(board: Board, caps: list[int]) -> list[int]:
    for row, key_dates in board.held.items():
        for key_date in key_dates:
            mark = board.line[row].mark(key_date.at)
            if key_date.role is KeyDateRole.NO_LATER:
                caps[row] = min(caps[row], mark - board.length[row])
            elif key_date.role is KeyDateRole.EVENT and row not in board.started:
                caps[row] = min(caps[row], mark)
    return caps


def reaches(board: Board, end: int | None) -> list[bool]:
    """Which rows have a path to the chosen end; all of them when none is chosen."""
    if end is None:
        return [True] * len(board.activities)
    before: list[list[int]] = [[] for _ in board.activities]
    for row, after in zip(board.first, board.second, strict=True):
        before[after].append(row)
    reached = [False] * len(board.activities)
    reached[end] = True
    waiting = [end]
    while waiting:
        for row in before[waiting.pop()]:
            if not reached[row]:
                reached[row] = True
                waiting.append(row)
    return reached
