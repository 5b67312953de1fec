"""What most people do: every expense in turn to the first fund that takes it."""

from collections import Counter
from dataclasses import replace
from enum import StrEnum

from budgets.engine.best.aims import ranks
from budgets.engine.best.answer import solve_program
from budgets.engine.best.classes import Classes, classify
from budgets.engine.best.locks import NOBODY
from budgets.engine.best.problem import Fit, Problem
from budgets.engine.best.program import Program
from budgets.engine.best.rows import program_of
from budgets.engine.best.spread import fit_of
from budgets.engine.best.terms import Asked, filter_of
from budgets.engine.model import Row, Sum

PAID = frozenset({Sum.CHARGED, Sum.OVER})


class Order(StrEnum):
    """Which fund is asked first."""

    LISTED = "listed"  # as the funds are given
    TIGHTEST = "tightest"  # the one that can pay the fewest categories
    CLOSING = "closing"  # the one whose period ends first


def first_come(problem: Problem, order: Order = Order.LISTED) -> Fit:
    """Expense after expense, as given, to the first fund that may pay it, under every cap.

    Then the best match from what is left; charges that find none are taken back. Cents; `bound` is
    what is used, since a habit proves nothing.

    >>> from budgets.engine.best import Problem
    >>> first_come(Problem(expenses=(), funds=())).used
    0
    """
    classes = classify(problem)
    program = program_of(classes)
    for key, cents in taken(problem, classes, program, order).items():
        program.upper[program.charge[key]] = cents
    solved = solve_program(problem, classes, program)
    fit = fit_of(problem, classes, program, solved.whole.values)
    return replace(fit, bound=fit.used, findings=solved.findings)


def taken(
    problem: Problem, classes: Classes, program: Program, order: Order
) -> Counter[tuple[int, int]]:
    """Cents by class and fund, as they come."""
    tills = [Till(one, classes, place) for place, one in enumerate(classes.asked)]
    bucket_of = {
        place: (number, cents)
        for number, bucket in enumerate(classes.buckets)
        for place, cents in bucket.items
    }
    places = {item.key: place for place, item in enumerate(classes.expenses)}
    asked = fund_order(problem, classes, order)
    found = Counter(dict.fromkeys(program.charge, 0))
    for key in (item.key for item in problem.expenses if item.key in places):
        place = places[key]
        number, left = bucket_of.get(place, (-1, 0))
        for fund in asked if left else ():
            if (number, fund) in program.charge:
                ceiling = classes.buckets[number].ceilings.get(fund, {}).get(place, left)
                cents = tills[fund].take(place, min(left, ceiling))
                found[number, fund] += cents
                left -= cents
    return found


def fund_order(problem: Problem, classes: Classes, order: Order) -> list[int]:
    places = {fund.key: place for place, fund in enumerate(classes.funds)}
    listed = [places[fund.key] for fund in problem.funds if fund.key in places]
    if order is Order.LISTED:
        return listed
    if order is Order.TIGHTEST:
        rank = ranks(classes)
        return sorted(listed, key=lambda place: rank[place])
    ends = [fund.period_end for fund in classes.funds]
    last = max((end for end in ends if end), default=None)
    return sorted(listed, key=lambda place: (ends[place] is None, ends[place] or last))


class Till:
    """One fund as it pays: the sums of its caps. Rows that weigh one sum against another wait."""

    def __init__(self, asked: Asked, classes: Classes, place: int) -> None:
        self.asked, self.classes = asked, classes
        self.caps = [row for row in asked.rows if is_cap(row)]
        self.sums = Counter[object]()
        for spot, payer, cents in classes.locks.pieces():
            if payer == place != NOBODY:
                self.pay(spot, cents)

    def take(self, place: int, wanted: int) -> int:
        cents = max(0, min([wanted, *(self.room(row, place) for row in self.caps)]))
        self.pay(place, cents)
        return cents

    def pay(self, place: int, cents: int) -> None:
        item = self.classes.expenses[place]
        for rule in self.asked.bits:
            if rule.lets_in(item.category, item.day):
                self.sums[rule] += cents

    def room(self, row: Row, place: int) -> int:
        item = self.classes.expenses[place]
        left, weight, free = row.most, 0, 0
        for term in (term for term in row.terms if term.of in PAID):
            rule = filter_of(term)
            beyond = self.sums[rule] - term.base
            left -= term.weight * (beyond if term.of is Sum.CHARGED else max(0, beyond))
            if rule.lets_in(item.category, item.day):
                weight += term.weight
                free = max(0, -beyond) if term.of is Sum.OVER else 0
        return free + max(0, left) // weight if weight else item.amount


def is_cap(row: Row) -> bool:
    """Whether a row only limits what is charged."""
    wanted = PAID | {Sum.INDIRECT}
    return all(term.of in wanted and term.weight > 0 for term in row.terms)
