"""What every report is made from: the books up to a day, what came in, the lines; a few queries."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from budgets import fit
from budgets.engine.categories import CATEGORIES
from budgets.models import (
    LOCKING,
    BudgetLine,
    Claim,
    Expense,
    Fund,
    FundKind,
    FundStatus,
    Income,
    Paper,
)
from budgets.selectors.appendix import Appendix, appendix_of
from budgets.selectors.reports.cut import MatchBook, cut, match_book
from projects.models import Project
from projects.words import day_year, money

HOPED = (FundStatus.APPLIED, FundStatus.OFFERED)
OVERHEAD = "overhead"  # stands among the categories where it was claimed


@dataclass(frozen=True, kw_only=True)
class Source:
    """`draw` makes the pages of the appendix; without it papers are only numbered."""

    project: Project
    books: fit.Books
    through: date
    income: tuple[Income, ...]
    lines: tuple[BudgetLine, ...]
    claims: tuple[Claim, ...]
    whole: bool = False
    draw: bool = False

    def words(self, cents: int) -> str:
        return money(cents, self.project.currency, whole=self.whole)

    @property
    def currency(self) -> str:
        return f"{self.project.currency}, whole" if self.whole else self.project.currency

    @property
    def until(self) -> str:
        return day_year(self.through)

    @cached_property
    def received(self) -> Counter[int]:
        """Cents that came in, by fund."""
        found = Counter[int]()
        for row in self.income:
            found[row.fund_id] += row.cents
        return found

    def charged_by_category(self, fund: Fund) -> Counter[str]:
        found = Counter[str]()
        for row in self.books.shares:
            if row.fund_id == fund.pk:
                found[self.books.by_pk[row.expense_id].line.category] += row.cents
        return found

    def charged(self, fund: Fund) -> int:
        return sum(self.charged_by_category(fund).values())

    def overhead_claims(self, fund: Fund) -> list[Claim]:
        """Filed claims with overhead at a rate in them."""
        return [row for row in self.claims if row.fund_id == fund.pk and row.indirect_cents]

    def overhead(self, fund: Fund) -> int:
        return sum(row.indirect_cents for row in self.overhead_claims(fund))

    def match_of(self, fund: Fund) -> MatchBook:
        return match_book(self.books, fund)

    def appendix(self, expenses: Iterable[Expense]) -> Appendix:
        """The papers of these expenses, in their order."""
        found: list[Paper] = []
        for row in expenses:
            for paper in self.books.papers_of.get(row.pk, []):
                paper.expense = row
                found.append(paper)
        return appendix_of(found, self.project.currency, draw=self.draw)


def read_source(
    project: Project, through: date, *, whole: bool = False, draw: bool = False
) -> Source:
    claims = Claim.objects.filter(fund__project=project, filed_on__lte=through)
    filed = claims.filter(state__in=LOCKING)
    return Source(
        project=project,
        books=cut(fit.read(project), through),
        through=through,
        income=tuple(Income.objects.filter(fund__project=project, day__lte=through)),
        lines=tuple(BudgetLine.objects.filter(project=project)),
        claims=tuple(filed),
        whole=whole,
        draw=draw,
    )


def in_order(categories: Iterable[str]) -> list[str]:
    """Categories in the order of the list, unknown ones behind."""
    order = list(CATEGORIES)
    place = {key: n for n, key in enumerate(order)}
    return sorted(set(categories), key=lambda key: (place.get(key, len(order)), key))


def is_gifts(fund: Fund) -> bool:
    return fund.kind == FundKind.IN_KIND


def is_own(fund: Fund) -> bool:
    return fund.kind == FundKind.OWN
