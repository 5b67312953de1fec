"""How late each activity may be: from the chosen end, or from the last finish of all."""

from .board import FAR, Board, Marks
from .crossing import met
from .network import KeyDateRole
from .passes import backward


def late_marks(board: Board, early: Marks, end: int | None) -> Marks:
    """Late dates of all rows.

    Rows that neither the chosen end nor a later imposed date bounds are measured
    against the last finish of all.
    """
    rows = len(board.activities)
    late = Marks.unbounded(rows)
    at_last = [max(early.finish, default=board.data_date)] * rows
    if end is None:
        backward(board, board.order, _impose(board, at_last), early, late)
        return late
    caps = [FAR] * rows
    caps[end] = early.finish[end]
    backward(board, board.order, _impose(board, caps), early, late)
    free = [row for row in board.order if late.mark[row] == FAR]
    backward(board, free, at_last, early, late)
    return late


def _impose(board: Board, caps: list[int]) -> list[int]:
    for row, key_dates in board.held.items():
        for key_date in key_dates:
            if key_date.role is KeyDateRole.NO_LATER:
                caps[row] = min(caps[row], key_date.at)
            elif key_date.role is KeyDateRole.EVENT and row not in board.started:
                caps[row] = min(caps[row], key_date.at + board.length[row])
    return caps


def reaches(board: Board, end: int | None) -> list[bool]:
    """Which rows have a path to the chosen end; all of them when none is chosen.

    A link that progress has overtaken is no path for what is not finished.
    """
    if end is None:
        return [True] * len(board.activities)
    reached = [False] * len(board.activities)
    reached[end] = True
    waiting = [end]
    while waiting:
        for number in board.into[waiting.pop()]:
            row = board.first[number]
            if not reached[row] and (row in board.finished or not met(board, number)):
                reached[row] = True
                waiting.append(row)
    return reached
