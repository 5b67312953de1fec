"""What would let a fund pay an expense after all, and what that is worth: solved anew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from budgets import engine
from budgets.engine import best as optimum
from budgets.engine.best.explain import mend
from budgets.fit.best import BestFit
from budgets.models import PaperKind

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
    refusals = tuple(refusals)
    if not refusals or not all(mendable(refusal) for refusal in refusals):
        return None
    words = [word for refusal in refusals for word in asked(refusal)]
    return Fix(words=tuple(dict.fromkeys(words)), mended=mend(expense, refusals))


def mendable(refusal: engine.Refusal) -> bool:
    return refusal.code in engine.RULES and engine.RULES[refusal.code].mendable


def asked(refusal: engine.Refusal) -> list[str]:
    if isinstance(refusal.actual, frozenset):
        names = dict(PaperKind.choices)
        return [f"add the {names.get(kind, kind).lower()}" for kind in sorted(refusal.actual)]
    return [ASKS.get(refusal.code, "bring what it asks for")]


def worth(found: BestFit, fix: Fix) -> int:
    """Cents that the funds would pay more."""
    try:
        return max(0, found.reckoner.worth(fix.mended))
    except optimum.BestError:
        return 0
