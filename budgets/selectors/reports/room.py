"""The list of reports: each fund with those it has, what is due next, what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from budgets import engine
from budgets.facts import all_of
from budgets.models import OURS, Claim, Fund, PaperKind
from budgets.selectors.reports.due import Calendar, Due, next_due
from budgets.selectors.reports.source import HOPED, Source, read_source
from projects.hooks import Level
from projects.models import Project
from projects.words import listed, plural
from schedules import plan
from schedules.engine import ScheduleError

NAMES = {
    "budget": "Budget and actual",
    "match": "Match",
    "spending": "Expenditure list",
    "federal": "Federal lines",
}


@dataclass(frozen=True, slots=True)
class Link:
    label: str
    url: str


@dataclass(frozen=True, kw_only=True)
class FundReports:
    fund: Fund
    links: tuple[Link, ...]
    changes: str  # where its requests for a change of budget are
    due: str
    level: Level
    missing: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Room:
    sentence: str
    action: str
    url: str
    rows: tuple[FundReports, ...]
    waiting: tuple[Fund, ...]  # not signed yet


def reports_room(project: Project, today: date) -> Room:
    source = read_source(project, today)
    calendar = Calendar(
        claims=tuple(Claim.objects.filter(fund__project=project)),
        facts=all_of(project),
        public_on=public_day(project, today),
    )
    funds = [row for row in source.books.funds if row.kind not in OURS]
    signed = [row for row in funds if row.status not in HOPED]
    dues = {row.pk: next_due(source.books, row, calendar) for row in signed}
    rows = tuple(fund_reports(source, row, dues[row.pk], today) for row in signed)
    sentence, action, url = matters(source, rows, [due for due in dues.values() if due], today)
    return Room(
        sentence=sentence,
        action=action,
        url=url,
        rows=rows,
        waiting=tuple(row for row in funds if row.status in HOPED),
    )


def public_day(project: Project, today: date) -> date | None:
    try:
        return plan.look(project, today).days.public_on
    except ScheduleError:
        return None


def fund_reports(source: Source, fund: Fund, due: Due | None, today: date) -> FundReports:
    return FundReports(
        fund=fund,
        links=tuple(
            Link(NAMES[key], reverse(f"budgets:report-{key}", args=[source.project.pk, fund.pk]))
            for key in kinds_of(source, fund)
        ),
        changes=reverse("budgets:changes", args=[source.project.pk, fund.pk]),
        due=due.words(today) if due else "no report day is known",
        level=due.level(today) if due else Level.PLAIN,
        missing=tuple(missing(source, fund)),
    )


def kinds_of(source: Source, fund: Fund) -> list[str]:
    found = ["budget", "spending"]
    if source.books.states[fund.pk].match_needed or asks_match(source, fund):
        found.insert(1, "match")
    return [*found, "federal"] if fund.federal_money else found


def asks_match(source: Source, fund: Fund) -> bool:
    return engine.match_of(source.books.fund_values[fund.pk]) is not None


def missing(source: Source, fund: Fund) -> list[str]:
    wanted = {PaperKind.RECEIPT: "receipt", PaperKind.PAYMENT: "proof of payment"}
    charged = [row.expense_id for row in source.books.shares if row.fund_id == fund.pk]
    found = []
    for kind, name in wanted.items():
        lacks = sum(kind not in papers_of(source, pk) for pk in charged)
        if lacks:
            many = "proofs of payment" if kind == PaperKind.PAYMENT else "receipts"
            found.append(plural(lacks, name, many))
    short = source.match_of(fund).short
    return [*found, f"{source.words(short)} of match"] if short else found


def papers_of(source: Source, expense: int) -> set[str]:
    return {paper.kind for paper in source.books.papers_of.get(expense, [])}


def matters(
    source: Source, rows: tuple[FundReports, ...], dues: list[Due], today: date
) -> tuple[str, str, str]:
    """What is due next, what is missing; and the one next thing to do."""
    if not rows:
        url = reverse("budgets:fund-add", args=[source.project.pk])
        return "No signed fund asks for a report yet.", "Add a fund", url
    parts = [due_words(dues, today)]
    lacks = [row for row in rows if row.missing]
    if lacks:
        words = [f"{row.fund.name} lacks {listed(list(row.missing))}" for row in lacks[:2]]
        parts.append(f"{'; '.join(words)}.")
    if free := sum(source.books.unassigned.values()):
        parts.append(f"{source.words(free)} of expenses has no fund yet.")
    if not lacks and not free:
        parts.append("Nothing is missing.")
    first = (lacks or list(rows))[0]
    return " ".join(parts), f"See the list of {first.fund.name}", first.links[-1].url


def due_words(dues: list[Due], today: date) -> str:
    if not dues:
        return "No report day is known: add it to the rules of each fund."
    due = min(dues, key=lambda due: due.day or date.min)
    return f"Next: {due.what.lower()} for {due.fund.name}, {due.away(today)}."
