"""All that the page of one expense asks about who pays it and what it counts for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from budgets import engine
from budgets.fit.assignment import Paid
from budgets.fit.books import Books
from budgets.fit.judging import Answer, answers, judged
from budgets.fit.matching import Reasons, Spread, awards, matched, spread
from budgets.models import Expense, Fund

EVERYTHING = 10**15  # more cents than any expense has


@dataclass(frozen=True, kw_only=True)
class Asked:
    """An award that asks for match: the most of the expense that can count for it as it is paid.

    `reasons` bar it whoever pays.
    """

    award: Fund
    most: int
    short: int  # match that the award still lacks
    reasons: tuple[engine.Refusal, ...]


@dataclass(frozen=True, kw_only=True)
class Sharing:
    """One expense; `amount` is what there is to share out, net of what came back."""

    books: Books
    expense: Expense
    amount: int
    now: Paid
    answers: tuple[Answer, ...]
    asked: tuple[Asked, ...]

    @property
    def match_now(self) -> dict[int, int]:
        return matched(self.now.counted)


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """Who is to pay which cents, what they are to count for, and why that may not be."""

    shares: Mapping[int, int]
    match: Spread
    reasons: Reasons

    @property
    def paid(self) -> Paid:
        return Paid(self.shares, self.match.rows)

    @property
    def may_be(self) -> bool:
        return not self.reasons and not self.match.reasons


def sharing(books: Books, expense: Expense) -> Sharing:
    now = Paid(books.shares_of.get(expense.pk, {}), books.counted_of.get(expense.pk, {}))
    return Sharing(
        books=books,
        expense=expense,
        amount=books.expense_values[expense.pk].amount,
        now=now,
        answers=tuple(answers(books, expense)),
        asked=tuple(asked(books, expense, award, now.shares) for award in awards(books)),
    )


def asked(books: Books, expense: Expense, award: Fund, shares: Mapping[int, int]) -> Asked:
    found = spread(books, expense, shares, {award.pk: EVERYTHING})
    state = books.states[award.pk]
    value, fund = books.expense_values[expense.pk], books.fund_values[award.pk]
    return Asked(
        award=award,
        most=sum(found.rows.values()),
        short=max(0, state.match_needed - state.match_found),
        reasons=engine.match_bars(fund, value),
    )


def wanted(
    books: Books, expense: Expense, shares: Mapping[int, int], match: Mapping[int, int] | None
) -> Wanted:
    """Judge what is wanted, claims included. Without `match`, what counts now goes on counting."""
    reasons = {**judged(books, expense, shares), **claimed(books, expense, shares)}
    if match is None:
        kept = Spread(still_counting(books, expense, shares))
        reasons = {**claimed_match(books, expense, kept), **reasons}
        return Wanted(shares=shares, match=kept, reasons=reasons)
    found = spread(books, expense, shares, match)
    for award, why in claimed_match(books, expense, found).items():
        found.reasons.setdefault(award, why)
    return Wanted(shares=shares, match=found, reasons=reasons)


def still_counting(
    books: Books, expense: Expense, shares: Mapping[int, int]
) -> dict[tuple[int, int | None], int]:
    """What counts now, as far as the same payers still pay it."""
    wish = matched(books.counted_of.get(expense.pk, {}))
    most = {
        a: sum(spread(books, expense, shares, {a: cents}).rows.values())
        for a, cents in wish.items()
    }
    return spread(books, expense, shares, most).rows


def claimed(books: Books, expense: Expense, shares: Mapping[int, int]) -> Reasons:
    """The shares that a filed claim holds, where less is wanted."""
    held = {fund: cents for (pk, fund), cents in books.locked.items() if pk == expense.pk}
    return {
        fund.pk: (in_claim(books, expense, fund, held[fund.pk], "charged"),)
        for fund in books.funds
        if held.get(fund.pk, 0) > shares.get(fund.pk, 0)
    }


def claimed_match(books: Books, expense: Expense, found: Spread) -> Reasons:
    held = {
        (fund, payer): cents
        for (pk, fund, payer), cents in books.locked_match.items()
        if pk == expense.pk
    }
    return {
        fund.pk: (in_claim(books, expense, fund, cents, "counted as match"),)
        for fund in books.funds
        for (award, payer), cents in held.items()
        if award == fund.pk and found.rows.get((award, payer), 0) < cents
    }


def in_claim(books: Books, expense: Expense, fund: Fund, cents: int, how: str) -> engine.Refusal:
    amount = engine.dollars(cents, books.symbol)
    return engine.Refusal(
        code="claimed",
        rule="What is in a filed claim is changed by a correction there, with its reason.",
        sentence=f"{amount} of it is {how} in a claim on {fund.name} that was filed.",
        limit=cents,
        expense=str(expense.pk),
    )
