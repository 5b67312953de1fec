"""Floats, and dates as they are shown."""

from collections.abc import Callable
from operator import sub

from .board import BOUND, Board, Marks
from .crossing import ahead
from .passes import rooms, settle


def early_starts(board: Board, early: Marks) -> list[int]:
    """Early starts; one that has happened stays where it was."""
    starts = early.start[:]
    for row in board.started - board.finished:
        starts[row] = board.activities[row].actual_start or 0
    return starts


def late_instants(board: Board, early: Marks, late: Marks) -> tuple[list[int], list[int]]:
    """Late starts and finishes.

    The late date of a finish milestone is shown where the work before it ends,
    unless the milestone itself falls later.
    """
    starts, finishes = late.start[:], late.finish[:]
    for row in board.points - board.finished - board.events:
        own = board.own[row]
        shown = own.ends(own.mark(finishes[row]))
        if board.activities[row].finish_milestone and shown >= early.mark[row]:
            starts[row] = finishes[row] = shown
    return starts, finishes


def slack(count: Callable[[int], int], first: int, last: int) -> int:
    """Working minutes from `first` to `last` where `count` gives the mark of an instant.

    When `last` is earlier with no working minute between, the elapsed minutes, so
    that lateness outside working hours is not lost.

    >>> slack(lambda at: 0, 120, 90), slack(lambda at: at, 90, 120)
    (-30, 30)
    """
    worked = count(last) - count(first)
    return last - first if not worked and last < first else worked


def floats(board: Board, early: Marks, late: Marks) -> tuple[list[int], list[int]]:
    """Total and free float of every row, in working minutes of its calendar."""
    total = list(map(sub, late.mark, early.mark))
    free = list(map(sub, rooms(board, early), early.mark))
    for row in board.points | board.events:
        own, first, most = board.own[row], early.mark[row], early.mark[row] + free[row]
        total[row] = slack(own.mark, first, late.mark[row])
        if most < BOUND:
            free[row] = own.mark(most) - own.mark(first)
    for row in board.finished:
        total[row] = free[row] = 0
    return total, [max(0, min(pair)) for pair in zip(free, total, strict=True)]


def independent(board: Board, early: Marks, late: Marks, row: int, free: int) -> int:
    """What is left of the free float of a row when all before it is as late as it may be."""
    if not free:
        return 0
    mark = early.mark[row]
    pushed = max([mark, *(ahead(board, late, number) for number in board.into[row])])
    if row in board.points:
        own = board.own[row]
        return max(0, free + own.mark(mark) - own.mark(settle(board, row, pushed)))
    if row in board.events:
        return max(0, free - board.own[row].mark(pushed) + board.own[row].mark(mark))
    return max(0, free - pushed + mark)
