"""The best fit: who pays which cent, so that the least money lapses. Integer cents."""

from budgets.engine.best.answer import Unsound, best_fit
from budgets.engine.best.baseline import Order, first_come
from budgets.engine.best.checker import check
from budgets.engine.best.explain import Explainer, Reason, explain
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
from budgets.engine.best.reckon import Reckoner
from budgets.engine.best.worth import (
    Unknown,
    mended,
    most,
    with_award,
    with_day,
    with_papers,
    with_signed,
    with_spending,
    worth,
)

__all__ = [
    "STEADY",
    "BestError",
    "Explainer",
    "Finding",
    "Fit",
    "LocksBreak",
    "Order",
    "Policy",
    "Problem",
    "Reason",
    "Reckoner",
    "SameKey",
    "TooManyToKeepWhole",
    "Unknown",
    "Unsound",
    "best_fit",
    "check",
    "explain",
    "first_come",
    "mended",
    "most",
    "with_award",
    "with_day",
    "with_papers",
    "with_signed",
    "with_spending",
    "worth",
]
