"""A claim as it would be made today: what it takes, what it leaves, its match and its sums."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from budgets import engine
from budgets.engine.claims import Amounts, Sorted, Why, amounts, sort_out
from budgets.models import ClaimKind, ClaimShare, Credit, Expense
from budgets.selectors.claims.ledger import Ledger
from projects.words import day_year

WORDS = {
    Why.NOT_PAID: "It is not paid yet. Log when it was paid, with its proof.",
    Why.LATER: "It was paid after this claim's last day. The next claim takes it.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What a refund takes back of an earlier claim, in cents below zero."""

    expense: Expense
    credit: Credit
    cents: int

    @property
    def reason(self) -> str:
        return f"Came back on {day_year(self.credit.day)}: {self.credit.what}"[:240]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """Cents counted as match; below zero where an earlier claim told more than still counts."""

    expense_id: int
    payer_id: int | None
    cents: int

    @property
    def reason(self) -> str:
        return "Money came back, so that less of it counts." if self.cents < 0 else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """Cents that are charged to the fund and not in the claim, and what would free them."""

    expense: Expense
    cents: int
    says: str


@dataclass(frozen=True, kw_only=True)
class Made:
    """A claim up to a day, as the books stand."""

    ledger: Ledger
    through: date
    final: bool = False
    kind: str = ClaimKind.CLAIM

    @cached_property
    def sorted(self) -> Sorted:
        return sort_out(self.ledger.charged, self.through)

    @cached_property
    def left_out(self) -> list[LeftOut]:
        """The dearest first."""
        rows = self.ledger.books.by_pk
        found = []
        for row, why in self.sorted.left:
            says = WORDS.get(why) or " ".join(self.ledger.sentences(int(row.key)))
            found.append(LeftOut(expense=rows[int(row.key)], cents=row.cents, says=says))
        return sorted(found, key=lambda row: -row.cents)

    @cached_property
    def corrections(self) -> tuple[Correction, ...]:
        return tuple(corrections(self.ledger, self.through))

    @cached_property
    def match(self) -> tuple[Reported, ...]:
        """What counts as match and was spent by the day, less what was reported before."""
        return tuple(match_to_report(self.ledger, self.through))

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
        """Overhead at the fund's rate on all that is claimed by now, less what was claimed.

        Below zero where what comes back had carried some.
        """
        rate = engine.indirect_of(self.ledger.value)
        if rate is None:
            return 0
        before = self.ledger.books.locks.indirect.get(self.ledger.fund.pk, 0)
        return rate.most(self.shares_in_all(), self.ledger.value.award) - before

    def shares_in_all(self) -> list[engine.Share]:
        """Everything that is claimed from the fund once this claim is filed."""
        values, key = self.ledger.books.expense_values, str(self.ledger.fund.pk)
        held = self.ledger.books.locks.shares.items()
        cents = {pk: held for (pk, fund), held in held if fund == self.ledger.fund.pk}
        changes = [(int(row.key), row.cents) for row in self.sorted.taken]
        changes += [(row.expense.pk, row.cents) for row in self.corrections]
        changes += [(row.expense_id, row.cents) for row in self.by_hand]
        for pk, change in changes:
            cents[pk] = cents.get(pk, 0) + change
        return [
            engine.Share(expense=values[pk], fund=key, cents=c) for pk, c in cents.items() if c > 0
        ]

    @cached_property
    def amounts(self) -> Amounts:
        ledger = self.ledger
        if self.kind == ClaimKind.REPORT:
            ahead = max(0, self.direct + self.indirect)
            return amounts(self.direct, indirect=self.indirect, ahead=ahead)
        return amounts(
            self.direct,
            indirect=self.indirect,
            ahead=ledger.paid_ahead,
            held_basis_points=0 if ledger.is_closed else ledger.payment.held_basis_points,
            held_before=ledger.held,
            final=self.final,
        )

    @property
    def is_empty(self) -> bool:
        rows = (self.sorted.taken, self.corrections, self.by_hand)
        return not any(rows) and not self.amounts.released

    @property
    def too_small(self) -> bool:
        """Below the smallest claim that the fund takes."""
        return 0 < self.amounts.asked < self.ledger.payment.smallest_cents


def corrections(ledger: Ledger, through: date) -> Iterator[Correction]:
    """What this fund was asked for and no longer pays since money came back, told once.

    A refund lowers the shares as soon as it is logged; what was filed above them is taken back.
    """
    told = {row.credit_id for claim in ledger.filed for row in claim.shares.all()}
    over = filed_above(ledger)
    rows = ledger.books.by_pk
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


def match_to_report(ledger: Ledger, through: date) -> Iterator[Reported]:
    """A gift counts from its day, a cost once it is paid."""
    books, fund = ledger.books, ledger.fund.pk
    rows = books.by_pk
    counts = {
        (row.expense_id, row.payer_id): row.cents for row in books.counted if row.fund_id == fund
    }
    told = {(pk, payer): c for (pk, of, payer), c in books.locks.match.items() if of == fund}
    for pk, payer in dict.fromkeys([*counts, *told]):
        change = counts.get((pk, payer), 0) - told.get((pk, payer), 0)
        day = rows[pk].day if rows[pk].in_kind else rows[pk].paid_on
        if change < 0 or (change > 0 and day and day <= through):
            yield Reported(expense_id=pk, payer_id=payer, cents=change)
