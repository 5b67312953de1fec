"""The cheapest steps that make the date so early: a master problem and the chains' cuts.

A master problem chooses steps for the least cost; `solve` says how early that makes the
date. While it is too late, the chain that drives it gives a cut: the date cannot move unless
some task of this chain changes its length. What the length does depends on how the chain
enters and leaves the task: from start to finish a shorter task helps; where it enters and
leaves by the same point the length does nothing; where it enters by the finish and leaves by
the start a shorter task makes the date later. Each cut holds for all plans, so the first
choice that is early enough is the cheapest.

Fulkerson (1961), Management Science 7:167-178, on project cost curves; the cuts are in the
manner of Benders (1962), Numerische Mathematik 4:238-252.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from ..board import lay
from ..crossing import FF, FS, SF
from ..joins import join
from ..network import LinkKind, Network
from ..passes import forward
from ..reasons import Reasons
from .shortening import Shortened, Shortening, limit, shortened

MOST_CUTS = 2_000
EFFORT = 5.0  # seconds of deterministic time for one choice
SEED = 1


class Literal(NamedTuple):
    """That an activity takes at least `steps` steps, or, when `fewer`, less than that."""

    key: str
    steps: int
    fewer: bool


Cut = tuple[Literal, ...]  # one of them at least must hold


class Driven(NamedTuple):
    """A date, the cut that its chain gives, and the chain."""

    date: int
    cut: Cut
    chain: tuple[str, ...]


class TooMuch(Exception):
    """The search was broken off: too many cuts, or too much effort in one choice."""


@dataclass(slots=True)
class Search:
    """The network, what can be shortened in it, and the cuts found so far."""

    network: Network
    shortenings: Mapping[str, Shortening]
    data_date: int
    unit: int
    most: dict[str, int] = field(default_factory=dict)
    cuts: list[Cut] = field(default_factory=list)
    date: int = 0

    def __post_init__(self) -> None:
        board = lay(self.network, self.data_date)
        for activity, left in zip(board.activities, board.length, strict=True):
            shortening = self.shortenings.get(activity.key)
            if shortening and (most := limit(activity, left, shortening)):
                self.most[activity.key] = most
        self.date = self.driven({}).date

    def cheapest(self, units: int, near: Mapping[str, int]) -> Shortened | None:
        """The least cost that makes the date so many units earlier; None if nothing does."""
        line = self.network.calendars[self.network.project_calendar].line(self.data_date)
        first = line.mark(self.date)
        while len(self.cuts) < MOST_CUTS:
            steps = self.choice(near)
            if steps is None:
                return None
            date, cut, _ = self.driven(steps)
            won = (first - line.mark(date)) // self.unit
            if won >= units:
                cost = sum(self.shortenings[key].cost * n for key, n in steps.items())
                return Shortened(steps=steps, cost=cost, date=date, units=won)
            self.cuts.append(cut)
        raise TooMuch

    def driven(self, steps: Mapping[str, int]) -> Driven:
        """The date, and what must change about the chain that drives it."""
        board = lay(shortened(self.network, self.shortenings, steps), self.data_date)
        join(board)
        if not board.activities:
            return Driven(self.data_date, (), ())
        early = forward(board)
        reasons = Reasons(board, early)
        last = None if self.network.end is None else board.index[self.network.end]
        at = None if last is None else reasons.latest(last)[1]
        if last is None:
            last = max(range(len(early.finish)), key=early.finish.__getitem__)
        rows, links = reasons.chain(last, through_event=at is not None)
        chain = tuple(board.activities[row].key for row in rows)
        kinds = [board.links[number].kind for number in links]
        cut = tuple(self._literals(chain, kinds, steps, to_finish=at is None))
        return Driven(early.finish[last] if at is None else at, cut, chain)

    def _literals(
        self,
        chain: tuple[str, ...],
        kinds: list[LinkKind],
        steps: Mapping[str, int],
        *,
        to_finish: bool,
    ) -> Iterator[Literal]:
        """What would move the chain: by which point it enters and leaves each activity."""
        enters = [False, *(kind in (FF, SF) for kind in kinds)]
        leaves = [*(kind in (FS, FF) for kind in kinds), to_finish]
        for key, by_finish, from_finish in zip(chain, enters, leaves, strict=True):
            taken, most = steps.get(key, 0), self.most.get(key, 0)
            if not by_finish and from_finish and taken < most:
                yield Literal(key, taken + 1, False)
            elif by_finish and not from_finish and taken:
                yield Literal(key, taken, True)

    def choice(self, near: Mapping[str, int]) -> dict[str, int] | None:
        """The cheapest steps that keep every cut; of equal ones the nearest and the fewest."""
        from ortools.sat.python import cp_model

        cp = cp_model.CpModel()
        takes = {
            (key, n): cp.new_bool_var(f"{key} {n}")
            for key, most in self.most.items()
            for n in range(1, most + 1)
        }
        for (key, n), taken in takes.items():
            if n > 1:
                cp.add_implication(taken, takes[key, n - 1])
        for cut in self.cuts:
            cp.add_bool_or([~takes[k, n] if fewer else takes[k, n] for k, n, fewer in cut])
        kept = sum(takes[key, n] for key, n in takes if n <= near.get(key, 0))
        rank = len(takes) + 1
        prices = sum(self.shortenings[key].cost * takes[key, n] for key, n in takes)
        cp.minimize(prices * rank * rank - kept * rank + sum(takes.values()))
        solver = cp_model.CpSolver()
        solver.parameters.random_seed, solver.parameters.num_workers = SEED, 1
        solver.parameters.max_deterministic_time = EFFORT
        status = solver.solve(cp)
        if status not in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
            raise TooMuch
        if status == cp_model.INFEASIBLE:
            return None
        counts = {
            key: sum(solver.value(takes[key, n]) for k, n in takes if k == key) for key in self.most
        }
        return {key: count for key, count in counts.items() if count}

    def stop(self) -> tuple[str, ...]:
        return self.driven(self.most).chain
