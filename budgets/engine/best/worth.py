"""What a change is worth: the problem as it would be, solved anew for the money that lapses."""

from dataclasses import replace
from datetime import date

from budgets.engine.best.answer import most_used
from budgets.engine.best.classes import classify
from budgets.engine.best.problem import BestError, Fit, Problem
from budgets.engine.model import Expense, Fund, Status

ENOUGH_QUOTES = 9


class Unknown(BestError):
    """A change of an expense or fund that is not in the problem."""

    code = "unknown_key"

    def __init__(self, key: str) -> None:
        super().__init__(f"Nothing has the key {key}.")
        self.key = key


def most(problem: Problem) -> int:
    """The most money that lapses, in cents, that can be used: the first step of the best fit.

    >>> most(Problem(expenses=(), funds=()))
    0
    """
    return most_used(classify(problem))


def worth(problem: Problem, fit: Fit, changed: Problem) -> int:
    """Cents that the funds would pay more if the problem were as changed; below zero: less.

    >>> from datetime import date
    >>> from budgets.engine.best import best_fit, with_award
    >>> steel = Expense(key="steel", amount=900_00, day=date(2031, 3, 3), category="materials")
    >>> ward = Fund(key="ward", name="Ward fund", award=500_00)
    >>> problem = Problem(expenses=(steel,), funds=(ward,))
    >>> worth(problem, best_fit(problem), with_award(problem, "ward", 1000_00))
    40000
    """
    return most(changed) - fit.used - fit.crumbs


def mended(problem: Problem, expense: Expense) -> Problem:
    """With another expense in the place of the one with the same key: its papers, day, amount."""
    expense_of(problem, expense.key)
    rows = tuple(expense if item.key == expense.key else item for item in problem.expenses)
    return replace(problem, expenses=rows)


def with_papers(problem: Problem, key: str, *papers: str) -> Problem:
    """With papers attached to an expense."""
    item = expense_of(problem, key)
    return mended(problem, replace(item, papers=item.papers | set(papers)))


def with_day(problem: Problem, key: str, day: date) -> Problem:
    """With an expense on another day: ordered, delivered and paid then as well, if it was."""
    item = expense_of(problem, key)
    days = [None if was is None else day for was in (item.ordered, item.delivered, item.paid)]
    moved = replace(item, day=day, ordered=days[0], delivered=days[1], paid=days[2])
    return mended(problem, moved)


def with_award(problem: Problem, key: str, more: int) -> Problem:
    """With an award that is so many cents larger. One without an end stays so."""
    fund = fund_of(problem, key)
    return funded(problem, replace(fund, award=None if fund.award is None else fund.award + more))


def with_signed(problem: Problem, key: str) -> Problem:
    """With the agreement of a fund signed."""
    return funded(problem, replace(fund_of(problem, key), status=Status.SIGNED))


def with_spending(problem: Problem, *expenses: Expense) -> Problem:
    """With more spent from own money, which a fund may then pay or count as match."""
    total = problem.project_total
    more = sum(item.amount for item in expenses)
    return replace(
        problem,
        expenses=(*problem.expenses, *expenses),
        project_total=None if total is None else total + more,
    )


def funded(problem: Problem, fund: Fund) -> Problem:
    funds = tuple(fund if one.key == fund.key else one for one in problem.funds)
    return replace(problem, funds=funds)


def expense_of(problem: Problem, key: str) -> Expense:
    found = next((item for item in problem.expenses if item.key == key), None)
    if found is None:
        raise Unknown(key)
    return found


def fund_of(problem: Problem, key: str) -> Fund:
    found = next((fund for fund in problem.funds if fund.key == key), None)
    if found is None:
        raise Unknown(key)
    return found
