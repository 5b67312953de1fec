"""What it will all have cost: each line's estimate at completion, and the contingency."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from budgets import fit
from budgets.engine.money import percent
from budgets.engine.outlook import Outlook
from budgets.engine.pool import Pool
from budgets.fit.forecast import CONTINGENCY, Forecast, forecasts
from budgets.fit.lines import COMMITTED, drawn, spent_of
from budgets.fit.planned import days_of
from budgets.models import BudgetLine, Draw
from projects.models import Project


@dataclass(frozen=True, kw_only=True)
class ForecastRow:
    """A line: as approved, after draws, and what it will have cost; `rest` is still to come.

    What was `given` for a line of money, in cents, costs nothing and leaves less to buy.
    """

    line: BudgetLine
    outlook: Outlook
    rest: Forecast | None
    given: int

    @property
    def drawn(self) -> int:
        return self.outlook.budget - self.line.planned_cents

    @property
    def over(self) -> int:
        """Cents that it will cost beyond its budget; a gift costs nothing."""
        return 0 if self.line.in_kind else max(0, -self.outlook.variance)

    @property
    def told(self) -> bool:
        """Whether somebody said what it still needs."""
        return self.line.to_come_cents is not None or self.priced

    @property
    def priced(self) -> bool:
        line = self.line
        given = line.quantity_hundredths is not None and line.unit_cents is not None
        return given and line.to_come_cents is None


@dataclass(frozen=True, kw_only=True)
class Reserve:
    """One contingency line and what it holds."""

    line: BudgetLine
    pool: Pool


@dataclass(frozen=True, kw_only=True)
class ForecastSheet:
    rows: Sequence[ForecastRow]
    total: Outlook  # money: without gifts, and without the contingency
    gifts: Outlook | None
    reserves: Sequence[Reserve]
    pool: Pool
    draws: Sequence[Draw]

    @property
    def lines(self) -> list[BudgetLine]:
        return [*(row.line for row in self.rows), *(reserve.line for reserve in self.reserves)]

    @property
    def over(self) -> list[ForecastRow]:
        """The lines that cost more than their budget, the worst first."""
        return sorted((row for row in self.rows if row.over), key=lambda row: -row.over)

    @property
    def approved(self) -> int:
        """The budget in money as it was approved, contingency included."""
        kept = sum(reserve.line.planned_cents for reserve in self.reserves)
        return kept + sum(row.line.planned_cents for row in self.rows if not row.line.in_kind)

    @property
    def share(self) -> str:
        """How much of what is not ordered yet the contingency would cover."""
        return percent(self.pool.basis_points or 0)

    @property
    def margin(self) -> int:
        """What the estimate leaves of the whole budget; below zero it cannot be paid."""
        return self.total.variance + self.pool.left


def forecast_sheet(project: Project, today: date) -> ForecastSheet:
    books = fit.read(project)
    return sheet_of(books, forecasts(books, days_of(books, today), today), draws_of(project))


def draws_of(project: Project) -> list[Draw]:
    return list(Draw.objects.filter(project=project).select_related("source", "target"))


def sheet_of(books: fit.Books, coming: Iterable[Forecast], draws: Sequence[Draw]) -> ForecastSheet:
    rows = forecast_rows(books, coming)
    mine = [row for row in rows if row.line.category != CONTINGENCY]
    money = [row for row in mine if not row.line.in_kind]
    given = [row for row in mine if row.line.in_kind]
    reserves = [reserve_of(row, books.draws) for row in rows if row.line.category == CONTINGENCY]
    return ForecastSheet(
        rows=mine,
        total=summed(money),
        gifts=gifts_of(given, money),
        reserves=reserves,
        pool=pool_of(reserves, money),
        draws=draws,
    )


def forecast_rows(books: fit.Books, coming: Iterable[Forecast]) -> list[ForecastRow]:
    committed, remaining, rests = Counter[int](), Counter[int](), {}
    for row in coming:
        if row.order is not None and row.order.state in COMMITTED:
            committed[row.line.pk] += row.cents
        else:
            remaining[row.line.pk] += row.cents
        if row.order is None:
            rests[row.line.pk] = row
    actual, given = spent_of(books.expenses, books.credits), given_of(books)
    budget = drawn({line.pk: line.planned_cents for line in books.lines}, books.draws)
    return [
        ForecastRow(
            line=line,
            outlook=Outlook(
                budget=budget[line.pk],
                actual=actual[line.pk] - given[line.pk],
                committed=committed[line.pk],
                remaining=remaining[line.pk],
            ),
            rest=rests.get(line.pk),
            given=given[line.pk],
        )
        for line in books.lines
    ]


def given_of(books: fit.Books) -> Counter[int]:
    """Gifts in kind on lines of money, by line."""
    found = Counter[int]()
    for row in books.expenses:
        if row.in_kind and not row.line.in_kind:
            found[row.line_id] += row.cents
    return found


def gifts_of(given: list[ForecastRow], money: list[ForecastRow]) -> Outlook | None:
    """Whatever is given, on lines of gifts and on others."""
    beside = sum(row.given for row in money)
    if not given and not beside:
        return None
    found = summed(given)
    return replace(found, actual=found.actual + beside)


def reserve_of(row: ForecastRow, draws: Iterable[Draw]) -> Reserve:
    out = sum(draw.cents for draw in draws if draw.source_id == row.line.pk)
    pool = Pool(held=row.outlook.budget + out, drawn=out, spent=row.outlook.actual)
    return Reserve(line=row.line, pool=pool)


def pool_of(reserves: Iterable[Reserve], money: Iterable[ForecastRow]) -> Pool:
    """All that is set aside, beside what is not ordered yet and what lines will be over."""
    reserves, money = list(reserves), list(money)
    return Pool(
        held=sum(reserve.pool.held for reserve in reserves),
        drawn=sum(reserve.pool.drawn for reserve in reserves),
        spent=sum(reserve.pool.spent for reserve in reserves),
        uncommitted=sum(row.outlook.remaining for row in money),
        over=sum(row.over for row in money),
    )


def summed(rows: Iterable[ForecastRow]) -> Outlook:
    rows = list(rows)
    return Outlook(
        budget=sum(row.outlook.budget for row in rows),
        actual=sum(row.outlook.actual for row in rows),
        committed=sum(row.outlook.committed for row in rows),
        remaining=sum(row.outlook.remaining for row in rows),
    )
