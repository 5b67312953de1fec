"""The comparison of one request: its quotes side by side, the best of them, and why."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from budgets import fit
from budgets.engine.choice import Choice, choose
from budgets.facts import all_of
from budgets.models import BudgetLine, Fund, FundStatus, Purchase
from budgets.selectors.lines import line_rows, orders_of
from budgets.selectors.quotes.advised import quotes_rules
from budgets.selectors.quotes.rows import QuoteRow, effect_of
from budgets.selectors.quotes.trial import Trial, trial
from projects.models import Project
from suppliers.models import Order, Quote, QuoteRequest, QuoteState


@dataclass(frozen=True, kw_only=True)
class Asked:
    """How many quotes a fund asks for at an amount."""

    fund: Fund
    above: int
    quotes: int
    source: str


@dataclass(frozen=True, kw_only=True)
class Comparison:
    request: QuoteRequest
    purchase: Purchase
    on: date
    today: date
    trial: Trial
    answers: tuple[QuoteRow, ...]  # the cheapest first
    waiting: tuple[QuoteRow, ...]
    declined: tuple[QuoteRow, ...]
    choice: Choice | None
    line_left: int | None
    asked: tuple[Asked, ...]
    order: Order | None = None
    is_tied: bool = False

    @property
    def best(self) -> QuoteRow | None:
        return next((row for row in self.answers if row.best), None)

    @property
    def chosen(self) -> QuoteRow | None:
        rows = (row for row in self.answers if row.quote.state == QuoteState.CHOSEN)
        return next(rows, None)

    @property
    def not_asked(self) -> list[QuoteRow]:
        return [row for row in self.waiting if row.quote.asked_on is None]

    @property
    def short_of(self) -> list[Asked]:
        """The funds that ask for more quotes than have come."""
        return [row for row in self.asked if row.quotes > len(self.answers)]


def compared(request: QuoteRequest, today: date, on: date | None = None) -> Comparison:
    """Everything that tells on which quote to take, ordered on `on` (today at the earliest)."""
    project, purchase = request.project, purchase_of(request)
    day = max(today, on or today)
    books = fit.read(project)
    tried = trial(project, today, purchase.task)
    left = left_of(purchase.line, books)
    rows = [row_of(quote, day, today, tried, left) for quote in quotes_of(request)]
    answers = sorted((r for r in rows if r.answered), key=lambda r: r.price or 0)
    found = choose([row.offer for row in answers], tried.now)
    return Comparison(
        request=request,
        purchase=purchase,
        on=day,
        today=today,
        trial=tried,
        answers=tuple(marked(row, found) for row in answers),
        waiting=tuple(r for r in rows if not r.answered and r.quote.state == QuoteState.ASKED),
        declined=tuple(r for r in rows if r.quote.state == QuoteState.DECLINED),
        choice=found,
        line_left=left,
        asked=asked_by(project, max((r.price or 0 for r in answers), default=0), day),
        order=Order.objects.filter(quote__request=request).select_related("supplier").first(),
        is_tied=tried.ties,
    )


def purchase_of(request: QuoteRequest) -> Purchase:
    """Its line and task; a request may have neither."""
    found = Purchase.objects.filter(request=request).select_related("line", "task").first()
    return found or Purchase(request=request)


def quotes_of(request: QuoteRequest) -> list[Quote]:
    rows = request.quotes.select_related("supplier").prefetch_related("supplier__documents")
    return list(rows)


def row_of(quote: Quote, on: date, today: date, tried: Trial, left: int | None) -> QuoteRow:
    return QuoteRow(
        quote=quote,
        on=on,
        today=today,
        wanted_on=quote.request.wanted_on,
        effect=effect_of(quote, on, tried),
        line_left=left,
    )


def marked(row: QuoteRow, found: Choice | None) -> QuoteRow:
    if found is None:
        return row
    dearer = (row.price or 0) - found.cheapest.price
    return replace(row, dearer=dearer, best=found.best.key == str(row.quote.pk))


def left_of(line: BudgetLine | None, books: fit.Books) -> int | None:
    if line is None:
        return None
    lines = BudgetLine.objects.filter(project=books.project)
    rows = line_rows(lines, orders_of(books.project), books)
    return next(row.state.left for row in rows if row.line.pk == line.pk)


def asked_by(project: Project, cents: int, on: date) -> tuple[Asked, ...]:
    """The signed funds that ask for quotes at this amount, by the day of the order."""
    funds = Fund.objects.filter(project=project, status=FundStatus.SIGNED)
    facts = all_of(project)
    return tuple(
        Asked(fund=fund, above=rule.cents, quotes=rule.quotes, source=rule.clause)
        for fund in funds.prefetch_related("rules")
        for rule in quotes_rules(fund, facts, on)
        if rule.cents < cents
    )
