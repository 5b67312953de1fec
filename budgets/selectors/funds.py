"""Funds in words and figures."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.engine.money import WHOLE
from budgets.fit import Books
from budgets.models import Expense, Fund, FundStatus
from projects.hooks import Level
from projects.words import plural

SOON = 45  # days before the last day of a fund's period at which the sheet begins to say so


@dataclass(frozen=True, kw_only=True)
class FundRow:
    fund: Fund
    state: engine.FundState
    rules: tuple[str, ...]
    clauses: tuple[str, ...]
    days_left: int | None  # to the last day of its period; below zero once it is over
    level: Level
    says: str

    @property
    def match_short(self) -> int:
        return max(
            0,
            self.state.match_needed - self.state.match_found,
            self.state.cash_needed - self.state.cash_found,
        )

    @property
    def open_ended(self) -> bool:
        return self.state.left is None


def fund_rows(books: Books, today: date) -> list[FundRow]:
    return [fund_row(books, fund, today) for fund in books.funds]


def fund_row(books: Books, fund: Fund, today: date) -> FundRow:
    state, value = books.states[fund.pk], books.fund_values[fund.pk]
    days_left = (fund.period_end - today).days if fund.period_end else None
    level, says = standing(fund, state, days_left)
    return FundRow(
        fund=fund,
        state=state,
        rules=rules_in_words(value, books.symbol),
        clauses=tuple(row.clause for row in fund.rules.all() if row.clause),
        days_left=days_left,
        level=level,
        says=says,
    )


def rules_in_words(fund: engine.Fund, symbol: str) -> tuple[str, ...]:
    words = [rule.sentence(symbol) for rule in fund.rules]
    if fund.match:
        words.append(match_in_words(fund.match, symbol))
    return tuple(words)


def match_in_words(match: engine.Match, symbol: str) -> str:
    """“For every $1 of the grant, $1 from elsewhere; at least half of it in cash.”"""
    scale = 1 if match.denominator % 100 or match.numerator % 100 else 100
    grant, other = match.denominator // scale, match.numerator // scale
    start = f"For every {symbol}{grant:,} of the grant, {symbol}{other:,} from elsewhere"
    if match.cash_basis_points >= WHOLE:
        return f"{start}, all of it in cash."
    if match.cash_basis_points:
        return f"{start}, at least {engine.percent(match.cash_basis_points)} of it in cash."
    return f"{start}; gifts in kind count."


def standing(fund: Fund, state: engine.FundState, days_left: int | None) -> tuple[Level, str]:
    """How a fund stands, as a colour and a word."""
    if state.refusals:
        return Level.BROKEN, plural(
            len(state.refusals), "share breaks a rule", "shares break a rule"
        )
    if state.left is not None and state.left < 0:
        return Level.BROKEN, "overspent"
    if fund.status != FundStatus.SIGNED:
        return Level.PLAIN, fund.get_status_display()
    if days_left is not None and state.left and days_left <= SOON:
        return Level.NEAR, closing(days_left)
    return Level.HOLDS, "Signed"


def closing(days_left: int) -> str:
    if days_left < 0:
        return f"closed {plural(-days_left, 'day')} ago"
    return "closes today" if days_left == 0 else f"closes in {plural(days_left, 'day')}"


def charged_expenses(books: Books, fund: Fund) -> list[tuple[Expense, int, tuple[str, ...]]]:
    """What a fund pays: the expense, its cents, and the sentences of the rules it breaks."""
    found = []
    for expense in books.expenses:
        cents = books.shares_of.get(expense.pk, {}).get(fund.pk)
        if cents:
            broken = books.refusals_of.get(expense.pk, [])
            words = tuple(refusal.sentence for owner, refusal in broken if owner.pk == fund.pk)
            found.append((expense, cents, words))
    return found
