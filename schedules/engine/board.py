"""The network as plain lists: one row an activity, in input order.

The commonest link lets one row start when another has finished, without a lag. Those
are rows in `out`, and the passes compare instants. All other links are numbers in
`other_into` and `other_out` (crossing.py).
"""

from dataclasses import dataclass, field

from .errors import (
    BeyondHorizon,
    DuplicateActivity,
    NegativeDuration,
    UnknownActivity,
    UnknownCalendar,
)
from .instants import DAY
from .network import Activity, KeyDate, KeyDateRole, Link, Network
from .table import ALWAYS, FIRST_DAY, LAST_DAY, Line
from .zone import Zone, zone_named

FAR = 1 << 60  # later than any late date: nothing bounds it
BOUND = FAR >> 1  # what is bounded lies below this


@dataclass(slots=True)
class Marks:
    """Where a pass puts every row: the mark of its start on its line, and both instants."""

    mark: list[int]
    start: list[int]
    finish: list[int]

    @classmethod
    def unbounded(cls, rows: int) -> "Marks":
        """Every row at FAR."""
        return cls([FAR] * rows, [FAR] * rows, [FAR] * rows)


@dataclass(slots=True)
class Board:
    """Lists that the passes read. Marks are working minutes on a row's line."""

    activities: tuple[Activity, ...]
    links: tuple[Link, ...]
    index: dict[str, int]
    zone: Zone
    data_date: int
    own: list[Line]  # the row's calendar
    project: Line  # the project's calendar
    line: list[Line]  # where it lives: its calendar, or round the clock
    home: list[object]  # one and the same where a link between rows is an addition of marks
    length: list[int]  # minutes to place: the duration, or what remains of it
    ready: list[int]  # the first instant that data date and key dates allow
    finished: set[int] = field(default_factory=set)
    started: set[int] = field(default_factory=set)  # in progress or finished
    ahead: set[int] = field(default_factory=set)  # in progress, need not wait
    points: set[int] = field(default_factory=set)  # rows without length
    events: set[int] = field(default_factory=set)  # rows that happen by the wall clock
    held: dict[int, list[KeyDate]] = field(default_factory=dict)
    first: list[int] = field(default_factory=list)  # row before each link
    second: list[int] = field(default_factory=list)  # row after each link
    into: list[list[int]] = field(default_factory=list)  # numbers of all links
    out: list[list[int]] = field(default_factory=list)  # rows after plain links
    other_into: dict[int, list[int]] = field(default_factory=dict)  # numbers of the others
    other_out: dict[int, list[int]] = field(default_factory=dict)
    step: dict[int, int | None] = field(default_factory=dict)  # what each of those adds
    order: list[int] = field(default_factory=list)


def lay(network: Network, data_date: int) -> Board:
    """The rows of a network, without its links."""
    activities = network.activities
    within(data_date, None)
    index = {activity.key: row for row, activity in enumerate(activities)}
    if len(index) < len(activities):
        keys = [activity.key for activity in activities]
        raise DuplicateActivity(next(key for key in keys if keys.count(key) > 1))
    own = _own_lines(network, data_date)
    board = Board(
        activities=activities,
        links=network.links,
        index=index,
        zone=zone_named(network.zone),
        data_date=data_date,
        own=own,
        project=network.calendars[network.project_calendar].line(data_date),
        line=own[:],
        home=list(own),
        length=[activity.duration for activity in activities],
        ready=[data_date] * len(activities),
    )
    _hold(board, network.key_dates)
    _set_progress(board)
    _hold_starts(board)
    return board


def within(at: int, key: str | None) -> None:
    """Refuse an instant outside the years that calendars are laid for."""
    if not FIRST_DAY * DAY <= at <= LAST_DAY * DAY:
        raise BeyondHorizon(key)


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
        within(key_date.at, key_date.key)
        row = board.index[key_date.activity]
        board.held.setdefault(row, []).append(key_date)
        if key_date.role is KeyDateRole.EVENT:
            board.events.add(row)


def _set_progress(board: Board) -> None:
    """Begun work keeps what remains; points and events go by the wall clock."""
    for row, activity in enumerate(board.activities):
        if (
            activity.duration <= 0
            or activity.actual_start is not None
            or activity.actual_finish is not None
            or activity.remaining is not None
        ):
            _set_unlike(board, row, activity)
    for row in board.finished | board.points | board.events:
        board.line[row] = ALWAYS
    for row in board.started | board.points | board.events:
        if row in board.started or board.own[row] is not ALWAYS:
            board.home[row] = object()


def _set_unlike(board: Board, row: int, activity: Activity) -> None:
    if activity.duration < 0 or (activity.remaining or 0) < 0:
        raise NegativeDuration(activity.key)
    for actual in (activity.actual_start, activity.actual_finish):
        within(board.data_date if actual is None else actual, activity.key)
    if activity.actual_finish is not None:
        board.finished.add(row)
        board.started.add(row)
    elif activity.actual_start is not None:
        board.started.add(row)
        board.ready[row] = max(board.data_date, activity.actual_start)
        board.length[row] = _remaining(board, row, activity.actual_start)
        if activity.ahead:
            board.ahead.add(row)
    if not board.length[row]:
        board.points.add(row)


def _remaining(board: Board, row: int, actual_start: int) -> int:
    activity, line = board.activities[row], board.own[row]
    if activity.remaining is not None:
        return activity.remaining
    return max(0, activity.duration - max(0, line.mark(board.data_date) - line.mark(actual_start)))


def _hold_starts(board: Board) -> None:
    for row, key_dates in board.held.items():
        for key_date in key_dates:
            if key_date.role is not KeyDateRole.NO_LATER and row not in board.started:
                board.ready[row] = max(board.ready[row], key_date.at)
