"""The floats of an activity, and its late dates as shown."""

from collections.abc import Callable

from .board import FAR, Board, Marks
from .passes import room


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


def floats(board: Board, early: Marks, late: Marks, row: int) -> tuple[int, int]:
    """Total and free float of a row, in working minutes of its calendar."""
    if row in board.finished:
        return 0, 0
    first, last, most = early.mark[row], late.mark[row], room(board, row, early)
    total, own = last - first, board.own[row]
    if board.line[row] is not own:
        total = slack(own.mark, first, last)
        if most != FAR:
            first, most = own.mark(first), own.mark(most)
    return total, max(0, min(most - first, total))
