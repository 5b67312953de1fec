"""A better order by constraint programming, from a first one and within a bounded effort.

The model is exact on real calendars: a start is counted in working marks of the row's own
line, and becomes an instant through the spans of that line only where instants are needed (a
link to another line, a lane that several lines share). Its unit is the greatest that divides
all lengths, lags and spans, so nothing is rounded. Where a clock change meets a lag in
elapsed time it may be a little too kind, never too strict; so its bound holds always.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..board import Marks
from ..errors import NoWorkingTime
from .model import Model
from .problem import Problem, date_of
from .serial import in_order

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

FIRST = 0.75  # of the effort goes to the date, the rest to all finishes
SEED = 1


def improve(problem: Problem, first: Marks, effort: float) -> tuple[Marks, int] | None:
    """A schedule from the search, and a date that none can beat; None when it found nothing."""
    try:
        model = Model(problem, first)
    except NoWorkingTime:
        return None
    bound = least = date_of(problem, problem.early)
    starts = None
    if date_of(problem, first) > least:
        solver, done = _solve(model, model.date, effort * FIRST)
        if not done:
            return None
        if not problem.follows:  # these shut out plans that a lead would allow
            bound = max(least, model.date_at(round(solver.best_objective_bound)))
        model.keep_date(round(solver.objective_value))
        starts = model.starts(solver)
        model.hint(solver)
    else:
        model.keep_date(model.first_date)
    solver, done = _solve(model, model.finishes, effort * (1 - FIRST))
    if done:
        starts = model.starts(solver)
    return None if starts is None else (in_order(problem, starts), bound)


def _solve(
    model: Model, objective: cp_model.LinearExprT, effort: float
) -> tuple[cp_model.CpSolver, bool]:
    from ortools.sat.python import cp_model

    model.cp.minimize(objective)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = effort
    solver.parameters.random_seed = SEED
    solver.parameters.num_workers = 1
    status = solver.solve(model.cp)
    return solver, status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
