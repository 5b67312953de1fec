"""What a missing paper is worth, for one expense after the other."""

from functools import cached_property

from budgets.engine.best.answer import most_used
from budgets.engine.best.classes import Classes, classify
from budgets.engine.best.problem import STEADY, Fit, Problem
from budgets.engine.best.worth import expense_of
from budgets.engine.limits import indirect_of
from budgets.engine.model import Expense


class Reckoner:
    """Answers as `worth` does; what the expenses share is sorted once.

    >>> from dataclasses import replace
    >>> from datetime import date
    >>> from budgets.engine import Fund, rule_from
    >>> from budgets.engine.best import best_fit
    >>> rule = rule_from("papers_needed", {"papers": ["receipt"]})
    >>> steel = Expense(key="steel", amount=900_00, day=date(2031, 3, 3), category="materials")
    >>> ward = Fund(key="ward", name="Ward fund", award=500_00, rules=(rule,))
    >>> problem = Problem(expenses=(steel,), funds=(ward,))
    >>> reckoner = Reckoner(problem, best_fit(problem))
    >>> reckoner.worth(replace(steel, papers=frozenset({"receipt"})))
    50000
    """

    def __init__(self, problem: Problem, fit: Fit) -> None:
        self.problem, self.fit = problem, fit

    def worth(self, mended: Expense) -> int:
        """Cents that the funds would pay more, of an expense with other papers, quotes or reason.

        Raises Unknown for a key that is not among the expenses.
        """
        expense_of(self.problem, mended.key)
        if self.most == 0:
            return 0
        used = most_used(self.classes.with_mended(mended))
        return used - self.fit.used - self.fit.crumbs

    @cached_property
    def classes(self) -> Classes:
        return classify(self.problem)

    @cached_property
    def most(self) -> int | None:
        """No paper is worth more, in cents: the funds have no more left, or no bill is left to pay.

        None where an award has no end and overhead comes on top of the bills.
        """
        lapsing = [fund for fund in self.problem.sources if fund.kind not in STEADY]
        bills = None if any(map(indirect_of, lapsing)) else self.fit.own_total + self.fit.steady
        ends = all(fund.award is not None for fund in lapsing)
        left = sum(max(0, cents) for cents in self.fit.lapse.values()) if ends else None
        return min((most for most in (bills, left) if most is not None), default=None)
