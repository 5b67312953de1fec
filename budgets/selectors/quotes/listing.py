"""The list of requests: what is waited for, what can be chosen, what was."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from budgets.selectors.quotes.rows import SOON
from projects.hooks import Level
from projects.models import Project
from projects.words import day, money, plural
from schedules.plan.once import once
from suppliers.models import ANSWERED, Quote, QuoteRequest, QuoteState


@dataclass(frozen=True, kw_only=True)
class RequestRow:
    request: QuoteRequest
    quotes: tuple[Quote, ...]
    today: date

    @property
    def answered(self) -> list[Quote]:
        return [quote for quote in self.quotes if quote.state in ANSWERED]

    @property
    def waiting(self) -> list[Quote]:
        return [quote for quote in self.quotes if quote.state == QuoteState.ASKED]

    @property
    def chosen(self) -> Quote | None:
        return next((q for q in self.quotes if q.state == QuoteState.CHOSEN), None)

    @property
    def range(self) -> tuple[int, int] | None:
        prices = [q.total_cents for q in self.answered if q.total_cents is not None]
        return (min(prices), max(prices)) if prices else None

    @property
    def overdue(self) -> bool:
        due = self.request.answer_by
        return bool(not self.request.is_closed and self.waiting and due and due < self.today)

    @property
    def first_expiry(self) -> date | None:
        """The first day on which a price ends, while nothing is chosen."""
        if self.request.is_closed:
            return None
        return min((q.valid_until for q in self.answered if q.valid_until), default=None)

    @property
    def expiry_level(self) -> Level:
        first = self.first_expiry
        if first is None:
            return Level.PLAIN
        if first < self.today:
            return Level.BROKEN
        return Level.NEAR if first <= self.today + SOON else Level.PLAIN


@dataclass(frozen=True)
class Next:
    """The sentence of the sheet, and the one next action."""

    sentence: str
    action: str = ""
    url: str = ""


def request_rows(project: Project, today: date) -> list[RequestRow]:
    """Two queries, whatever the number of requests; once in a request that only looks."""
    return once(project, ("requests", today), lambda: rows_of(project, today))


def rows_of(project: Project, today: date) -> list[RequestRow]:
    requests = QuoteRequest.objects.filter(project=project).select_related(
        "part", "purchase__line", "purchase__task"
    )
    rows = requests.prefetch_related("quotes__supplier")
    return [RequestRow(request=row, quotes=tuple(row.quotes.all()), today=today) for row in rows]


def what_next(project: Project, rows: list[RequestRow]) -> Next:
    """First a price that ends, then answers that are late, then a choice that can be made."""
    live = [row for row in rows if not row.request.is_closed]
    if not rows:
        return Next("Nothing is asked for yet. Two or three quotes show what a fair price is.")
    if not live:
        return Next("Every request is settled.")
    for test, words in ((ends_soon, end_words), (late, late_words), (can_choose, choice_words)):
        found = [row for row in live if test(row)]
        if found:
            url = reverse("budgets:quote-request", args=[project.pk, found[0].request.pk])
            return Next(words(found[0], project), "Compare the quotes", url)
    count = sum(len(row.waiting) for row in live)
    url = reverse("budgets:quote-request", args=[project.pk, live[0].request.pk])
    return Next(f"{plural(count, 'answer')} still to come.", "See who is asked", url)


def ends_soon(row: RequestRow) -> bool:
    return row.expiry_level in (Level.BROKEN, Level.NEAR)


def end_words(row: RequestRow, project: Project) -> str:
    first = row.first_expiry
    assert first is not None
    who = next(q for q in row.answered if q.valid_until == first)
    verb = "ended" if first < row.today else "ends"
    amount = money(who.total_cents, project.currency)
    return f"{who.supplier.name}: the price of {amount} for “{row.request}” {verb} {day(first)}."


def late(row: RequestRow) -> bool:
    return row.overdue


def late_words(row: RequestRow, _: Project) -> str:
    names = plural(len(row.waiting), "answer was", "answers were")
    due = row.request.answer_by
    return f"{names} due {day(due) if due else ''} for “{row.request}”."


def can_choose(row: RequestRow) -> bool:
    return len(row.answered) > 1


def choice_words(row: RequestRow, project: Project) -> str:
    least, most = row.range or (0, 0)
    between = f"from {money(least, project.currency)} to {money(most, project.currency)}"
    return (
        f"{plural(len(row.answered), 'quote')} for “{row.request}”, {between}, wait for a choice."
    )
