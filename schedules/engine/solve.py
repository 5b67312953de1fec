"""Network in, plan out."""

from .answer import Answer
from .board import Board, Marks, lay, within
from .ends import late_marks
from .errors import UnknownActivity
from .floats import slack
from .joins import join
from .network import KeyDateRole, Network
from .passes import forward
from .plan import Plan
from .reasons import Reasons


def solve(network: Network, *, data_date: int) -> Plan:
    """Early and late dates, floats, reasons and the longest path of a network.

    `data_date` is an instant; nothing unfinished is placed before it. All four links,
    lags on each of their clocks, key dates and progress with retained logic: the rest of work
    begun out of order waits for its unfinished predecessors, unless the activity is
    `ahead`. Raises a ScheduleError.

    >>> from . import Activity, Calendar, Link
    >>> always = Calendar.always("always")
    >>> weld, paint = (Activity(key=k, duration=60, calendar="always") for k in ("weld", "paint"))
    >>> plan = solve(Network(activities=(weld, paint), calendars={"always": always},
    ...     links=(Link(key="dry", before="weld", after="paint", lag=30),),
    ...     project_calendar="always"), data_date=0)
    >>> plan.dates["paint"].early_start, plan.finish, plan.chain
    (90, 150, ('weld', 'paint'))
    """
    board = lay(network, data_date)
    end = _chosen(network, board)
    join(board)
    early = forward(board)
    late = late_marks(board, early, end)
    _check_reach(board, early, late)
    plan = _plan(network, board, early, late, end)
    if not all(calendar.endless for calendar in network.calendars.values()):
        list(plan.dates.values())  # such a calendar can run out: refuse now, not when read
    return plan


def _check_reach(board: Board, early: Marks, late: Marks) -> None:
    """Working time round the clock knows no end: refuse dates that no calendar shows."""
    keys = board.activities
    latest, earliest = max(early.finish, default=0), min(late.start, default=0)
    within(latest, keys[early.finish.index(latest)].key if keys else None)
    within(earliest, keys[late.start.index(earliest)].key if keys else None)


def _chosen(network: Network, board: Board) -> int | None:
    if network.end is None:
        return None
    if network.end not in board.index:
        raise UnknownActivity(None, network.end)
    return board.index[network.end]


def _plan(network: Network, board: Board, early: Marks, late: Marks, end: int | None) -> Plan:
    if not board.activities:
        return Plan(
            dates={}, finish=board.data_date, chain=(), chain_links=(), ready_at=None, in_hand=None
        )
    reasons = Reasons(board, early)
    last = _last(board, early) if end is None else end
    rows, links = reasons.chain(last, through_event=end in board.events)
    ready_at = None if end is None else reasons.latest(end)[1]
    return Plan(
        dates=Answer(board, early, late, reasons, end),
        finish=early.finish[last],
        chain=tuple(board.activities[row].key for row in rows),
        chain_links=tuple(board.links[number].key for number in links),
        ready_at=ready_at,
        in_hand=_in_hand(network, ready_at),
    )


def _last(board: Board, early: Marks) -> int:
    """The row that finishes last; of several the least key."""
    latest = max(early.finish)
    rows = [row for row, finish in enumerate(early.finish) if finish == latest]
    return min(rows, key=lambda row: board.activities[row].key)


def _in_hand(network: Network, ready_at: int | None) -> int | None:
    if ready_at is None:
        return None
    events = [
        key_date.at
        for key_date in network.key_dates
        if key_date.activity == network.end and key_date.role is KeyDateRole.EVENT
    ]
    line = network.calendars[network.project_calendar].line(ready_at)
    return slack(line.mark, ready_at, min(events)) if events else None
