"""The program with fractions of cents allowed: objectives one after the other, and its prices."""

from dataclasses import dataclass
from typing import Any

from budgets.engine.best.problem import BestError
from budgets.engine.best.program import Limit, Parts, Program

NEAR = 1e-7  # a price or reduced cost below this is none
SOLVER = "GLOP"


class NoAssignment(BestError):
    """Not even the least that is locked keeps the rules."""

    code = "no_assignment"


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The last vertex, the value of every objective, and the prices of the rows for the first."""

    values: list[float]
    objectives: list[float]
    prices: list[float]


class Solver:
    """Rows are scaled to a largest weight of one, so that prices are of one size."""

    def __init__(self, program: Program) -> None:
        from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

        self.program, self.engine = program, pywraplp.Solver.CreateSolver(SOLVER)
        self.unknowns = [self.engine.NumVar(0, upper, "") for upper in program.upper]
        self.scales = [max(map(abs, limit.parts.values()), default=1) for limit in program.limits]
        self.rows = [
            self._row(limit, scale)
            for limit, scale in zip(program.limits, self.scales, strict=True)
        ]

    def _row(self, limit: Limit, scale: int) -> Any:
        row = self.engine.Constraint(-self.engine.infinity(), limit.most / scale)
        for unknown, weight in limit.parts.items():
            row.SetCoefficient(self.unknowns[unknown], weight / scale)
        return row

    def most(self, parts: Parts) -> float:
        """The most that a sum can be."""
        objective = self.engine.Objective()
        objective.Clear()
        for unknown, weight in parts.items():
            objective.SetCoefficient(self.unknowns[unknown], weight)
        objective.SetMaximization()
        if self.engine.Solve() != self.engine.OPTIMAL:
            raise NoAssignment("What is locked leaves no assignment that keeps the rules.")
        return float(objective.Value())

    def prices(self) -> list[float]:
        """Cents of the objective for one more of each row, as written in the program."""
        pairs = zip(self.rows, self.scales, strict=True)
        return [max(0.0, row.dual_value()) / scale for row, scale in pairs]

    def stay(self) -> None:
        """From here on only what is as good: what has a price no longer moves."""
        priced = [unknown for unknown in self.unknowns if abs(unknown.reduced_cost()) > NEAR]
        tight = [row for row in self.rows if abs(row.dual_value()) > NEAR]
        edges = [edge_of(unknown) for unknown in priced]  # all read before anything is changed
        for unknown, edge in zip(priced, edges, strict=True):
            unknown.SetBounds(edge, edge)
        for row in tight:
            row.SetLb(row.ub())

    def values(self) -> list[float]:
        return [unknown.solution_value() for unknown in self.unknowns]


def edge_of(unknown: Any) -> float:
    """The end at which an unknown stands."""
    at_end = unknown.solution_value() > unknown.ub() / 2
    return float(unknown.ub() if at_end else unknown.lb())


def relax(program: Program) -> Relaxed:
    """Solve objective after objective, each among the best of those before."""
    solver = Solver(program)
    found = [solver.most(program.objectives[0])]
    prices = solver.prices()
    for parts in program.objectives[1:]:
        if parts:
            solver.stay()
        found.append(solver.most(parts) if parts else 0.0)
    return Relaxed(solver.values(), found, prices)


def shortest(program: Program) -> list[float]:
    """By how much each row must at least be broken, when they cannot all be kept."""
    solver = Solver(program)
    slacks = []
    for row in solver.rows:
        slack = solver.engine.NumVar(0, solver.engine.infinity(), "")
        row.SetCoefficient(slack, -1)
        slacks.append(slack)
    objective = solver.engine.Objective()
    for slack in slacks:
        objective.SetCoefficient(slack, 1)
    objective.SetMinimization()
    solver.engine.Solve()
    return [
        slack.solution_value() * scale for slack, scale in zip(slacks, solver.scales, strict=True)
    ]
