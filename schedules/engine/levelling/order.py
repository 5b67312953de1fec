"""Turn a schedule into order links: who does what first.

Each lane hands its units on, from the task that lets go of them to the task that takes them
next (a flow through the lane); a link goes wherever hands are handed on. What follows from
other links is left out, and so is what would part two tasks that never meet.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..board import Board, Marks
from ..network import Link, LinkKind, Network
from ..solve import solve
from .points import points, reaches_point
from .problem import CannotPart, Problem
from .serial import unmoved

Pair = tuple[int, int]
PREFIX = "order "


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLink:
    """`after` starts when `before` is finished, for they share hands.

    A link of that kind that already lets `after` start earlier cannot be doubled: then `kind`
    is another, and `lag` the working minutes of `before` that make it say the same.

    >>> OrderLink(before="paint", after="wire").kind.value
    'FS'
    """

    before: str
    after: str
    kind: LinkKind = LinkKind.FS
    lag: int = 0

    @property
    def link(self) -> Link:
        """As a link of the network; its key begins with "order"."""
        key = f"{PREFIX}{self.before} {self.after}"
        return Link(key=key, before=self.before, after=self.after, kind=self.kind, lag=self.lag)


@dataclass(slots=True)
class Unit:
    """One pair of hands of a lane: who has it, and until when."""

    holders: list[int]
    until: int


def order_links(
    network: Network, problem: Problem, early: Marks, *, data_date: int, every: bool = False
) -> tuple[OrderLink, ...]:
    """The least links that keep the order of a schedule; `every` leaves none out."""
    pairs = sorted(set(handed_on(problem, early)), key=lambda p: (early.start[p[1]], p))
    if not every:
        pairs = reduced(problem.board, pairs)
    found = [_link(problem, early, pair) for pair in pairs]
    if every:
        return tuple(found)
    return _meeting(network, found, data_date)


def with_order(network: Network, order: tuple[OrderLink, ...] | list[OrderLink]) -> Network:
    return replace(network, links=(*network.links, *(each.link for each in order)))


def handed_on(problem: Problem, early: Marks) -> Iterator[Pair]:
    """From whom to whom each unit of each lane goes, in the order of starts."""
    fixed = unmoved(problem, early, problem.fixed)
    for lane, capacity in enumerate(problem.capacity):
        takers = [
            (early.start[row], early.finish[row], row, need)
            for row, needs in enumerate(problem.needs)
            for number, need in needs
            if number == lane
        ]
        units = _fixed_units(problem, [t for t in takers if t[2] in fixed], capacity)
        for start, finish, row, need in sorted(takers):
            if row in problem.board.started and row in fixed:
                continue
            for unit in _chosen(units, start, need, forced=row in fixed):
                yield from ((holder, row) for holder in unit.holders)
                unit.holders, unit.until = [row], finish


def _fixed_units(
    problem: Problem, takers: list[tuple[int, int, int, int]], capacity: int
) -> list[Unit]:
    """Hands that work in progress holds already; where it holds too many, some hold two tasks."""
    units = [Unit([], problem.board.data_date) for _ in range(capacity)]
    begun = [t for t in takers if t[2] in problem.board.started]
    for _, finish, row, need in sorted(begun, key=lambda t: -t[1]):
        for _ in range(min(need, capacity)):
            unit = min(units, key=lambda u: (len(u.holders), u.until))
            unit.holders.append(row)
            unit.until = max(unit.until, finish)
    return units


def _chosen(units: list[Unit], start: int, need: int, *, forced: bool) -> list[Unit]:
    """Free units, those first that were let go of last, so that others stay free."""
    free = [unit for unit in units if unit.until <= start]
    free.sort(key=lambda unit: (-unit.until, unit.holders))
    if len(free) < need and not forced:
        raise CannotPart(())
    return free[:need]


def reduced(board: Board, pairs: list[Pair]) -> list[Pair]:
    """Without what follows from the other links, in any way that keeps finish before start."""
    out = points(board)
    for before, after in pairs:
        out.setdefault((before, True), []).append((after, False))
    kept = []
    for before, after in pairs:
        out[before, True].remove((after, False))
        if not reaches_point(out, (before, True), (after, False)):
            out[before, True].append((after, False))
            kept.append((before, after))
    return kept


def _link(problem: Problem, early: Marks, pair: Pair) -> OrderLink:
    board, (row, after) = problem.board, pair
    before_key, after_key = board.activities[row].key, board.activities[after].key
    taken = {k.kind for k in board.links if (k.before, k.after) == (before_key, after_key)}
    own, actual = board.own[row], board.activities[row].actual_start
    first = own.mark(early.start[row] if actual is None else actual)
    last, then = own.mark(early.finish[row]), own.mark(early.finish[after])
    lags = {
        LinkKind.FS: 0,
        LinkKind.SS: last - first,
        LinkKind.FF: then - last,
        LinkKind.SF: then - first,
    }
    for kind, lag in lags.items():
        if kind not in taken:
            return OrderLink(before=before_key, after=after_key, kind=kind, lag=lag)
    raise CannotPart((before_key, after_key))


def _meeting(network: Network, found: list[OrderLink], data_date: int) -> tuple[OrderLink, ...]:
    """Without links between tasks that stay apart however late the first becomes in its room."""
    plan = solve(with_order(network, found), data_date=data_date)
    binding = {driver.key for dates in plan.dates.values() for driver in dates.drivers}
    kept = [each for each in found if each.link.key in binding]
    loose = [each for each in found if each.link.key not in binding]
    if not loose:
        return tuple(found)
    plan = solve(with_order(network, kept), data_date=data_date)
    meet = [
        each
        for each in loose
        if plan.dates[each.before].late_finish > plan.dates[each.after].early_start
    ]
    return tuple(each for each in found if each in kept or each in meet)
