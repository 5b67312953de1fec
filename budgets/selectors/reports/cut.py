"""The books up to the end of a day, and which cents count as match for a fund."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from budgets import engine
from budgets.fit import Books
from budgets.models import Expense, Fund


def cut(books: Books, through: date) -> Books:
    """The same books without what is dated later; what came back stays off what it came from."""
    kept = tuple(row for row in books.expenses if row.day <= through)
    pks = {row.pk for row in kept}
    return replace(
        books,
        expenses=kept,
        shares=tuple(row for row in books.shares if row.expense_id in pks),
        papers=tuple(row for row in books.papers if row.expense_id in pks),
        counted=tuple(row for row in books.counted if row.expense_id in pks),
        credits=tuple(row for row in books.credits if row.expense_id in pks),
    )


@dataclass(frozen=True, kw_only=True)
class Matched:
    """Cents of an expense that count as match: paid by a fund, by nobody (a gift), or one's own."""

    expense: Expense
    payer: Fund | None
    cents: int

    @property
    def in_kind(self) -> bool:
        return self.expense.in_kind

    @property
    def source(self) -> str:
        if self.payer:
            return self.payer.name
        return self.expense.payee if self.in_kind else "Own money"


@dataclass(frozen=True, kw_only=True)
class MatchBook:
    """The match of a fund. `chosen` when its cents were picked, else all that may count."""

    parts: tuple[Matched, ...]
    chosen: bool
    needed: int
    cash_needed: int
    kind_most: int  # the most of it that gifts in kind may fill

    @property
    def found(self) -> int:
        return sum(part.cents for part in self.parts)

    @property
    def cash(self) -> int:
        return sum(part.cents for part in self.parts if not part.in_kind)

    @property
    def kind(self) -> int:
        return self.found - self.cash

    @property
    def counts(self) -> int:
        return self.cash + min(self.kind, self.kind_most)

    @property
    def short(self) -> int:
        return max(0, self.needed - self.counts, self.cash_needed - self.cash)


def match_book(books: Books, fund: Fund) -> MatchBook:
    """What counts as match: the cents that were chosen for this fund, else every cent that may."""
    state, asked = books.states[fund.pk], engine.match_of(books.fund_values[fund.pk])
    share = asked.kind_basis_points if asked and asked.in_kind else 0
    picked = tuple(picked_parts(books, fund))
    found = picked or tuple(possible_parts(books, fund))
    ordered = sorted(found, key=lambda part: (part.in_kind, part.expense.day, part.expense.pk))
    return MatchBook(
        parts=tuple(ordered),
        chosen=bool(picked),
        needed=state.match_needed,
        cash_needed=state.cash_needed,
        kind_most=engine.share_floor(state.match_needed, share),
    )


def picked_parts(books: Books, fund: Fund) -> Iterator[Matched]:
    rows, funds = books.by_pk, {row.pk: row for row in books.funds}
    for counted in books.counted:
        if counted.fund_id == fund.pk:
            yield Matched(
                expense=rows[counted.expense_id],
                payer=funds.get(counted.payer_id or 0),
                cents=counted.cents,
            )


def possible_parts(books: Books, fund: Fund) -> Iterator[Matched]:
    """Every cent that no rule keeps from counting, by who pays it."""
    award = books.fund_values[fund.pk]
    match = engine.match_of(award)
    if match is None:
        return
    mine = engine.may_pay_match(award, None)
    payers = [row for row in books.funds if row.pk != fund.pk and may_pay(books, fund, row)]
    for row in books.expenses:
        value = books.expense_values[row.pk]
        if (row.in_kind and not match.in_kind) or not engine.may_match(award, value):
            continue
        shares = books.shares_of.get(row.pk, {})
        yield from parts_of(row, value.amount, shares, payers, mine=mine or row.in_kind)


def parts_of(
    row: Expense, amount: int, shares: dict[int, int], payers: Iterable[Fund], *, mine: bool
) -> Iterator[Matched]:
    """What others pay of an expense, and what nobody pays of it."""
    for payer in payers:
        if cents := shares.get(payer.pk, 0):
            yield Matched(expense=row, payer=payer, cents=cents)
    if mine and (free := amount - sum(shares.values())) > 0:
        yield Matched(expense=row, payer=None, cents=free)


def may_pay(books: Books, fund: Fund, payer: Fund) -> bool:
    """Whether money of another fund counts as match for this one."""
    return engine.may_pay_match(books.fund_values[fund.pk], books.fund_values[payer.pk])
