"""One quote beside the plan, the budget and its supplier's papers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from budgets.engine.choice import Offer
from budgets.engine.terms import Due, Terms, due_payments
from budgets.selectors.quotes.trial import Effect, Trial
from projects.hooks import Level
from projects.words import day, plural
from suppliers.models import DocumentKind, Quote, QuoteState

SOON = timedelta(days=7)


@dataclass(frozen=True, kw_only=True)
class QuoteRow:
    """A supplier who was asked, and what their answer does if it is ordered on `on`."""

    quote: Quote
    on: date
    today: date
    wanted_on: date | None
    effect: Effect | None = None
    dearer: int = 0
    line_left: int | None = None  # of the line that pays, before this is ordered
    best: bool = False

    @property
    def price(self) -> int | None:
        return self.quote.total_cents

    @property
    def answered(self) -> bool:
        return self.price is not None and self.quote.state != QuoteState.DECLINED

    @property
    def left_after(self) -> int | None:
        """Of the line, once this is ordered; below zero: over the budget."""
        if self.line_left is None or self.price is None:
            return None
        return self.line_left - self.price

    @property
    def after_wanted(self) -> int:
        """Days by which it comes later than it is wanted; zero or below: in time."""
        if self.effect is None or self.wanted_on is None:
            return 0
        return (self.effect.ready_on - self.wanted_on).days

    @property
    def expired(self) -> bool:
        """Whether the price no longer holds on the day of the order."""
        return self.quote.valid_until is not None and self.quote.valid_until < self.on

    @property
    def expires_soon(self) -> bool:
        until = self.quote.valid_until
        return not self.expired and until is not None and until <= self.today + SOON

    @property
    def missed_order(self) -> bool:
        latest = self.effect.latest if self.effect else None
        return latest is not None and latest < self.today

    @property
    def date_level(self) -> Level:
        in_hand = self.effect.in_hand if self.effect else None
        if in_hand is None:
            return Level.PLAIN
        return Level.BROKEN if in_hand < 0 else Level.NEAR if in_hand <= 2 else Level.HOLDS

    @property
    def late_by(self) -> int:
        """Working days by which the public date is missed."""
        in_hand = self.effect.in_hand if self.effect else None
        return max(0, -(in_hand or 0))

    @property
    def waits(self) -> str:
        return wait_words(self.quote, self.today)

    @property
    def dues(self) -> tuple[Due, ...]:
        if self.price is None:
            return ()
        terms = Terms(
            price=self.price,
            deposit=self.quote.deposit_basis_points,
            net_days=self.quote.net_days,
        )
        return due_payments(terms, self.on, self.effect.ready_on if self.effect else None)

    @property
    def insurance(self) -> str:
        """What is wrong with the supplier's cover for this work; nothing when all is well."""
        papers = [
            paper
            for paper in self.quote.supplier.documents.all()
            if paper.kind == DocumentKind.INSURANCE
        ]
        until = self.effect.ready_on if self.effect else self.on
        if not papers:
            return "no insurance certificate on file"
        if any(paper.expires_on is None or paper.expires_on >= until for paper in papers):
            return ""
        last = max(paper.expires_on for paper in papers if paper.expires_on)
        return f"insurance ends {day(last)}, before it is there"

    @property
    def offer(self) -> Offer:
        return Offer(
            key=str(self.quote.pk),
            price=self.price or 0,
            in_hand=self.effect.in_hand if self.effect else None,
            after_wanted=self.after_wanted,
            expired=self.expired,
        )


def effect_of(quote: Quote, on: date, trial: Trial) -> Effect | None:
    return None if quote.lead_days is None else trial.effect(quote.lead_days, on)


def wait_words(quote: Quote, today: date) -> str:
    """How long a supplier has been asked for: “asked 3 days ago”."""
    if quote.asked_on is None:
        return "not asked yet"
    days = (today - quote.asked_on).days
    return "asked today" if days <= 0 else f"asked {plural(days, 'day')} ago"
