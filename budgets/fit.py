"""Between the rows and the money engine: six queries, then pure values.

The only module that knows both worlds. Nothing of what it answers is stored.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from budgets import engine
from budgets.engine.money import WHOLE
from budgets.models import Expense, Fund, FundKind, FundRule, Paper, Share
from projects.models import Project
from projects.words import SYMBOLS
from suppliers.models import Order, OrderState

MATCH = "match"  # the rule that is a part of the engine's fund, not one of its rules
OPEN_ENDED = {FundKind.OWN, FundKind.IN_KIND}
COMMITTED = {OrderState.PLACED, OrderState.DELIVERED}


@dataclass(frozen=True)
class Books:
    """All the money of a project: its rows, and the same as the engine's values."""

    project: Project
    funds: tuple[Fund, ...]
    expenses: tuple[Expense, ...]
    shares: tuple[Share, ...]
    papers: tuple[Paper, ...]

    @property
    def symbol(self) -> str:
        return symbol_of(self.project)

    @cached_property
    def fund_values(self) -> dict[int, engine.Fund]:
        return {fund.pk: fund_value(fund) for fund in self.funds}

    @cached_property
    def expense_values(self) -> dict[int, engine.Expense]:
        return {row.pk: expense_value(row, self.papers_of.get(row.pk, [])) for row in self.expenses}

    @cached_property
    def papers_of(self) -> dict[int, list[Paper]]:
        """The papers of each expense that has any."""
        found: dict[int, list[Paper]] = {}
        for paper in self.papers:
            found.setdefault(paper.expense_id, []).append(paper)
        return found

    @cached_property
    def share_values(self) -> list[engine.Share]:
        return [
            engine.Share(
                expense=self.expense_values[row.expense_id], fund=str(row.fund_id), cents=row.cents
            )
            for row in self.shares
        ]

    @cached_property
    def states(self) -> dict[int, engine.FundState]:
        expenses = list(self.expense_values.values())
        return {
            pk: engine.fund_state(value, expenses, self.share_values, symbol=self.symbol)
            for pk, value in self.fund_values.items()
        }

    @cached_property
    def unassigned(self) -> dict[int, int]:
        """Cents of each expense that nobody pays yet."""
        left = engine.unassigned(self.expense_values.values(), self.share_values)
        return {int(key): cents for key, cents in left.items()}

    @cached_property
    def shares_of(self) -> dict[int, dict[int, int]]:
        """Cents by fund, for each expense that has a share."""
        found: dict[int, dict[int, int]] = {}
        for row in self.shares:
            found.setdefault(row.expense_id, {})[row.fund_id] = row.cents
        return found

    @cached_property
    def refusals_of(self) -> dict[int, list[tuple[Fund, engine.Refusal]]]:
        """The rules that saved shares break, by expense."""
        found: dict[int, list[tuple[Fund, engine.Refusal]]] = {}
        for fund in self.funds:
            for refusal in self.states[fund.pk].refusals:
                found.setdefault(int(refusal.expense or 0), []).append((fund, refusal))
        return found

    def shares_elsewhere(self, expense: Expense) -> list[engine.Share]:
        """The shares of all expenses but this one."""
        return [share for share in self.share_values if share.expense.key != str(expense.pk)]


def read(project: Project) -> Books:
    """Six queries, whatever the size of the books; lines and papers are read once, not by row."""
    expenses = Expense.objects.filter(project=project).prefetch_related("line")
    return Books(
        project=project,
        funds=tuple(Fund.objects.filter(project=project).prefetch_related("rules")),
        expenses=tuple(expenses),
        shares=tuple(Share.objects.filter(expense__project=project)),
        papers=tuple(Paper.objects.filter(expense__project=project)),
    )


def symbol_of(project: Project) -> str:
    return SYMBOLS.get(project.currency, project.currency + " ")


def fund_value(fund: Fund) -> engine.Fund:
    rows = list(fund.rules.all())
    open_ended = fund.kind in OPEN_ENDED and not fund.award_cents
    return engine.Fund(
        key=str(fund.pk),
        name=fund.name,
        award=None if open_ended else fund.award_cents,
        status=engine.Status(fund.status),
        period_start=fund.period_start,
        period_end=fund.period_end,
        rules=tuple(rule_value(row) for row in rows if row.code != MATCH),
        gifts=fund.kind == FundKind.IN_KIND,
        match=next((match_value(row) for row in rows if row.code == MATCH), None),
    )


def rule_value(row: FundRule) -> engine.Rule:
    return engine.rule_from(row.code, row.params)


def match_value(row: FundRule) -> engine.Match:
    """A match whose every cent must be cash takes no gifts in kind."""
    cash = row["basis_points"] or 0
    return engine.Match(
        numerator=row["numerator"] or 0,
        denominator=row["denominator"] or 1,
        in_kind=cash < WHOLE,
        cash_basis_points=cash,
    )


def expense_value(row: Expense, papers: Iterable[Paper]) -> engine.Expense:
    return engine.Expense(
        key=str(row.pk),
        amount=row.cents,
        day=row.day,
        category=row.line.category,
        in_kind=row.in_kind,
        papers=frozenset(paper.kind for paper in papers),
    )


def judged(
    books: Books, expense: Expense, wanted: Mapping[int, int]
) -> dict[int, tuple[engine.Refusal, ...]]:
    """Why the wanted shares of an expense may not be, by fund; one that stays as it is, stays.

    Shares are judged in the order of the funds, each beside those before it.
    """
    value = expense_value(expense, books.papers_of.get(expense.pk, []))
    beside = books.shares_elsewhere(expense)
    had = books.shares_of.get(expense.pk, {})
    found = {}
    for fund in books.funds:
        cents = wanted.get(fund.pk, 0)
        if not cents:
            continue
        reasons = engine.judge_share(
            books.fund_values[fund.pk], value, beside, cents, symbol=books.symbol
        )
        if had.get(fund.pk) == cents:
            reasons = tuple(reason for reason in reasons if reason.code == "expense")
        if reasons:
            found[fund.pk] = reasons
        beside.append(engine.Share(expense=value, fund=str(fund.pk), cents=cents))
    return found


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What one fund says to one expense: the most it may pay, or why it may not."""

    fund: Fund
    most: int
    reasons: tuple[engine.Refusal, ...]
    left: int | None


def answers(books: Books, expense: Expense) -> list[Answer]:
    """Every fund's answer to an expense, as if the expense had no shares yet."""
    value = expense_value(expense, books.papers_of.get(expense.pk, []))
    beside = books.shares_elsewhere(expense)
    return [answer(books, fund, value, beside) for fund in books.funds]


def answer(books: Books, fund: Fund, value: engine.Expense, beside: list[engine.Share]) -> Answer:
    rules = books.fund_values[fund.pk]
    most = engine.room(rules, value, beside)
    cents = most or min(1, value.amount)
    reasons = engine.judge_share(rules, value, beside, cents, symbol=books.symbol)
    return Answer(fund=fund, most=most, reasons=reasons, left=books.states[fund.pk].left)


def line_states(
    planned: Mapping[int, int], orders: Iterable[Order], expenses: Iterable[Expense]
) -> dict[int, engine.LineState]:
    """Budget, committed, spent and left of each line, by its key.

    An order is committed once placed, less the expenses that settle it: never counted twice.
    """
    expenses = tuple(expenses)
    spent, paid = Counter[int](), Counter[int]()
    for row in expenses:
        spent[row.line_id] += row.cents
        if row.order_id:
            paid[row.order_id] += row.cents
    committed = Counter[int]()
    for order in orders:
        commitment = getattr(order, "commitment", None)
        if commitment:
            committed[commitment.line_id] += still_to_pay(order, paid[order.pk])
    return {pk: engine.line_state(cents, committed[pk], spent[pk]) for pk, cents in planned.items()}


def still_to_pay(order: Order, paid: int) -> int:
    return max(0, order.cents - paid) if order.state in COMMITTED else 0
