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
EFFORT = 2.0  # deterministic time of a search that is all there is
NEARBY = 0.25  # of a search around the vertex
PROOF = 0.5  # of the search for one cent more, in programs of so many unknowns
PROVABLE = 600
NEAR = 1e-5
PACKED = 1 << 50  # objectives are searched together as long as they fit a whole number
TINY = 400  # the sum of all ends of a program that is searched as a whole
Window = list[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Whole:
    """Whole cents; `proven`: no others at all are better; `settled`: none in the window."""

    values: list[int]
    proven: bool
    settled: bool = False

    def objective(self, parts: Parts) -> int:
        return sum(weight * self.values[unknown] for unknown, weight in parts.items())


def settle(program: Program, relaxed: Relaxed, most: int) -> Whole:
    """The best whole cents near a vertex. `most` is the bound of the first objective."""
    if program.whole or sum(program.upper) <= TINY:
        return search(program, everything(program), program.objectives) or zero(program)
    fractions = fractions_only(program, relaxed)
    nearest = search(program, fractions, program.objectives, start=rounded(relaxed))
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
    first, best = program.objectives[0], nearest
    if nearest is not None and nearest.objective(first) >= most:
        return later(program, around(program, relaxed, WINDOWS[0]), nearest)
    for width in WINDOWS:
        if best is not None and (best.proven or best.objective(first) >= most):
            break
        window = around(program, relaxed, width)
        found = search(program, window, [first], start=rounded(relaxed), effort=NEARBY)
        if found is not None and (best is None or found.objective(first) > best.objective(first)):
            best = found
        elif found is not None and best is not None:
            best = replace(best, proven=found.proven)
        if found is not None and not found.settled:
            break  # a wider one is harder still
    if best is None:
        return search(program, everything(program), program.objectives) or zero(program)
    if not best.proven and best.objective(first) < most and len(program.upper) <= PROVABLE:
        best = prove(program, best)
    unchanged = nearest is not None and best.values == nearest.values
    return best if unchanged else calmed(program, relaxed, best)


def prove(program: Program, best: Whole) -> Whole:
    """Look anywhere for one cent more: it is found, or there is none, or the time is up."""
    first = program.objectives[0]
    model = Model(program, everything(program), effort=PROOF)
    model.at_least(first, best.objective(first) + 1)
    values, done = model.most(first)
    return replace(best, proven=done) if values is None else Whole(values, done)


def calmed(program: Program, relaxed: Relaxed, best: Whole) -> Whole:
    """As near the vertex as the first objective allows; then the later ones where it moved."""
    base, free = rounded(relaxed), fractions_only(program, relaxed)
    window, back = list(free), Parts()
    for key, (was, now) in enumerate(zip(base, best.values, strict=True)):
        if free[key][0] == free[key][1] and was != now:
            window[key], back[key] = (min(was, now), max(was, now)), -1 if now > was else 1
        elif was != now:
            window[key] = min(free[key][0], now), max(free[key][1], now)
    near = later(program, window, best, [back])
    moved = zip(base, near.values, around(program, near, WINDOWS[0]), free, strict=True)
    wide = [
        around_it if was != now or low < high else (now, now)
        for was, now, around_it, (low, high) in moved
    ]
    return later(program, wide, near)


def later(
    program: Program, window: Window, best: Whole, objectives: Sequence[Parts] | None = None
) -> Whole:
    """The later objectives, with the first as good as it is."""
    found = search(
        program,
        window,
        objectives or program.objectives[1:],
        least=(program.objectives[0], best.objective(program.objectives[0])),
        start=best.values,
        effort=NEARBY,
    )
    return best if found is None else replace(found, proven=best.proven)


def everything(program: Program) -> Window:
    return [(0, upper) for upper in program.upper]


def around(program: Program, found: Relaxed | Whole, width: int) -> Window:
    return [
        (max(0, floor(value + NEAR) - width), min(upper, ceil(value - NEAR) + width))
        for value, upper in zip(found.values, program.upper, strict=True)
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
    least: tuple[Parts, int] | None = None,
    start: Sequence[int] = (),
    effort: float = EFFORT,
) -> Whole | None:
    """The best whole cents inside a window, objective after objective; None when there is none."""
    model = Model(program, window, effort)
    if not model.possible:
        return None
    if least is not None:
        model.at_least(*least)
    values: list[int] | None = None
    proven = True
    for packed in model.pack(objectives):
        model.hint(values or start)
        found, optimal = model.most(packed)
        if found is None:
            break
        values, proven = found, proven and optimal
        model.at_least(packed, sum(weight * found[key] for key, weight in packed.items()))
    if values is None:
        return None
    return Whole(values, proven and window == everything(program), proven)


def rounded(relaxed: Relaxed) -> list[int]:
    return [round(value) for value in relaxed.values]


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
