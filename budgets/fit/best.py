"""The best fit of a project's books, in rows: what each fund pays, and what changes for whom."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from budgets import engine
from budgets.engine import best as optimum
from budgets.fit.assembled import assembled, values_of
from budgets.fit.assignment import Paid, is_ours, paid_after, paid_now
from budgets.fit.basis import basis_of
from budgets.fit.books import Books, read
from budgets.fit.calm import calmest, holding, sound_now
from budgets.fit.forecast import Forecast
from budgets.fit.planned import forecast_value, forecasts_of
from budgets.fit.problem import problem_of
from budgets.fit.solved import best_fit, first_come
from budgets.fit.tight import Obstacle, obstacles
from budgets.fit.wish import Wish
from budgets.models import Expense, Fund
from projects.models import Project


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One expense that the best fit pays otherwise, or counts otherwise as match."""

    expense: Expense
    before: Paid
    after: Paid


@dataclass(frozen=True, slots=True, kw_only=True)
class FundFit:
    """One funder, in cents: `best` of what is spent, `planned` of what is still to be spent.

    `sound` of what it pays `now` is not barred. What is `left` of its award `lapses`, or stays
    with the work.
    """

    fund: Fund
    now: int
    sound: int
    best: int
    planned: int
    indirect: int
    left: int
    lapses: bool
    match_needed: int
    match_found: int
    cash_needed: int
    cash_found: int


@dataclass(frozen=True, kw_only=True)
class BestFit:
    books: Books
    today: date
    wish: Wish
    problem: optimum.Problem
    fit: optimum.Fit
    forecasts: tuple[Forecast, ...]
    sound_rows: Sequence[Sequence[engine.Share]]  # what each funder pays now and may pay

    @cached_property
    def before(self) -> dict[int, Paid]:
        return paid_now(self.books)

    @cached_property
    def after(self) -> dict[int, Paid]:
        return paid_after(self.books, self.fit.shares, self.fit.counted)

    @cached_property
    def changes(self) -> tuple[Change, ...]:
        """By day, the latest first, as the expenses stand."""
        return tuple(
            Change(expense=row, before=self.before[row.pk], after=self.after[row.pk])
            for row in self.books.expenses
            if self.before[row.pk] != self.after[row.pk]
        )

    @cached_property
    def basis(self) -> str:
        """The same as long as nobody changes what the fit was computed from."""
        kept = [(pk, paid.kept()) for pk, paid in self.before.items()]
        return basis_of(self.problem, repr(kept))

    @cached_property
    def first(self) -> optimum.Fit:
        """First come, first served."""
        return first_come(self.problem)

    @cached_property
    def reckoner(self) -> optimum.Reckoner:
        """What a missing paper is worth."""
        return optimum.Reckoner(self.problem, self.fit)

    @cached_property
    def broken_now(self) -> tuple[optimum.Finding, ...]:
        """The rules that what is charged now breaks, all of it together."""
        shares, counted = values_of(self.books, self.before)
        return optimum.check(self.problem, assembled(self.problem, shares, counted))

    @cached_property
    def kept(self) -> optimum.Fit | None:
        """As good as it gets when what is charged by the rules now stays as it is."""
        return holding(self.problem, [row for rows in self.sound_rows for row in rows])

    @cached_property
    def funds(self) -> tuple[FundFit, ...]:
        """Whoever pays but the artist; offered funds only in a what-if."""
        values = {value.key: value for value in self.problem.sources}
        rows = [fund for fund in self.books.funds if not is_ours(fund)]
        return tuple(
            self.fund_fit(fund, values[str(fund.pk)])
            for fund in rows
            if values[str(fund.pk)].status is engine.Status.SIGNED
        )

    def fund_fit(self, fund: Fund, value: engine.Fund) -> FundFit:
        charged, planned = self.charged[value.key], self.planned[value.key]
        indirect = self.fit.indirect.get(value.key, 0)
        match = engine.match_of(value, self.problem.total)
        counted = [row for row in self.fit.counted if row.fund == value.key]
        asked = charged + planned + indirect
        return FundFit(
            fund=fund,
            now=sum(row.cents for row in self.books.shares if row.fund_id == fund.pk),
            sound=self.sound[value.key],
            best=charged + indirect,
            planned=planned,
            indirect=indirect,
            left=fund.award_cents - asked,
            lapses=fund.kind not in optimum.STEADY,
            match_needed=engine.match_needed(match, asked),
            match_found=sum(row.cents for row in counted),
            cash_needed=engine.cash_needed(match, asked),
            cash_found=sum(row.cents for row in counted if not row.expense.in_kind),
        )

    @property
    def gain(self) -> int:
        """Cents that the funds can pay of what is spent, above what they soundly pay now."""
        return sum(row.best - row.sound for row in self.funds)

    @property
    def lost(self) -> int:
        """Cents of the funds that are lost in the end where what is charged now stays."""
        return max(0, self.fit.used - self.kept.used) if self.kept else 0

    @cached_property
    def sound(self) -> Counter[str]:
        """Cents charged now that no rule bars by themselves, by fund."""
        found = Counter[str]()
        for row in (row for rows in self.sound_rows for row in rows):
            found[row.fund] += row.cents
        return found

    @cached_property
    def charged(self) -> Counter[str]:
        """Cents of what is spent, by fund."""
        return self.summed(forecast=False)

    @cached_property
    def planned(self) -> Counter[str]:
        """Cents of what is still to be spent, by fund."""
        return self.summed(forecast=True)

    def summed(self, *, forecast: bool) -> Counter[str]:
        found = Counter[str]()
        for share in self.fit.shares:
            found[share.fund] += share.cents if share.expense.forecast is forecast else 0
        return found

    @cached_property
    def planned_of(self) -> Mapping[str, Counter[int]]:
        """Cents by fund of each thing still to be spent."""
        found = {row.key: Counter[int]() for row in self.forecasts}
        for share in self.fit.shares:
            if share.expense.forecast:
                found[share.expense.key][int(share.fund)] += share.cents
        return found

    def obstacles(self, fund: Fund) -> list[Obstacle]:
        """Why it pays no more."""
        value = next(one for one in self.problem.sources if one.key == str(fund.pk))
        return obstacles(self.problem, self.fit, value)

    @cached_property
    def own(self) -> dict[int, int]:
        """Cents of each expense that stay on own money, of those that are spent."""
        return {int(key): cents for key, cents in self.fit.own.items() if key.isdigit() and cents}


def best(project: Project, today: date, wish: Wish | None = None) -> BestFit:
    """Read the books and what is still to be spent, and share all of it out as well as it goes.

    Raises `optimum.BestError` where no fit can be told.
    """
    wish, books = wish or Wish(), read(project)
    planned = forecasts_of(books, today) if wish.forecasts else ()
    problem = problem_of(books, wish, [forecast_value(row) for row in planned])
    sound = sound_now(books)
    fit = calmest(problem, best_fit(problem), books, sound)
    return BestFit(
        books=books,
        today=today,
        wish=wish,
        problem=problem,
        fit=fit,
        forecasts=tuple(planned),
        sound_rows=sound,
    )
