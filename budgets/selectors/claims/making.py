"""A claim as it would be made today: what it takes, what it leaves, its match and its sums."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from budgets import engine
from budgets.engine.claims import Amounts, Charged, Sorted, Why, amounts, sort_out
from budgets.engine.paying import Payment, payment_of
from budgets.fit import Books
from budgets.models import (
    LOCKING,
    Claim,
    ClaimKind,
    ClaimShare,
    Counted,
    Credit,
    Expense,
    Fund,
    Income,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What a refund takes back of an earlier claim, in cents below zero."""

    expense: Expense
    credit: Credit
    cents: int

    @property
    def reason(self) -> str:
        return f"Came back on {self.credit.day.isoformat()}: {self.credit.what}"[:240]


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """One fund with its claims and its income, newest claim last."""

    books: Books
    fund: Fund
    claims: tuple[Claim, ...]
    income: tuple[Income, ...]

    @property
    def filed(self) -> list[Claim]:
        return [row for row in self.claims if row.state in LOCKING]

    @property
    def draft(self) -> Claim | None:
        return next((row for row in self.claims if row.state == "draft"), None)

    @cached_property
    def payment(self) -> Payment:
        return payment_of(self.books.fund_values[self.fund.pk])

    @property
    def received(self) -> int:
        return sum(row.cents for row in self.income)

    @property
    def paid_ahead(self) -> int:
        """Money that came without a claim or a milestone, and is not accounted for yet."""
        came = sum(row.cents for row in self.income if not row.claim_id and not row.milestone_id)
        return max(0, came - sum(claim.netted_cents for claim in self.filed))

    @property
    def held(self) -> int:
        """Held back of the claims that were filed and not released."""
        return sum(c.held_back_cents for c in self.filed) - sum(
            c.released_cents for c in self.filed
        )

    @property
    def number(self) -> int:
        return max((row.number for row in self.claims), default=0) + 1

    @property
    def through(self) -> date | None:
        """The last day of the last claim that was filed."""
        return max((row.to_day for row in self.filed), default=None)

    @cached_property
    def charged(self) -> tuple[Charged, ...]:
        """Cents that are charged to the fund and in no filed claim."""
        rows = {row.pk: row for row in self.books.expenses}
        found = []
        for share in self.books.shares:
            row = rows[share.expense_id]
            left = share.cents - self.books.locked.get((row.pk, self.fund.pk), 0)
            if share.fund_id == self.fund.pk and left > 0 and not row.in_kind:
                barred = bool(self.sentences(row.pk))
                key = str(row.pk)
                found.append(Charged(key=key, cents=left, paid=row.paid_on, barred=barred))
        return tuple(found)

    def sentences(self, expense: int) -> list[str]:
        """The rules of this fund that a share of the expense breaks."""
        pairs = self.books.refusals_of.get(expense, [])
        return [refusal.sentence for fund, refusal in pairs if fund.pk == self.fund.pk]

    def made(self, through: date, *, final: bool = False, kind: str = ClaimKind.CLAIM) -> Made:
        return Made(ledger=self, through=through, final=final, kind=kind)


@dataclass(frozen=True, kw_only=True)
class Made:
    """A claim up to a day, as the books stand."""

    ledger: Ledger
    through: date
    final: bool
    kind: str

    @cached_property
    def sorted(self) -> Sorted:
        return sort_out(self.ledger.charged, self.through)

    @cached_property
    def corrections(self) -> tuple[Correction, ...]:
        return tuple(corrections(self.ledger, self.through))

    @cached_property
    def match(self) -> tuple[tuple[Counted, int], ...]:
        """Cents counted as match and reported in no claim yet, of what was spent by the day."""
        days = {row.pk: row.day for row in self.ledger.books.expenses}
        found = []
        for row in self.ledger.books.counted:
            key = (row.expense_id, row.fund_id, row.payer_id)
            left = row.cents - self.ledger.books.locked_match.get(key, 0)
            mine = row.fund_id == self.ledger.fund.pk and left > 0
            if mine and days[row.expense_id] <= self.through:
                found.append((row, left))
        return tuple(found)

    @property
    def by_hand(self) -> list[ClaimShare]:
        """Corrections that somebody put into the claim that is being prepared."""
        draft = self.ledger.draft
        rows = draft.shares.all() if draft else ()
        return [row for row in rows if row.corrects_id and not row.credit_id]

    @property
    def direct(self) -> int:
        back = sum(row.cents for row in self.corrections)
        return self.sorted.cents + back + sum(row.cents for row in self.by_hand)

    @cached_property
    def indirect(self) -> int:
        """Overhead at the fund's rate on all that was claimed and is now, less what was claimed."""
        value = self.ledger.books.fund_values[self.ledger.fund.pk]
        rate = engine.indirect_of(value)
        if rate is None:
            return 0
        before = self.ledger.books.locks.indirect.get(self.ledger.fund.pk, 0)
        return max(0, rate.most(self.shares_in_all(), value.award) - before)

    def shares_in_all(self) -> list[engine.Share]:
        values, key = self.ledger.books.expense_values, str(self.ledger.fund.pk)
        cents = {
            pk: held for (pk, fund), held in self.ledger.books.locked.items()
            if fund == self.ledger.fund.pk
        }  # fmt: skip
        for row in self.sorted.taken:
            cents[int(row.key)] = cents.get(int(row.key), 0) + row.cents
        return [
            engine.Share(expense=values[pk], fund=key, cents=c) for pk, c in cents.items() if c > 0
        ]

    @cached_property
    def amounts(self) -> Amounts:
        ledger = self.ledger
        if self.kind == ClaimKind.REPORT:
            return amounts(self.direct, indirect=self.indirect, ahead=self.direct + self.indirect)
        return amounts(
            self.direct,
            indirect=self.indirect,
            ahead=ledger.paid_ahead,
            held_basis_points=ledger.payment.held_basis_points,
            held_before=ledger.held,
            final=self.final,
        )

    @property
    def is_empty(self) -> bool:
        rows = (self.sorted.taken, self.corrections, self.by_hand)
        return not any(rows) and not self.amounts.released

    def worth(self, why: Why) -> int:
        return sum(row.cents for row, reason in self.sorted.left if reason is why)


def corrections(ledger: Ledger, through: date) -> Iterator[Correction]:
    """What this fund was asked for and no longer pays since money came back, told once.

    A refund lowers the shares as soon as it is logged; what was filed above them is taken back.
    """
    told = set(
        ClaimShare.objects.filter(claim__fund=ledger.fund, claim__state__in=LOCKING)
        .exclude(credit=None)
        .values_list("credit_id", flat=True)
    )
    over = filed_above(ledger)
    rows = {row.pk: row for row in ledger.books.expenses}
    for credit in ledger.books.credits:
        part = min(credit.cents, over.get(credit.expense_id, 0))
        if credit.pk in told or credit.day > through or part <= 0:
            continue
        over[credit.expense_id] -= part
        yield Correction(expense=rows[credit.expense_id], credit=credit, cents=-part)


def filed_above(ledger: Ledger) -> dict[int, int]:
    """Cents by expense that filed claims hold beyond what the fund pays today."""
    books, fund = ledger.books, ledger.fund.pk
    filed = {pk: cents for (pk, of), cents in books.locks.shares.items() if of == fund}
    return {pk: c - books.shares_of.get(pk, {}).get(fund, 0) for pk, c in filed.items()}
