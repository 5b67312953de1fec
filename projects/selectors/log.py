"""The log, by day, in the project's own time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from zoneinfo import ZoneInfo

from django.core.paginator import Page, Paginator

from projects import hooks
from projects.models import LogEntry, Project

A_PAGE = 50
SHEETS = {
    "projects": "Project",
    "schedules": "Schedule",
    "budgets": "Money",
    "suppliers": "Suppliers",
    "packets": "Packets",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRow:
    at: datetime  # in the project's zone
    who: str
    sheet: str
    sentence: str
    reason: str
    back: str = ""  # where it can be taken back


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPage:
    days: list[tuple[date, list[LogRow]]]
    page: Page[LogEntry]
    total: int


def log_page(project: Project, *, about: str = "", who: str = "", page: str = "1") -> LogPage:
    """Entries that fit the filter, newest first; two queries, and what the hooks ask."""
    entries = LogEntry.objects.filter(project=project)
    if about:
        entries = entries.filter(about=about)
    if who:
        entries = entries.filter(who=who)
    paginator = Paginator(entries, A_PAGE)
    found = paginator.get_page(page)
    zone = ZoneInfo(project.zone)
    ways = {entry: url for ask in hooks.takebacks for entry, url in ask(project).items()}
    rows = [log_row(entry, zone, ways.pop(entry.sentence, "")) for entry in found]
    days = [(day, list(group)) for day, group in groupby(rows, key=lambda row: row.at.date())]
    return LogPage(days=days, page=found, total=paginator.count)


def log_row(entry: LogEntry, zone: ZoneInfo, back: str) -> LogRow:
    return LogRow(
        at=entry.at.astimezone(zone),
        who=entry.who,
        sheet=SHEETS.get(entry.about, entry.about.capitalize()),
        sentence=entry.sentence,
        reason=entry.reason,
        back=back,
    )


def people_in_log(project: Project) -> list[str]:
    names = LogEntry.objects.filter(project=project).order_by("who").values_list("who", flat=True)
    return list(names.distinct())
