"""Network in, plan out."""

from .board import Board, lay
from .ends import late_marks, reaches
from .errors import UnknownActivity
from .floats import early_instants, floats, late_instants, slack
from .joins import join
from .network import KeyDateRole, Network
from .passes import forward
from .plan import Dates, Plan
from .reasons import Reasons


def solve(network: Network, *, data_date: int) -> Plan:
    """Early and late dates, floats, reasons and the longest path of a network.

    `data_date` is an instant; nothing unfinished is placed before it. All four links,
    work and elapsed lags, key dates and progress with retained logic: the rest of work
    begun out of order waits for its unfinished predecessors. Raises a ScheduleError.

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
    starts, finishes = early_instants(board, early)
    last = max(finishes, default=data_date)
    late, room = late_marks(board, early, last, end)
    total, free = floats(board, early, late, room)
    late_starts, late_finishes = late_instants(board, early, late)
    reasons = Reasons(board, early, starts, finishes)
    rows = range(len(board.activities))
    columns = zip(
        starts, finishes, late_starts, late_finishes, total, free,
        map(reasons.drivers, rows),
        [row in board.finished for row in rows],
        reaches(board, end),
        strict=True,
    )  # fmt: skip
    dates = dict(zip(board.index, map(Dates._make, columns), strict=True))
    return _plan(network, board, reasons, dates, end)


def _chosen(network: Network, board: Board) -> int | None:
    if network.end is None:
        return None
    if network.end not in board.index:
        raise UnknownActivity(None, network.end)
    return board.index[network.end]


def _plan(
    network: Network, board: Board, reasons: Reasons, dates: dict[str, Dates], end: int | None
) -> Plan:
    if not dates:
        return Plan(
            dates={}, finish=board.data_date, chain=(), chain_links=(), ready_at=None, in_hand=None
        )
    last = (
        board.index[min(dates, key=lambda k: (-dates[k].early_finish, k))] if end is None else end
    )
    event = end is not None and end in board.events
    rows, links = reasons.chain(last, through_event=event)
    ready_at = None if end is None else reasons.latest(end)[1]
    return Plan(
        dates=dates,
        finish=dates[board.activities[last].key].early_finish,
        chain=tuple(board.activities[row].key for row in rows),
        chain_links=tuple(board.links[number].key for number in links),
        ready_at=ready_at,
        in_hand=_in_hand(network, ready_at),
    )


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
