"""Work that went ahead of work it should have waited for."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from .board import Board, lay
from .crossing import FF, FS, SF, reached
from .joins import join
from .network import Network
from .passes import forward


class SequenceRule(StrEnum):
    """What holds for work begun out of order.

    RETAINED: its rest waits for the predecessor. OVERRIDE: its rest does not wait.
    ACTUAL: it is finished, and nothing waits any more.
    """

    RETAINED = "retained"
    OVERRIDE = "override"
    ACTUAL = "actual"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfSequence:
    """`activity` went ahead although `link` makes it wait for `before`, which is not so far.

    >>> OutOfSequence(activity="skin", before="frame", link="1", rule=SequenceRule.RETAINED).before
    'frame'
    """

    activity: str
    before: str
    link: str
    rule: SequenceRule


def out_of_sequence(network: Network, *, data_date: int) -> tuple[OutOfSequence, ...]:
    """All work begun or finished ahead of an unfinished predecessor, in the order of the links.

    A link from a finish counts while its predecessor is unfinished, a link from a start
    while it has not begun. A negative lag, in minutes, allows that much; so the actual
    date is compared with the instant that the link gives. Raises a ScheduleError.
    One-page note on out-of-sequence progress (2010).

    >>> from . import Activity, Calendar, Link
    >>> frame = Activity(key="frame", duration=60, calendar="always")
    >>> skin = Activity(key="skin", duration=60, calendar="always", actual_start=-30)
    >>> found = out_of_sequence(Network(activities=(frame, skin), project_calendar="always",
    ...     links=(Link(key="1", before="frame", after="skin"),),
    ...     calendars={"always": Calendar.always("always")}), data_date=0)
    >>> found[0].before, found[0].rule.value
    ('frame', 'retained')
    """
    board = lay(network, data_date)
    join(board)
    return tuple(_found(board))


def _found(board: Board) -> Iterator[OutOfSequence]:
    early = forward(board)
    for number, link in enumerate(board.links):
        row, after = board.first[number], board.second[number]
        happened = _happened(board, number)
        if happened is None or row in _done(board, number):
            continue
        if happened < reached(board, early, number):
            yield OutOfSequence(
                activity=link.after, before=link.before, link=link.key, rule=_rule(board, after)
            )


def _happened(board: Board, number: int) -> int | None:
    """The actual instant of the successor's point that a link holds, if it has come."""
    link, activity = board.links[number], board.activities[board.second[number]]
    if link.kind is FF or link.kind is SF or activity.actual_start is None:
        return activity.actual_finish
    return activity.actual_start


def _done(board: Board, number: int) -> set[int]:
    """The rows whose point, from which a link runs, has come."""
    kind = board.links[number].kind
    return board.finished if kind is FS or kind is FF else board.started


def _rule(board: Board, row: int) -> SequenceRule:
    if row in board.finished:
        return SequenceRule.ACTUAL
    return SequenceRule.OVERRIDE if row in board.ahead else SequenceRule.RETAINED
