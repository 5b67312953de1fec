"""The best fit: who pays which cent, so that the least money lapses. Integer cents."""

from budgets.engine.best.answer import Unsound, best_fit
from budgets.engine.best.baseline import Order, first_come
from budgets.engine.best.checker import check
from budgets.engine.best.problem import (
    STEADY,
    BestError,
    Finding,
    Fit,
    LocksBreak,
    Policy,
    Problem,
    SameKey,
    TooManyToKeepWhole,
)

__all__ = [
    "STEADY",
    "BestError",
    "Finding",
    "Fit",
    "LocksBreak",
    "Order",
    "Policy",
    "Problem",
    "SameKey",
    "TooManyToKeepWhole",
    "Unsound",
    "best_fit",
    "check",
    "first_come",
]
