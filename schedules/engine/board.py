"""The network as plain lists: one row an activity, in input order.

Start and finish of row r are the points 2r and 2r + 1. A link between two rows that
live on the same line of working time becomes a pair (point, offset) and costs one
addition; any other link is crossed through instants (crossing.py).
"""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from .errors import (
    DuplicateActivity,
    NegativeDuration,
    UnknownActivity,
    UnknownCalendar,
)
from .network import Activity, KeyDate, KeyDateRole, Link, Network
from .table import ALWAYS, Line
from .zone import Zone

if TYPE_CHECKING:
    from .crossing import Crossing

Step = tuple[int, int, int]  # point, offset, number of the link
BackStep = tuple[int, int]


@dataclass(slots=True)
class Board:
    """Lists that the passes read and fill. Marks are working minutes on a row's line."""

    activities: tuple[Activity, ...]
    links: tuple[Link, ...]
    index: dict[str, int]
    zone: Zone
    data_date: int
    own: list[Line]  # the row's calendar
    line: list[Line]  # where its points live: its calendar, or round the clock
    length: list[int]  # minutes to place: the duration, or what remains of it
    floor: list[int]  # the least start mark that data date and key dates allow
    finished: set[int] = field(default_factory=set)
    started: set[int] = field(default_factory=set)  # in progress or finished
    points: set[int] = field(default_factory=set)  # rows without length
    events: set[int] = field(default_factory=set)  # rows that happen by the wall clock
    held: dict[int, list[KeyDate]] = field(default_factory=dict)
    first: list[int] = field(default_factory=list)  # row before each link
    second: list[int] = field(default_factory=list)  # row after each link
    into: list[list[Step]] = field(default_factory=list)
    out: list[list[BackStep]] = field(default_factory=list)
    crossing_into: dict[int, list["Crossing"]] = field(default_factory=dict)
    crossing_out: dict[int, list["Crossing"]] = field(default_factory=dict)
    bounds: dict[int, tuple[int, int]] = field(
        default_factory=dict
    )  # of crossed links: instant, mark
    order: list[int] = field(default_factory=list)


def lay(network: Network, data_date: int) -> Board:
    """The rows of a network, without its links."""
    activities = network.activities
    index = {activity.key: row for row, activity in enumerate(activities)}
    if len(index) < len(activities):
        keys = [activity.key for activity in activities]
        raise DuplicateActivity(next(key for key in keys if keys.count(key) > 1))
    own = _own_lines(network, data_date)
    board = Board(
        activities=activities,
        links=network.links,
        index=index,
        zone=Zone(network.zone),
        data_date=data_date,
        own=own,
        line=own[:],
        length=[activity.duration for activity in activities],
        floor=[],
    )
    _hold(board, network.key_dates)
    _set_progress(board)
    _set_points(board)
    _set_floors(board)
    return board


def _own_lines(network: Network, data_date: int) -> list[Line]:
    lines = {key: calendar.line(data_date) for key, calendar in network.calendars.items()}
    if network.project_calendar not in lines:
        raise UnknownCalendar(None, network.project_calendar)
    try:
        return [lines[activity.calendar] for activity in network.activities]
    except KeyError:
        lost = next(a for a in network.activities if a.calendar not in lines)
        raise UnknownCalendar(lost.key, lost.calendar) from None


def _hold(board: Board, key_dates: tuple[KeyDate, ...]) -> None:
    for key_date in key_dates:
        if key_date.activity not in board.index:
            raise UnknownActivity(key_date.key, key_date.activity)
        row = board.index[key_date.activity]
        board.held.setdefault(row, []).append(key_date)
        if key_date.role is KeyDateRole.EVENT:
            board.events.add(row)


def _set_progress(board: Board) -> None:
    for row, activity in enumerate(board.activities):
        if activity.duration < 0 or (activity.remaining or 0) < 0:
            raise NegativeDuration(activity.key)
        if activity.actual_finish is not None:
            board.finished.add(row)
            board.started.add(row)
            board.line[row] = ALWAYS
        elif activity.actual_start is not None:
            board.started.add(row)
            board.length[row] = _remaining(board, row, activity.actual_start)


def _remaining(board: Board, row: int, actual_start: int) -> int:
    activity, line = board.activities[row], board.own[row]
    if activity.remaining is not None:
        return activity.remaining
    return max(0, activity.duration - max(0, line.mark(board.data_date) - line.mark(actual_start)))


def _set_points(board: Board) -> None:
    """Put what takes no working time, and public events, on the wall clock."""
    for row, length in enumerate(board.length):
        if not length:
            board.points.add(row)
            board.line[row] = ALWAYS
    for row in board.events:
        board.line[row] = ALWAYS


def _set_floors(board: Board) -> None:
    lowest = {line: line.mark(board.data_date) for line in set(board.line)}
    board.floor = [lowest[line] for line in board.line]
    for row, key_dates in board.held.items():
        for key_date in key_dates:
            if key_date.role is not KeyDateRole.NO_LATER and row not in board.started:
                board.floor[row] = max(board.floor[row], board.line[row].mark(key_date.at))
