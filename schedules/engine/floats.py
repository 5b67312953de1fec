"""From marks back to instants, and the floats between them."""

from collections.abc import Callable

from .board import Board
from .crossing import FAR
from .table import Line


def instants(board: Board, marks: list[int]) -> tuple[list[int], list[int]]:
    """The instants of all starts and all finishes."""
    starts, finishes = marks[::2], marks[1::2]
    rows_of: dict[Line, list[int]] = {}
    for row, line in enumerate(board.line):
        rows_of.setdefault(line, []).append(row)
    for line, rows in rows_of.items():
        for found, each in ((starts, line.begins_each), (finishes, line.ends_each)):
            for row, at in zip(rows, each([found[row] for row in rows]), strict=True):
                found[row] = at
    return starts, finishes


def early_instants(board: Board, early: list[int]) -> tuple[list[int], list[int]]:
    """Early starts and finishes; a start that has happened stays where it was."""
    starts, finishes = instants(board, early)
    for row in board.started - board.finished:
        starts[row] = board.activities[row].actual_start or 0
    return starts, finishes


def late_instants(board: Board, early: list[int], late: list[int]) -> tuple[list[int], list[int]]:
    """Late starts and finishes; what is finished keeps its actual dates.

    The late date of a finish milestone is shown where the work before it ends,
    unless the milestone itself falls later.
    """
    for row in board.finished:
        late[2 * row : 2 * row + 2] = early[2 * row : 2 * row + 2]
    starts, finishes = instants(board, late)
    for row in board.points - board.finished - board.events:
        own = board.own[row]
        shown = own.ends(own.mark(finishes[row]))
        if board.activities[row].finish_milestone and shown >= early[2 * row]:
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


def floats(
    board: Board, early: list[int], late: list[int], room: list[int]
) -> tuple[list[int], list[int]]:
    """Total and free float of every row, in working minutes of its calendar."""
    total = [last - first for first, last in zip(early[::2], late[::2], strict=True)]
    free = [last - first for first, last in zip(early[::2], room, strict=True)]
    for row, line in enumerate(board.line):
        own = board.own[row]
        if line is not own:
            total[row] = slack(own.mark, early[2 * row], late[2 * row])
            free[row] = (
                FAR if room[row] > FAR >> 1 else own.mark(room[row]) - own.mark(early[2 * row])
            )
    for row in board.finished:
        total[row] = free[row] = 0
    return total, [max(0, min(pair)) for pair in zip(free, total, strict=True)]
