"""Rates and thresholds as the page shows them, and who was paid how much in a year."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import pairwise

from budgets import facts
from budgets.engine.dated import Dated, Found, growth_percent, value_on
from budgets.models import DatedFact, Expense
from projects.models import Project
from projects.words import day_year, listed
from suppliers.models import Document, DocumentKind

FORM = "payee_form_from"
USUAL = ("mile_business", "mile_charity", "volunteer_hour", "lodging_night", "meals_day")


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One value of a fact, and by how much it differs from the one before it."""

    fact: Dated
    pk: int | None  # of a project's own
    growth: Decimal | None

    @property
    def shown(self) -> str:
        return plain(self.fact.value)

    @property
    def until(self) -> str:
        return day_year(self.fact.end) if self.fact.end else "now"


@dataclass(frozen=True, slots=True, kw_only=True)
class FactRow:
    kind: facts.Kind
    now: Found
    values: list[Value]  # the latest first

    @property
    def shown(self) -> str:
        return plain(self.now.fact.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class PayeeRow:
    payee: str
    cents: int
    needs_form: bool
    has_form: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FactSheet:
    rows: list[FactRow]
    year: int
    threshold: Found
    payees: list[PayeeRow]
    sentence: str


def plain(value: Decimal) -> str:
    """“0.7” as “0.70”, “15000” as “15,000”; tenths of a cent stay."""
    text = f"{value.normalize():,f}"
    whole, point, rest = text.partition(".")
    return f"{whole}.{rest:0<2}" if point else whole


def fact_sheet(project: Project, today: date) -> FactSheet:
    saved = list(DatedFact.objects.filter(project=project))
    known = (*facts.shipped(), *facts.own(saved))
    pks = dict(zip(facts.own(saved), (row.pk for row in saved), strict=True))
    rows = [fact_row(kind, known, pks, today) for kind in facts.kinds().values()]
    threshold = value_on(known, FORM, today)
    payees = payees_of(project, today.year, threshold.fact.cents)
    return FactSheet(
        rows=rows,
        year=today.year,
        threshold=threshold,
        payees=payees,
        sentence=sentence(rows, payees),
    )


def fact_row(
    kind: facts.Kind, known: Iterable[Dated], pks: dict[Dated, int], today: date
) -> FactRow:
    mine = sorted((f for f in known if f.name == kind.name), key=lambda f: (f.start, f.own))
    grown = [None, *(growth_percent(one.value, two.value) for one, two in pairwise(mine))]
    values = [
        Value(fact=fact, pk=pks.get(fact), growth=growth)
        for fact, growth in zip(mine, grown, strict=True)
    ]
    return FactRow(kind=kind, now=value_on(mine, kind.name, today), values=values[::-1])


def payees_of(project: Project, year: int, threshold: int) -> list[PayeeRow]:
    """Whom the artist paid in a calendar year, the most first; two queries."""
    paid = Expense.objects.filter(
        project=project, in_kind=False, payer="artist", paid_on__year=year
    ).prefetch_related("credits")
    totals: dict[str, int] = {}
    names: dict[str, str] = {}
    for row in paid:
        key = row.payee.casefold()
        names.setdefault(key, row.payee)
        totals[key] = totals.get(key, 0) + row.cents - sum(c.cents for c in row.credits.all())
    forms = with_form(project)
    found = [
        PayeeRow(
            payee=names[key], cents=cents, needs_form=cents >= threshold, has_form=key in forms
        )
        for key, cents in totals.items()
    ]
    return sorted(found, key=lambda row: (-row.cents, row.payee))


def with_form(project: Project) -> set[str]:
    papers = Document.objects.filter(supplier__project=project, kind=DocumentKind.TAX_FORM)
    return {name.casefold() for name in papers.values_list("supplier__name", flat=True)}


def sentence(rows: list[FactRow], payees: list[PayeeRow]) -> str:
    bare = [row.payee for row in payees if row.needs_form and not row.has_form]
    if bare:
        verb = "has" if len(bare) == 1 else "have"
        return (
            f"{listed(bare)} {verb} been paid enough this year for a form to the tax office, "
            "and no taxpayer form is on file."
        )
    old = [row for row in rows if not row.now.current and row.kind.name in USUAL]
    if old:
        names = listed([f"“{row.kind.label.lower()}”" for row in old])
        return f"The newest known value is of an earlier year for {names}. Look it up and add it."
    return "Every rate that the planner uses is known for today."
