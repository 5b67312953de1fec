"""Findings: what is not wrong enough to refuse, but leaves dates without meaning."""

from collections.abc import Iterator
from dataclasses import dataclass

from .board import Board, Marks, lay
from .calendar import Calendar
from .crossing import ahead
from .errors import ScheduleError
from .joins import join
from .network import LagClock, LinkKind, Network
from .passes import forward

HOLDS_START = {LinkKind.FS, LinkKind.SS}  # kinds that hold the start of their successor
USES_FINISH = {LinkKind.FS, LinkKind.FF}  # kinds that use the finish of their predecessor


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One finding about an activity; `key_date` or `link` names what is concerned, if any.

    Codes: `no_predecessor` (when several activities have none), `no_successor`,
    `dangling_start` (links in, none holds the start), `dangling_finish` (links out,
    none uses the finish), `no_path_to_end`, `actual_after_data_date`,
    `finish_before_start`, `key_date_on_finished`, `estimates_out_of_order` (low above
    the duration, or high below it), `no_working_time` (its calendar is closed for good,
    or the project's, on which the lag of `link` is counted),
    `lag_before_start` (a negative lag asks for a start before the data date).

    >>> Finding(code="no_successor", activity="sweep").key_date is None
    True
    """

    code: str
    activity: str
    key_date: str | None = None
    link: str | None = None


def check(network: Network, *, data_date: int | None = None) -> tuple[Finding, ...]:
    """Everything worth a question, in the order of the activities.

    Links to unknown activities are left out; `solve` refuses them, and while it refuses
    the network no `lag_before_start` is found. The data date is an instant; without it
    progress and lags are not held against it. Open and dangling ends: DCMA-EA PAM 200.1
    (2012), section 4; the others are common practice, no source.

    >>> from . import Activity, Calendar
    >>> lone = Activity(key="sweep", duration=60, calendar="always")
    >>> check(Network(activities=(lone,), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")}))
    ()
    """
    found = {activity.key: list[Finding]() for activity in network.activities}
    checks = (
        _open(network),
        _dangling(network),
        _no_path(network),
        _progress(network, data_date),
        _unfit(network),
        _before_start(network, data_date),
    )
    for finding in (finding for each in checks for finding in each):
        found[finding.activity].append(finding)
    return tuple(finding for findings in found.values() for finding in findings)


def _open(network: Network) -> Iterator[Finding]:
    after = {link.after for link in network.links}
    before = {link.before for link in network.links}
    keys = [activity.key for activity in network.activities]
    starts = [key for key in keys if key not in after]
    finishes = [key for key in keys if key not in before and key != network.end]
    if len(starts) > 1:
        yield from (Finding(code="no_predecessor", activity=key) for key in starts)
    if len(finishes) > 1 or network.end is not None:
        yield from (Finding(code="no_successor", activity=key) for key in finishes)


def _dangling(network: Network) -> Iterator[Finding]:
    known = {activity.key for activity in network.activities}
    after = {link.after for link in network.links} & known
    before = {link.before for link in network.links} & known
    held = {link.after for link in network.links if link.kind in HOLDS_START}
    used = {link.before for link in network.links if link.kind in USES_FINISH}
    yield from (Finding(code="dangling_start", activity=key) for key in sorted(after - held))
    loose = before - used - {network.end}
    yield from (Finding(code="dangling_finish", activity=key) for key in sorted(loose))


def _no_path(network: Network) -> Iterator[Finding]:
    if network.end is None:
        return
    reached, waiting = {network.end}, [network.end]
    before: dict[str, list[str]] = {}
    for link in network.links:
        before.setdefault(link.after, []).append(link.before)
    while waiting:
        for key in before.get(waiting.pop(), ()):
            if key not in reached:
                reached.add(key)
                waiting.append(key)
    lost = (activity for activity in network.activities if activity.key not in reached)
    yield from (Finding(code="no_path_to_end", activity=activity.key) for activity in lost)


def _progress(network: Network, data_date: int | None) -> Iterator[Finding]:
    finished = {a.key for a in network.activities if a.actual_finish is not None}
    for activity in network.activities:
        actuals = [at for at in (activity.actual_start, activity.actual_finish) if at is not None]
        if data_date is not None and any(at > data_date for at in actuals):
            yield Finding(code="actual_after_data_date", activity=activity.key)
        if actuals != sorted(actuals):
            yield Finding(code="finish_before_start", activity=activity.key)
    for key_date in network.key_dates:
        if key_date.activity in finished:
            yield Finding(
                code="key_date_on_finished", activity=key_date.activity, key_date=key_date.key
            )


def _unfit(network: Network) -> Iterator[Finding]:
    closed = {key for key, calendar in network.calendars.items() if _closed(calendar)}
    waiting = {a.key for a in network.activities if a.actual_finish is None}
    for activity in network.activities:
        low, high = activity.low, activity.high
        if (low or 0) > activity.duration or (high is not None and high < activity.duration):
            yield Finding(code="estimates_out_of_order", activity=activity.key)
        if activity.calendar in closed:
            yield Finding(code="no_working_time", activity=activity.key)
    if network.project_calendar in closed:
        for link in network.links:
            if link.lag and link.clock is LagClock.PROJECT and link.after in waiting:
                yield Finding(code="no_working_time", activity=link.after, link=link.key)


def _closed(calendar: Calendar) -> bool:
    spans = (span for day in calendar.exceptions.values() for span in day)
    return not calendar.endless and not any(end > begin for begin, end in spans)


def _before_start(network: Network, data_date: int | None) -> Iterator[Finding]:
    """Negative lags that the data date alone keeps from acting, between unbegun work."""
    leads = [number for number, link in enumerate(network.links) if link.lag < 0]
    if data_date is None or not leads:
        return
    try:
        board = lay(network, data_date)
        join(board)
        early = forward(board)
        pushed = [number for number in leads if _too_early(board, number, early)]
    except ScheduleError:
        return
    for number in pushed:
        link = network.links[number]
        yield Finding(code="lag_before_start", activity=link.after, link=link.key)


def _too_early(board: Board, number: int, early: Marks) -> bool:
    row, after = board.first[number], board.second[number]
    if row in board.started or after in board.started:
        return False
    return ahead(board, early, number) < board.line[after].mark(board.data_date)
