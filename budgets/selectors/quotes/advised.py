"""The quotes that a purchase should have: by a fund's own rules, or because its money is federal.

What federal money asks for by itself is a warning, by the thresholds of the day of the purchase.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.engine.dated import Dated, NoFact, value_on
from budgets.engine.rules import QuotesNeeded
from budgets.facts import all_of
from budgets.fit import Books, rule_value
from budgets.models import Fund
from projects.words import money, plural

QUOTES_FROM, BIDS_FROM = "quotes_from", "bids_from"
Facts = Sequence[Dated]


@dataclass(frozen=True)
class Asks:
    """What a purchase above so many cents should have, and where that is written."""

    what: str
    above: int
    source: str


def quotes_rules(fund: Fund, facts: Facts, day: date) -> list[QuotesNeeded]:
    """In force on the day of the order. A fund's own rule, of any day, wins over what is implied.

    An implied one carries the source of its threshold as its clause.
    """
    if own := own_rules(fund):
        return [rule for rule in own if rule.holds_on(day)]
    found = threshold(facts, QUOTES_FROM, day) if fund.federal_money else None
    return [QuotesNeeded(cents=found.cents, warn_only=True, clause=found.source)] if found else []


def own_rules(fund: Fund) -> list[QuotesNeeded]:
    rules = (rule_value(row) for row in fund.rules.all() if row.code == QuotesNeeded.code)
    return [rule for rule in rules if isinstance(rule, QuotesNeeded)]


def threshold(facts: Facts, name: str, day: date) -> Dated | None:
    try:
        return value_on(facts, name, day).fact
    except NoFact:
        return None


def quotes_advised(
    books: Books, expenses: Iterable[int], funds: Iterable[Fund]
) -> dict[int, list[str]]:
    """What each expense that these funds pay should have and lacks, where that bars nothing."""
    paying = [fund for fund in funds if fund.federal_money or own_rules(fund)]
    facts = all_of(books.project) if paying else ()
    return {pk: advice(books, pk, paying, facts) for pk in expenses}


def advice(books: Books, expense: int, funds: Iterable[Fund], facts: Facts) -> list[str]:
    mine = books.shares_of.get(expense, {})
    return [
        sentence(books, fund, expense, asks)
        for fund in funds
        if fund.pk in mine
        for asks in lacking(fund, books.expense_values[expense], facts)
    ]


def implied(fund: Fund, day: date) -> str:
    """What federal money asks for by itself; nothing where the fund has a rule of its own."""
    if own_rules(fund) or not fund.federal_money:
        return ""
    found = quotes_rules(fund, all_of(fund.project), day)
    return " ".join(implied_words(rule, fund.project.currency) for rule in found)


def implied_words(rule: QuotesNeeded, currency: str) -> str:
    return (
        f"As federal money: a purchase above {money(rule.cents, currency)} should have "
        f"{plural(rule.quotes, 'quote')}. {rule.clause}. The holder’s own written policy may ask "
        "for them earlier; a rule added here takes its place."
    )


def lacking(fund: Fund, value: engine.Expense, facts: Facts) -> list[Asks]:
    day = value.ordered or value.day
    bids = None if own_rules(fund) else threshold(facts, BIDS_FROM, day)
    if bids and not value.in_kind and value.amount > bids.cents:
        return [Asks("sealed bids or proposals", bids.cents, bids.source)]
    return [
        Asks(plural(rule.quotes, "quote"), rule.cents, rule.clause)
        for rule in quotes_rules(fund, facts, day)
        if rule.warn_only and rule.lacks(value)
    ]


def sentence(books: Books, fund: Fund, expense: int, asks: Asks) -> str:
    currency, value = books.project.currency, books.expense_values[expense]
    name = fund.name if own_rules(fund) else f"{fund.name} is federal money"
    above, has = money(asks.above, currency), plural(value.quotes, "quote")
    source = f" {asks.source}." if asks.source else ""
    return f"{name}: a purchase above {above} should have {asks.what}, this has {has}.{source}"
