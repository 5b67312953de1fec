"""What is still to be spent, as expenses of the engine."""

from __future__ import annotations

from datetime import date

from budgets import engine
from budgets.fit.books import Books
from budgets.fit.forecast import Forecast, forecasts
from budgets.models import PaperKind
from projects.hooks import PlanDays
from schedules import plan
from schedules.engine import ScheduleError

QUOTES_TO_COME = 9  # a purchase that is still to be made can still ask for quotes


def forecasts_of(books: Books, today: date) -> tuple[Forecast, ...]:
    return forecasts(books, days_of(books, today), today)


def days_of(books: Books, today: date) -> PlanDays | None:
    """The plan as it stands; none where it cannot be laid out."""
    try:
        return plan.look(books.project, today).days
    except ScheduleError:
        return None


def forecast_value(row: Forecast) -> engine.Expense:
    return value_to_come(row.key, row.cents, row.day, row.line.category, in_kind=row.in_kind)


def value_to_come(
    key: str, cents: int, day: date, category: str, *, in_kind: bool = False
) -> engine.Expense:
    """Its papers, quotes and reasons are taken as brought in time."""
    return engine.Expense(
        key=key,
        amount=cents,
        day=day,
        category=category,
        in_kind=in_kind,
        papers=frozenset(PaperKind.values),
        ordered=day,
        delivered=day,
        paid=day,
        quotes=QUOTES_TO_COME,
        reasoned=True,
        forecast=True,
    )
