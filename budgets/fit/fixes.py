"""What would let a fund pay an expense after all, and what that is worth: solved anew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.best import BestFit
from budgets.models import PaperKind

ENOUGH_QUOTES = 9
ASKS = {  # what the artist does about a rule that asks for something
    "reason_needed": "write why it was necessary and its price fair",
    "quotes_needed": "attach the quotes",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """`words` say what to do; `mended` is the expense once it is done."""

    words: tuple[str, ...]
    mended: engine.Expense


def fixes_of(found: BestFit, expense: engine.Expense) -> list[Fix]:
    """The different things that funds miss and that can still be brought."""
    known: dict[engine.Expense, Fix] = {}
    for fund in found.problem.sources:
        for refusals in (engine.bars(fund, expense), engine.match_bars(fund, expense)):
            fix = fix_of(expense, refusals)
            if fix:
                known.setdefault(fix.mended, fix)
    return list(known.values())


def fix_of(expense: engine.Expense, refusals: Iterable[engine.Refusal]) -> Fix | None:
    """What answers all of the refusals; None where nothing does, or nothing has to."""
    words, mended = list[str](), expense
    for refusal in refusals:
        if not engine.RULES[refusal.code].mendable:
            return None
        mended = mend(mended, refusal)
        words += asked(refusal)
    return Fix(words=tuple(dict.fromkeys(words)), mended=mended) if words else None


def mend(expense: engine.Expense, refusal: engine.Refusal) -> engine.Expense:
    if isinstance(refusal.actual, frozenset):
        return replace(expense, papers=expense.papers | refusal.actual)
    if refusal.code == "quotes_needed":
        return replace(expense, quotes=ENOUGH_QUOTES)
    return replace(expense, reasoned=True)


def asked(refusal: engine.Refusal) -> list[str]:
    if isinstance(refusal.actual, frozenset):
        names = dict(PaperKind.choices)
        return [f"add the {names.get(kind, kind).lower()}" for kind in sorted(refusal.actual)]
    return [ASKS.get(refusal.code, "bring what it asks for")]


def worth(found: BestFit, fix: Fix) -> int:
    """Cents that the funds would pay more."""
    expenses = tuple(
        fix.mended if item.key == fix.mended.key else item for item in found.problem.expenses
    )
    return max(0, solved(replace(found.problem, expenses=expenses)) - found.fit.used)


def solved(problem: optimum.Problem) -> int:
    try:
        return optimum.best_fit(problem).used
    except optimum.BestError:
        return 0
