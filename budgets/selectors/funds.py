"""Funds in words and figures."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.fit import Books
from budgets.models import Expense, Fund, FundStatus
from budgets.selectors.quotes.advised import quotes_advised
from budgets.selectors.rules import MAIN, RuleRow, rule_rows
from projects.hooks import Level
from projects.words import plural

ROW_RULES = 4
SOON = 45  # days before the last day of a fund's period at which the sheet begins to say so


@dataclass(frozen=True, kw_only=True)
class FundRow:
    fund: Fund
    state: engine.FundState
    rules: tuple[RuleRow, ...]
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
    def limits(self) -> list[engine.CapState]:
        """How far its caps are used; the agreed budget has a table of its own."""
        return [cap for cap in self.state.cap_states if cap.code != "agreed_budget"]

    @property
    def main_rules(self) -> list[RuleRow]:
        """Those that say what it pays for and how much: enough for a row of the sheet."""
        return [rule for rule in self.rules if rule.code in MAIN][:ROW_RULES]

    @property
    def more_rules(self) -> int:
        return len(self.rules) - len(self.main_rules)

    @property
    def open_ended(self) -> bool:
        return self.state.left is None


def fund_rows(books: Books, today: date) -> list[FundRow]:
    return [fund_row(books, fund, today) for fund in books.funds]


def fund_row(books: Books, fund: Fund, today: date) -> FundRow:
    state = books.states[fund.pk]
    days_left = (fund.period_end - today).days if fund.period_end else None
    level, says = standing(fund, state, days_left)
    return FundRow(
        fund=fund,
        state=state,
        rules=tuple(rule_rows(fund, books.symbol)),
        days_left=days_left,
        level=level,
        says=says,
    )


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


def charged_expenses(
    books: Books, fund: Fund
) -> list[tuple[Expense, int, tuple[str, ...], list[str]]]:
    """What a fund pays: the expense, its cents, what it breaks, and the quotes it should have."""
    found, advised = [], quotes_advised(books, books.shares_of, [fund])
    for expense in books.expenses:
        cents = books.shares_of.get(expense.pk, {}).get(fund.pk)
        if cents:
            broken = books.refusals_of.get(expense.pk, [])
            words = tuple(refusal.sentence for owner, refusal in broken if owner.pk == fund.pk)
            found.append((expense, cents, words, advised[expense.pk]))
    return found


@dataclass(frozen=True, kw_only=True)
class AgreedRow:
    label: str
    agreed: int
    charged: int

    @property
    def over(self) -> int:
        return max(0, self.charged - self.agreed)


def agreed_rows(books: Books, fund: Fund) -> list[AgreedRow]:
    """The budget that was agreed beside what is charged; empty when none was."""
    charged = Counter[str]()
    for share in books.share_values:
        if share.fund == str(fund.pk):
            charged[share.expense.category] += share.cents
    agreed = fund.approved or {}
    keys = [key for key in engine.CATEGORIES if key in agreed or charged[key]]
    rows = [
        AgreedRow(label=engine.label(key), agreed=agreed.get(key, 0), charged=charged[key])
        for key in keys
    ]
    return rows if agreed else []
