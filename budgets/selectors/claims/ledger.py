"""One fund with its claims and its income: what was asked, came, is held back or paid ahead."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.db.models import Prefetch

from budgets import engine, fit
from budgets.engine.claims import Charged
from budgets.engine.paying import Payment, claim_days, last_to_pay, payment_of
from budgets.fit import Books
from budgets.models import (
    AGREED,
    LOCKING,
    OURS,
    Claim,
    ClaimKind,
    ClaimShare,
    ClaimState,
    Fund,
    Income,
)


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """One fund with its claims and its income, newest claim last; all amounts in cents."""

    books: Books
    fund: Fund
    claims: tuple[Claim, ...]
    income: tuple[Income, ...]

    @property
    def may_be_asked(self) -> bool:
        return self.fund.kind not in OURS and self.fund.status in AGREED

    @property
    def filed(self) -> list[Claim]:
        return [row for row in self.claims if row.state in LOCKING]

    @property
    def draft(self) -> Claim | None:
        return next((row for row in self.claims if row.state == ClaimState.DRAFT), None)

    @cached_property
    def value(self) -> engine.Fund:
        return self.books.fund_values[self.fund.pk]

    @cached_property
    def payment(self) -> Payment:
        return payment_of(self.value)

    @property
    def usual_kind(self) -> str:
        """A fund that pays nothing back is accounted to, not asked."""
        said = self.payment.said and not self.payment.back
        return ClaimKind.REPORT if said else ClaimKind.CLAIM

    @property
    def received(self) -> int:
        return sum(row.cents for row in self.income)

    @property
    def asked(self) -> int:
        return sum(row.asked_cents for row in self.filed)

    @property
    def left_to_ask(self) -> int | None:
        """Of the award; nothing bounds an open one."""
        return None if self.value.award is None else self.value.award - self.asked

    @property
    def paid_ahead(self) -> int:
        """Came without a claim, or was taken back in one, and is not accounted for yet."""
        came = sum(row.cents for row in self.income if not row.claim_id)
        return max(0, came + sum(claim.ahead_cents for claim in self.filed))

    @property
    def to_pay_back(self) -> int:
        """Came and will not be accounted for any more: the last claim is filed."""
        return self.paid_ahead if self.is_closed else 0

    @property
    def held(self) -> int:
        """Held back of the claims that were filed and not released."""
        kept = sum(claim.held_back_cents for claim in self.filed)
        return kept - sum(claim.released_cents for claim in self.filed)

    @property
    def number(self) -> int:
        return max((row.number for row in self.claims), default=0) + 1

    @property
    def through(self) -> date | None:
        """The last day of the last claim that was filed."""
        return max((row.to_day for row in self.filed), default=None)

    @property
    def is_closed(self) -> bool:
        """Whether the last claim is filed; what comes after holds nothing back any more."""
        return any(row.is_final for row in self.filed)

    @cached_property
    def days(self) -> tuple[date, ...]:
        """The days on which the fund may be claimed from."""
        if not self.fund.period_start or not self.fund.period_end:
            return ()
        return claim_days(self.payment, self.fund.period_start, self.fund.period_end)

    def opens_on(self, today: date) -> date | None:
        """The next day to claim, when no earlier one is still unused; none: any day will do."""
        told = [row.filed_on for row in self.filed if row.filed_on]
        used = max(told, default=None)
        if any(day <= today and (used is None or day > used) for day in self.days):
            return None
        return next((day for day in self.days if day > today), None)

    @property
    def last_to_pay(self) -> date | None:
        """A bill that is paid later is never paid back: the last claim, or the fund's own day."""
        known = [*self.days[-1:], *filter(None, [last_to_pay(self.value)])]
        return min(known, default=None)

    @cached_property
    def charged(self) -> tuple[Charged, ...]:
        """Cents that are charged to the fund and in no filed claim."""
        rows = self.books.by_pk
        found = []
        for share in self.books.shares:
            if share.fund_id != self.fund.pk:
                continue
            row = rows[share.expense_id]
            left = share.cents - self.books.locked.get((row.pk, self.fund.pk), 0)
            if left > 0 and not row.in_kind:
                barred = bool(self.sentences(row.pk))
                key = str(row.pk)
                found.append(Charged(key=key, cents=left, paid=row.paid_on, barred=barred))
        return tuple(found)

    def sentences(self, expense: int) -> list[str]:
        """The rules of this fund that a share of the expense breaks."""
        pairs = self.books.refusals_of.get(expense, [])
        return [refusal.sentence for fund, refusal in pairs if fund.pk == self.fund.pk]


def ledger_of(fund: Fund) -> Ledger:
    return next(row for row in all_ledgers(fit.read(fund.project)) if row.fund.pk == fund.pk)


def ledgers(books: Books) -> list[Ledger]:
    """One for each signed fund from outside."""
    return [row for row in all_ledgers(books) if row.may_be_asked]


def all_ledgers(books: Books) -> list[Ledger]:
    """Two queries and those of the claims' shares."""
    shares = Prefetch("shares", ClaimShare.objects.select_related("expense"))
    claims = Claim.objects.filter(fund__project=books.project).select_related("fund__project")
    rows = list(claims.prefetch_related(shares, "income"))
    income = Income.objects.filter(fund__project=books.project)
    came = list(income.select_related("claim", "milestone"))
    return [
        Ledger(
            books=books,
            fund=fund,
            claims=tuple(row for row in rows if row.fund_id == fund.pk),
            income=tuple(row for row in came if row.fund_id == fund.pk),
        )
        for fund in books.funds
    ]
