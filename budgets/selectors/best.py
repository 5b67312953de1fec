"""The best fit in words: the sheet that says what would change, and why not more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from budgets.fit.assignment import Paid
from budgets.fit.best import BestFit, Change, FundFit
from budgets.fit.part import Part
from budgets.fit.wish import Wish
from budgets.models import AcceptedFit, Expense, Fund, FundStatus
from budgets.selectors.best_words import (
    beside,
    bound,
    lede,
    match_words,
    nothing_to_change,
    own_words,
    short_words,
    what_is_written,
    why_left,
)
from budgets.selectors.sentence import Matters

Lines = list[tuple[str, int]]
LATELY = 5
SHOWN = 40  # changes that a page shows unasked


@dataclass(frozen=True, kw_only=True)
class FundWords:
    fund: Fund
    fit: FundFit
    why: str
    match: list[str]
    short: str
    if_signed: bool

    @property
    def gain(self) -> int:
        return self.fit.best - self.fit.now


@dataclass(frozen=True, kw_only=True)
class ChangeWords:
    expense: Expense
    amount: int
    before: Lines
    after: Lines
    counted_before: Lines
    counted_after: Lines
    ticked: bool
    needed: bool

    @property
    def paid_as_now(self) -> bool:
        return self.before == self.after

    @property
    def own(self) -> int:
        """What nobody pays then."""
        paid = sum(cents for _, cents in self.after)
        return 0 if self.expense.in_kind else self.amount - paid


@dataclass(frozen=True, kw_only=True)
class PlanWords:
    """What is still to be spent, and who would pay it."""

    day: date
    what: str
    why: str
    cents: int
    paid: Lines
    gift: bool

    @property
    def own(self) -> int:
        return 0 if self.gift else self.cents - sum(cents for _, cents in self.paid)


@dataclass(frozen=True, kw_only=True)
class PartWords:
    sentences: list[str]


@dataclass(frozen=True, kw_only=True)
class Total:
    award: int
    now: int
    best: int
    planned: int
    left: int


@dataclass(frozen=True, kw_only=True)
class BestSheet:
    matters: Matters
    wish: Wish
    basis: str
    funds: list[FundWords]
    total: Total
    changes: list[ChangeWords]
    all_changes: int
    every: bool  # whether every change was asked for
    plans: list[PlanWords]
    own: int
    own_words: str
    what_is_written: str
    nothing_to_change: str
    query: str
    lately: list[AcceptedFit]
    bound: str
    beside: str
    may_accept: bool
    offered: bool  # whether a fund is offered and not signed

    @property
    def smaller(self) -> int:
        """Changes that are not shown."""
        return self.all_changes - len(self.changes)


def best_sheet(found: BestFit, part: Part | None = None, *, every: bool = False) -> BestSheet:
    project = found.books.project
    return BestSheet(
        matters=lede(found),
        wish=found.wish,
        basis=found.basis,
        funds=[fund_words(found, row) for row in found.funds],
        total=total_of(found.funds),
        changes=[change_words(found, row, part) for row in shown(found, every or bool(part))],
        all_changes=len(found.changes),
        every=every,
        plans=plans_of(found),
        own=sum(found.own.values()),
        own_words=own_words(found),
        what_is_written=what_is_written(found),
        nothing_to_change=nothing_to_change(found),
        query=urlencode(found.wish.as_words()),
        lately=list(AcceptedFit.objects.filter(project=project)[:LATELY]),
        bound=bound(found),
        beside=beside(found),
        offered=any(fund.status == FundStatus.OFFERED for fund in found.books.funds),
        may_accept=found.wish.may_be_accepted and bool(getattr(project, "can_change", False)),
    )


def fund_words(found: BestFit, row: FundFit) -> FundWords:
    return FundWords(
        fund=row.fund,
        fit=row,
        why=why_left(found, row),
        match=match_words(found, row),
        short=short_words(found, row),
        if_signed=row.fund.status == FundStatus.OFFERED,
    )


def total_of(rows: tuple[FundFit, ...]) -> Total:
    return Total(
        award=sum(row.fund.award_cents for row in rows),
        now=sum(row.now for row in rows),
        best=sum(row.best for row in rows),
        planned=sum(row.planned for row in rows),
        left=sum(row.left for row in rows),
    )


def shown(found: BestFit, every: bool) -> Sequence[Change]:
    """By day where all are; else the largest expenses first."""
    if every or len(found.changes) <= SHOWN:
        return found.changes
    values = found.books.expense_values
    return sorted(found.changes, key=lambda row: -values[row.expense.pk].amount)[:SHOWN]


def change_words(found: BestFit, change: Change, part: Part | None) -> ChangeWords:
    pk, names = change.expense.pk, names_of(found)
    needed = part is not None and pk in part.needed
    return ChangeWords(
        expense=change.expense,
        amount=found.books.expense_values[pk].amount,
        before=paid_lines(names, change.before),
        after=paid_lines(names, change.after),
        counted_before=counted_lines(names, change.before),
        counted_after=counted_lines(names, change.after),
        ticked=part is None or needed or pk in part.chosen,
        needed=needed,
    )


def names_of(found: BestFit) -> dict[int, str]:
    return {fund.pk: fund.name for fund in found.books.funds}


def paid_lines(names: Mapping[int, str], paid: Paid) -> Lines:
    return [(name, paid.shares[pk]) for pk, name in names.items() if pk in paid.shares]


def counted_lines(names: Mapping[int, str], paid: Paid) -> Lines:
    sums: dict[int, int] = {}
    for (award, _), cents in paid.counted.items():
        sums[award] = sums.get(award, 0) + cents
    return [(name, sums[pk]) for pk, name in names.items() if pk in sums]


def plans_of(found: BestFit) -> list[PlanWords]:
    names, paid = names_of(found), found.planned_of
    return [
        PlanWords(
            day=row.day,
            what=row.order.title if row.order else row.line.name,
            why=row.why,
            cents=row.cents,
            gift=row.in_kind,
            paid=[(name, paid[row.key][pk]) for pk, name in names.items() if paid[row.key].get(pk)],
        )
        for row in found.forecasts
    ]


def part_words(found: BestFit, part: Part) -> PartWords:
    """Which rules a part alone breaks."""
    names = {str(row.pk): str(row) for row in found.books.expenses}
    return PartWords(
        sentences=list(
            dict.fromkeys(
                f"{names[row.expense]}: {row.sentence}" if row.expense in names else row.sentence
                for row in part.findings
            )
        )
    )
