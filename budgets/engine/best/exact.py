"""From fractions of cents to whole ones: a search a few cents around the vertex of the LP.

One worker, a fixed seed and limits of deterministic time: the same answer on every machine.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import Any

from budgets.engine.best.lp import Relaxed
from budgets.engine.best.program import Parts, Program

WINDOWS = (3, 8, 40, 400)
EFFORT = 2.0  # deterministic time of one search
PROOF = 0.5  # of the search for one cent more, in programs of so many unknowns
PROVABLE = 600
NEAR = 1e-5
PACKED = 1 << 50  # objectives are searched together as long as they fit a whole number
TINY = 400  # the sum of all ends of a program that is searched as a whole
Window = list[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Whole:
    """Whole cents; `proven` when no other assignment at all is better."""

    values: list[int]
    proven: bool

    def objective(self, parts: Parts) -> int:
        return sum(weight * self.values[unknown] for unknown, weight in parts.items())


def settle(program: Program, relaxed: Relaxed, most: int) -> Whole:
    """The best whole cents near a vertex. `most` is the bound of the first objective."""
    if program.whole or sum(program.upper) <= TINY:
        return search(program, everything(program), program.objectives, hint=None) or zero(program)
    nearest = search(program, fractions_only(program, relaxed), program.objectives, hint=relaxed)
    if nearest is not None and good_enough(program, nearest, relaxed, most):
        return nearest
    return widen(program, relaxed, most, nearest)


def zero(program: Program) -> Whole:
    """Nobody pays anything: what is left when a search finds nothing in its time."""
    return Whole([0] * len(program.upper), False)


def good_enough(program: Program, found: Whole, relaxed: Relaxed, most: int) -> bool:
    """The bound is reached, and the second objective within a cent of its own."""
    reached = [found.objective(parts) for parts in program.objectives[:2]]
    steady = [floor(value + NEAR) - 1 for value in relaxed.objectives[1:2]]
    return all(value >= least for value, least in zip(reached, [most, *steady], strict=True))


def widen(program: Program, relaxed: Relaxed, most: int, nearest: Whole | None) -> Whole:
    """Wider and wider, until the bound is reached; then the later objectives there."""
    best, where = nearest, fractions_only(program, relaxed)
    first = program.objectives[0]
    if nearest is not None and nearest.objective(first) >= most:
        return later(program, relaxed, around(program, relaxed, WINDOWS[0]), nearest)
    for width in WINDOWS:
        if best is not None and (best.proven or best.objective(first) >= most):
            break
        window = around(program, relaxed, width)
        found = search(program, window, [first], hint=relaxed)
        if found is not None and (best is None or found.objective(first) > best.objective(first)):
            best, where = found, window
        elif found is not None and best is not None:
            best = replace(best, proven=found.proven)
    if best is None:
        return search(program, everything(program), program.objectives, hint=None) or zero(program)
    if not best.proven and best.objective(first) < most and len(program.upper) <= PROVABLE:
        best, where = prove(program, best, where)
    unchanged = nearest is not None and best.values == nearest.values
    return best if unchanged else later(program, relaxed, where, best)


def prove(program: Program, best: Whole, window: Window) -> tuple[Whole, Window]:
    """Look anywhere for one cent more: it is found, or there is none, or the time is up."""
    first = program.objectives[0]
    model = Model(program, everything(program), effort=PROOF)
    model.at_least(first, best.objective(first) + 1)
    values, done = model.most(first)
    if values is not None:
        return Whole(values, done), everything(program)
    return replace(best, proven=done), window


def later(program: Program, relaxed: Relaxed, window: Window, best: Whole) -> Whole:
    """The later objectives, with the first as good as it is."""
    reached = best.objective(program.objectives[0])
    found = search(program, window, program.objectives, hint=relaxed, least=reached, start=best)
    return best if found is None else replace(found, proven=found.proven or best.proven)


def everything(program: Program) -> Window:
    return [(0, upper) for upper in program.upper]


def around(program: Program, relaxed: Relaxed, width: int) -> Window:
    return [
        (max(0, floor(value + NEAR) - width), min(upper, ceil(value - NEAR) + width))
        for value, upper in zip(relaxed.values, program.upper, strict=True)
    ]


def fractions_only(program: Program, relaxed: Relaxed) -> Window:
    """What is whole in the vertex stays; the others may move a few cents."""
    wide = around(program, relaxed, WINDOWS[0])
    return [
        (round(value), round(value)) if abs(value - round(value)) < NEAR else window
        for value, window in zip(relaxed.values, wide, strict=True)
    ]


def search(
    program: Program,
    window: Window,
    objectives: Sequence[Parts],
    *,
    hint: Relaxed | None,
    least: int | None = None,
    start: Whole | None = None,
) -> Whole | None:
    """The best whole cents inside a window, objective after objective; None when there is none."""
    model = Model(program, window)
    if not model.possible:
        return None
    if least is not None:
        model.at_least(objectives[0], least)
    values: list[int] | None = None
    proven = True
    for packed in model.pack(objectives):
        model.hint(values or (start.values if start else rounded(hint)))
        found, optimal = model.most(packed)
        if found is None:
            break
        values, proven = found, proven and optimal
        model.at_least(packed, sum(weight * found[key] for key, weight in packed.items()))
    if values is None:
        return None
    return Whole(values, proven and window == everything(program))


def rounded(relaxed: Relaxed | None) -> list[int]:
    return [round(value) for value in relaxed.values] if relaxed else []


class Model:
    """The rows, for what may move; the rest is a constant."""

    def __init__(self, program: Program, window: Window, effort: float = EFFORT) -> None:
        from ortools.sat.python import cp_model

        self.window, self.solver, self.model = window, cp_model.CpSolver(), cp_model.CpModel()
        self.good = (cp_model.OPTIMAL, cp_model.FEASIBLE)
        self.optimal, self.none = cp_model.OPTIMAL, cp_model.INFEASIBLE
        self.moving: dict[int, Any] = {
            key: self.model.new_int_var(0, high - low, "")
            for key, (low, high) in enumerate(window)
            if high > low
        }
        self.possible = all(low <= high for low, high in window)
        for limit in program.limits:
            self._limit(limit.parts, limit.most)
        for choices in program.whole:
            self._whole(choices)
        parameters = self.solver.parameters
        parameters.num_workers, parameters.random_seed = 1, 0
        parameters.max_deterministic_time = effort

    def _whole(self, choices: list[tuple[int, int]]) -> None:
        """At most one of the unknowns, and that as a whole. For a window that is everything."""
        taken = []
        for unknown, size in choices:
            chosen = self.model.new_bool_var("")
            self.model.add(self._split({unknown: 1})[0] == size * chosen)
            taken.append(chosen)
        self.model.add_at_most_one(taken)

    def _split(self, parts: Parts) -> tuple[Any, int, int, int]:
        """A sum as what moves, what stays, and the least and most that moves."""
        keys = [key for key in parts if key in self.moving]
        stays = sum(weight * self.window[key][0] for key, weight in parts.items())
        reach = [parts[key] * (self.window[key][1] - self.window[key][0]) for key in keys]
        moves = sum_of([self.moving[key] for key in keys], [parts[key] for key in keys])
        low = sum(cents for cents in reach if cents < 0)
        return moves, stays, low, sum(cents for cents in reach if cents > 0)

    def _limit(self, parts: Parts, most: int) -> None:
        moves, stays, low, high = self._split(parts)
        if stays + low > most:
            self.possible = False
        elif stays + high > most:
            self.model.add(moves <= most - stays)

    def at_least(self, parts: Parts, least: int) -> None:
        moves, stays, low, _ = self._split(parts)
        if stays + low < least:
            self.model.add(moves >= least - stays)

    def pack(self, objectives: Sequence[Parts]) -> list[Parts]:
        """Several objectives as one, the earlier ones with weights that no later one outweighs."""
        packs: list[tuple[Parts, int]] = []
        for parts in objectives:
            _, _, low, high = self._split(parts)
            span = high - low + 1
            if packs and packs[-1][1] * span < PACKED:
                before, size = packs[-1]
                mixed = {key: weight * span for key, weight in before.items()}
                for key, weight in parts.items():
                    mixed[key] = mixed.get(key, 0) + weight
                packs[-1] = mixed, size * span
            else:
                packs.append((dict(parts), span))
        return [parts for parts, _ in packs]

    def hint(self, values: Sequence[int]) -> None:
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for key, unknown in self.moving.items():
            if key < len(values):
                low, high = self.window[key]
                self.model.add_hint(unknown, min(max(values[key], low), high) - low)

    def most(self, parts: Parts) -> tuple[list[int] | None, bool]:
        """The best values, and whether it is certain that there are none better."""
        if not self.moving:
            return [low for low, _ in self.window], True
        self.model.maximize(self._split(parts)[0])
        status = self.solver.solve(self.model)
        if status not in self.good:
            return None, status == self.none
        values = [low for low, _ in self.window]
        for key, unknown in self.moving.items():
            values[key] += self.solver.value(unknown)
        return values, status == self.optimal


def sum_of(unknowns: Sequence[Any], weights: Sequence[int]) -> Any:
    from ortools.sat.python import cp_model

    return cp_model.LinearExpr.weighted_sum(list(unknowns), list(weights))
