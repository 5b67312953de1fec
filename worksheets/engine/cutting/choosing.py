"""Whole bars from a list of cuts: at least cost, and with the fewest different cuts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from worksheets.engine.cutting.bound import Column
from worksheets.engine.cutting.first import cheapest
from worksheets.engine.cutting.part import exactly
from worksheets.engine.cutting.problem import Cut, Plan, Problem, cost, fold

EVERY_CUT = 3000  # up to so many possible cuts are listed


def cheapest_of(
    given: Problem, columns: Sequence[Column], seconds: float, least: int = 0
) -> tuple[Plan | None, bool]:
    """The cheapest plan of these cuts that is found in the time, and whether it is the cheapest.

    ``least`` is what is known to be the least possible, which helps to end.
    """
    from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

    engine, step = pywraplp.Solver.CreateSolver("SCIP"), given.step
    bars = [engine.IntVar(0, engine.infinity(), "") for _ in columns]
    rows = [engine.Constraint(wanted, engine.infinity()) for wanted in given.demand]
    paid = engine.Constraint(least // step, engine.infinity())
    aim = engine.Objective()
    for (stock, pieces), count in zip(columns, bars, strict=True):
        aim.SetCoefficient(count, given.stocks[stock].price // step)
        paid.SetCoefficient(count, given.stocks[stock].price // step)
        for piece in set(pieces):
            rows[piece].SetCoefficient(count, pieces.count(piece))
    engine.SetTimeLimit(max(1, int(seconds * 1000)))
    status = engine.Solve(no_gap(pywraplp))
    if status not in (engine.OPTIMAL, engine.FEASIBLE):
        return None, False
    times = [round(count.solution_value()) for count in bars]
    chosen = [Cut(s, p, n) for (s, p), n in zip(columns, times, strict=True) if n > 0]
    return exactly(given, chosen), bool(status == engine.OPTIMAL)


def no_gap(pywraplp: Any) -> Any:
    """Left alone, the solver calls a plan the best that is within 0.01 % of it."""
    parameters = pywraplp.MPSolverParameters()
    parameters.SetDoubleParam(parameters.RELATIVE_MIP_GAP, 0.0)
    return parameters


def every_cut(given: Problem, most: int = EVERY_CUT) -> list[Column] | None:
    """Each way to cut a bar, in the cheapest bar that takes it; None if there are too many.

    >>> from worksheets.engine.cutting.problem import problem
    >>> len(every_cut(problem([(17, 1)], [(3, 25), (5, 20), (9, 15)])))
    19
    """
    found: list[Column] = []
    for pieces in multisets(given, 0, max(given.rooms)):
        cut = cheapest(given, pieces, range(len(given.stocks)))
        if cut is not None:
            found.append((cut.stock, pieces))
        if len(found) > most:
            return None
    return found


def multisets(given: Problem, start: int, room: int) -> Iterator[tuple[int, ...]]:
    """Pieces that go into a room together, each multiset once and none empty."""
    weights = given.weights
    for piece in range(start, len(weights)):
        for count in range(1, min(given.demand[piece], room // weights[piece]) + 1):
            yield (piece,) * count
            for more in multisets(given, piece + 1, room - count * weights[piece]):
                yield (piece,) * count + more


def fewest_different(
    given: Problem, plan: Plan, seconds: float, columns: Sequence[Column] | None = None
) -> tuple[Plan, bool]:
    """A plan at the same cost with the fewest different cuts, and whether fewer are impossible.

    The pieces are cut exactly as often as wanted. Proven only where every possible cut can be
    listed and the time is enough; else the best plan found, which may be the one given.
    """
    listed = every_cut(given) if columns is None else list(columns)
    if not listed or seconds <= 0:
        return plan, False
    model = Fewest(given, listed, plan)
    return model.solve(seconds)


class Fewest:
    def __init__(self, given: Problem, columns: Sequence[Column], plan: Plan) -> None:
        from ortools.sat.python import cp_model

        self.cp, self.given, self.columns, self.plan = cp_model, given, columns, plan
        self.model = cp_model.CpModel()
        self.times: list[Any] = []
        self.used: list[Any] = []
        known = {cut.pieces: cut.times for cut in plan}
        for column in columns:
            self.cut(column, known.get(column[1], 0))
        self.rows()
        self.model.minimize(sum(self.used))

    def cut(self, column: Column, hint: int) -> None:
        pieces = column[1]
        most = min(self.given.demand[piece] // pieces.count(piece) for piece in set(pieces))
        times, used = self.model.new_int_var(0, most, ""), self.model.new_bool_var("")
        self.model.add(times <= most * used)
        self.model.add_hint(times, hint)
        self.model.add_hint(used, hint > 0)
        self.times.append(times)
        self.used.append(used)

    def rows(self) -> None:
        """Every piece as often as wanted, at no more than the cost of the plan."""
        pairs = list(zip(self.columns, self.times, strict=True))
        for piece, wanted in enumerate(self.given.demand):
            cut = [p.count(piece) * times for (_, p), times in pairs if piece in p]
            self.model.add(sum(cut) == wanted)
        step = self.given.step
        prices = [self.given.stocks[stock].price // step for stock, _ in self.columns]
        paid = sum(price * times for price, times in zip(prices, self.times, strict=True))
        self.model.add(paid <= cost(self.given, self.plan) // step)

    def solve(self, seconds: float) -> tuple[Plan, bool]:
        solver = self.cp.CpSolver()
        solver.parameters.num_workers, solver.parameters.random_seed = 1, 0
        solver.parameters.max_time_in_seconds = seconds
        status = solver.solve(self.model)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return self.plan, False
        counts = [int(solver.value(times)) for times in self.times]
        pairs = zip(self.columns, counts, strict=True)
        found = fold(Cut(stock, pieces, times) for (stock, pieces), times in pairs if times)
        fewer = found if len(found) < len(self.plan) else self.plan
        return fewer, bool(status == self.cp.OPTIMAL)
