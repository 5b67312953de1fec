"""Own money by what could be recovered, and why each fund does not pay an expense."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice

from django.urls import reverse

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.best import BestFit
from budgets.fit.fixes import Fix, fix_of, fixes_of, worth
from budgets.fit.tight import in_the_way
from budgets.models import Expense, Fund
from budgets.selectors.best_words import Sayer
from projects.words import day_year, listed

RECKONED = 24  # expenses that are solved anew; the others are smaller
NOTHING: tuple[int, None] = (0, None)


@dataclass(frozen=True, kw_only=True)
class OwnWords:
    """An expense: how much own money pays of it, what of that could be recovered, and how."""

    expense: Expense
    cents: int
    worth: int
    says: str


def own_by_worth(found: BestFit) -> list[OwnWords]:
    """What own money pays, and what a missing paper keeps from a fund: the most worth first."""
    reckoned = to_reckon(found)
    rows = [row for row in found.books.expenses if row.pk in reckoned or found.own.get(row.pk)]
    words = [own_words(found, row, *reckoned.get(row.pk, NOTHING)) for row in rows]
    return sorted(words, key=lambda row: (-row.worth, -row.cents, row.expense.pk))


def to_reckon(found: BestFit) -> dict[int, tuple[int, Fix]]:
    """The best of what would mend each expense, and its worth, where it has any.

    Past the largest, nothing is reckoned.
    """
    values = found.books.expense_values
    largest = sorted(found.books.expenses, key=lambda row: (-row.cents, row.pk))
    missing = ((row.pk, fixes) for row in largest if (fixes := fixes_of(found, values[row.pk])))
    many = islice(missing, RECKONED) if found.reckoner.most != 0 else ()
    best = {pk: max(((worth(found, fix), fix) for fix in fixes), key=first) for pk, fixes in many}
    return {pk: pair for pk, pair in best.items() if pair[0]}


def own_words(found: BestFit, row: Expense, most: int, fix: Fix | None) -> OwnWords:
    says = done(fix) if fix else why_own(found, found.books.expense_values[row.pk])
    return OwnWords(expense=row, cents=found.own.get(row.pk, 0), worth=most, says=says)


def first(pair: tuple[int, Fix]) -> int:
    return pair[0]


def done(fix: Fix) -> str:
    """“Add the proof of payment.”"""
    text = listed(list(fix.words))
    return f"{text[:1].upper()}{text[1:]}."


def why_own(found: BestFit, value: engine.Expense) -> str:
    """The nearest any fund comes to paying it."""
    open_to = [fund for fund in found.problem.sources if not engine.bars(fund, value)]
    if not open_to:
        return "No fund may pay it."
    used = [fund.name for fund in open_to if not room_of(found, fund)]
    if len(used) == len(open_to):
        return f"{listed(used)} may pay it, and {'is' if len(used) == 1 else 'are'} used up."
    return "A fund may pay it, and then pays less of something else: nothing is gained."


def room_of(found: BestFit, fund: engine.Fund) -> int:
    return next((row.left for row in found.funds if str(row.fund.pk) == fund.key), 0)


@dataclass(frozen=True, kw_only=True)
class WhyRow:
    """One fund's answer to one expense at the best fit."""

    fund: Fund
    pays: int
    reasons: list[tuple[str, str]]  # sentence, rule
    says: str
    todo: str
    url: str
    worth: int
    fund_days: str


def why_not(found: BestFit, row: Expense) -> list[WhyRow]:
    value = found.books.expense_values[row.pk]
    funds = {fund.key: fund for fund in found.problem.sources}
    return [
        why_row(found, row, fund, funds[str(fund.pk)], value)
        for fund in found.books.funds
        if str(fund.pk) in funds
    ]


def why_row(
    found: BestFit, row: Expense, fund: Fund, source: engine.Fund, value: engine.Expense
) -> WhyRow:
    refusals = engine.bars(source, value)
    pays = found.after[row.pk].shares.get(fund.pk, 0)
    fix = fix_of(value, refusals)
    return WhyRow(
        fund=fund,
        pays=pays,
        reasons=[(refusal.sentence, refusal.rule) for refusal in refusals],
        says="" if refusals else says(found, source, value, pays),
        todo=done(fix) if fix else "",
        url=where(row, fix) if fix else "",
        worth=worth(found, fix) if fix else 0,
        fund_days=days_of(fund),
    )


def says(found: BestFit, source: engine.Fund, value: engine.Expense, pays: int) -> str:
    """Why a fund that may pay it does not, or not more."""
    say, left = Sayer(found), found.fit.own.get(value.key, 0)
    if pays:
        tail = f" {say(left)} stays on your own money." if left else ""
        return f"At best it pays {say(pays)} of it.{tail}"
    if not left:
        return "It may; at best another fund pays it, and this one keeps its money for other costs."
    if not room_of(found, source):
        return "It may, and its award is used up by other costs. More of it here is less there."
    blocks = in_the_way(optimum.Explainer(found.problem, found.fit), source, value)
    if blocks:
        return " ".join(f"{row.sentence} {row.todo}".strip() for row in blocks)
    return "It may, and would then pay less of something else: nothing is gained."


def where(row: Expense, fix: Fix) -> str:
    """The place where what it asks for is brought."""
    if fix.mended.reasoned and not row.need.strip():
        return reverse("budgets:expense-edit", args=[row.project_id, row.pk])
    return reverse("budgets:expense", args=[row.project_id, row.pk]) + "#papers"


def days_of(fund: Fund) -> str:
    if fund.period_end is None:
        return ""
    return f"until {day_year(fund.period_end)}"
