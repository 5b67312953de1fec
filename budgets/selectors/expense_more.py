"""What the page of an expense shows beside who pays it: facts, workings, gift, papers asked for."""

from __future__ import annotations

from dataclasses import dataclass

from budgets.engine.rules.evidence import PapersNeeded
from budgets.fit import Books
from budgets.models import Credit, Expense, Hours, PaperKind
from budgets.selectors.expense_facts import Facts, expense_facts, expense_warnings
from budgets.selectors.gift_kinds import kinds, tests_source
from budgets.selectors.gift_tests import Test, seven_tests
from budgets.selectors.gifts import GiftRow, gift_row
from budgets.selectors.quotes.advised import quotes_advised
from budgets.selectors.workings import Workings, workings_of
from projects.words import day, listed, money


@dataclass(frozen=True)
class Asked:
    """A kind of paper, whether it is here, and the funds that ask for it."""

    label: str
    here: bool
    funds: str


@dataclass(frozen=True, kw_only=True)
class More:
    facts: list[Facts]
    warnings: list[str]
    workings: Workings | None
    hours: list[Hours]
    gift: GiftRow | None
    tests: list[Test]
    tests_source: str
    asked: list[Asked]
    credits: list[Credit]
    net: int
    to_pay: str
    next_paper: str

    @property
    def unsigned(self) -> bool:
        return not all(row.signed for row in self.hours)


def expense_more(books: Books, expense: Expense) -> More:
    hours = list(expense.hours.all()) if expense.in_kind else []
    gift = gift_row(books, expense, hours) if expense.in_kind else None
    credits = list(expense.credits.select_related("paper"))
    advised = quotes_advised(books, [expense.pk], books.funds)
    return More(
        facts=expense_facts(expense),
        warnings=expense_warnings(expense) + advised[expense.pk],
        workings=workings_of(expense),
        hours=hours,
        gift=gift,
        tests=seven_tests(books, gift) if gift else [],
        tests_source=tests_source(),
        asked=papers_asked(books, expense),
        credits=credits,
        net=expense.cents - sum(credit.cents for credit in credits),
        to_pay=to_pay(expense),
        next_paper=next_paper(books, expense),
    )


def papers_asked(books: Books, expense: Expense) -> list[Asked]:
    """In the order of the kinds of paper; those that no fund asks for are left out."""
    value = books.expense_values[expense.pk]
    funds: dict[str, list[str]] = {}
    for fund in books.funds:
        rules = books.fund_values[fund.pk].rules
        asked = {k for rule in rules if isinstance(rule, PapersNeeded) for k in rule.asked(value)}
        for kind in asked:
            funds.setdefault(kind, []).append(fund.name)
    return [
        Asked(label, kind in value.papers, listed(funds[kind]))
        for kind, label in PaperKind.choices
        if kind in funds
    ]


def to_pay(expense: Expense) -> str:
    """What is billed and not paid yet, in a sentence."""
    if expense.in_kind or expense.paid_on:
        return ""
    amount = money(expense.cents, expense.project.currency)
    return f"{amount} is to be paid" + (f" by {day(expense.due_on)}." if expense.due_on else ".")


def next_paper(books: Books, expense: Expense) -> str:
    """The kind that is most likely to be added next: the first of the usual ones not here yet."""
    here = {paper.kind for paper in books.papers_of.get(expense.pk, [])}
    kind = kinds().get(expense.gift_kind)
    usual = [kind.paper] if kind else [PaperKind.RECEIPT, PaperKind.PAYMENT]
    return next((each for each in usual if each not in here), PaperKind.OTHER)
