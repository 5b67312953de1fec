"""The best fit of a problem, solved once: the last answers are kept in the process.

A problem holds all that its fit hangs on, so that equal problems have equal fits; nothing that
is kept can be out of date.
"""

from __future__ import annotations

import pickle
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import fields
from operator import attrgetter
from threading import Lock

from budgets import engine
from budgets.engine import best as optimum

KEPT = 24  # answers, about a megabyte each at 600 expenses
FACTS = attrgetter(*(field.name for field in fields(engine.Expense)))

_answers: OrderedDict[Hashable, optimum.Fit] = OrderedDict()
_lock = Lock()


def best_fit(problem: optimum.Problem) -> optimum.Fit:
    """Raises `optimum.BestError`; no error is kept."""
    return kept(problem, "best", lambda: optimum.best_fit(problem))


def first_come(problem: optimum.Problem) -> optimum.Fit:
    """First come, first served."""
    return kept(problem, "first", lambda: optimum.first_come(problem))


def kept(problem: optimum.Problem, way: str, solve: Callable[[], optimum.Fit]) -> optimum.Fit:
    key = (way, key_of(problem))
    with _lock:
        if key in _answers:
            _answers.move_to_end(key)
            return _answers[key]
    found = solve()
    with _lock:
        _answers[key] = found
        while len(_answers) > KEPT:
            _answers.popitem(last=False)
    return found


def key_of(problem: optimum.Problem) -> Hashable:
    """Of every value in it; what a problem has worked out of them is left aside."""
    many = ("expenses", "locked", "locked_match")
    few = [getattr(problem, f.name) for f in fields(problem) if f.name not in many]
    return (
        tuple(FACTS(row) for row in problem.expenses),
        tuple((row.fund, row.cents, FACTS(row.expense)) for row in problem.locked),
        tuple((row.fund, row.payer, row.cents, FACTS(row.expense)) for row in problem.locked_match),
        pickle.dumps(few),
    )


def forget() -> None:
    with _lock:
        _answers.clear()
