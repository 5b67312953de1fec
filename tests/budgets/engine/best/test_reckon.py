"""What a missing paper is worth: the same as when everything is solved anew."""

from dataclasses import replace

import pytest

from budgets.engine import Expense, rule_from
from budgets.engine.best import Problem, Reckoner, Unknown, best_fit, mended, reckon, worth
from tests.budgets.engine.best.books import random_books, with_locks
from tests.budgets.engine.best.cases import case_c, expense, fund

ASKED = frozenset({"receipt", "payment", "letter", "timesheet"})
OVERHEAD = rule_from("indirect_rate", {"basis_points": 1000})
NEEDS = rule_from("papers_needed", {"papers": ["receipt"]})


def complete(item: Expense) -> Expense:
    return replace(item, papers=ASKED, quotes=9, reasoned=True)


def bare(problem: Problem) -> Problem:
    """Every second expense has lost its papers."""
    rows = [
        item if place % 2 else replace(item, papers=frozenset(), reasoned=False)
        for place, item in enumerate(problem.expenses)
    ]
    return replace(problem, expenses=tuple(rows))


@pytest.mark.parametrize("seed", range(12))
def test_each_paper_is_worth_what_solving_everything_anew_tells(seed: int) -> None:
    books = bare(random_books(seed, minimum_charge=1_00 * (seed % 2)))
    for problem in (books, with_locks(books, seed)):
        fit = best_fit(problem)
        reckoner = Reckoner(problem, fit)
        for item in map(complete, problem.expenses[:10]):
            told = max(0, worth(problem, fit, mended(problem, item)))
            assert max(0, reckoner.worth(item)) == told, item.key
            assert reckoner.most is None or told <= reckoner.most


def test_a_missing_proof_of_payment_is_worth_the_same_however_often_it_is_asked() -> None:
    problem = case_c()
    bolts = next(item for item in problem.expenses if item.key == "13 bolts")
    reckoner = Reckoner(problem, best_fit(problem))
    assert [reckoner.worth(complete(bolts)) for _ in range(2)] == [583_33, 583_33]


def test_a_paper_is_worth_the_overhead_where_no_award_has_an_end() -> None:
    steel = expense("steel", 100_00, papers=frozenset())
    ward = replace(fund("ward", 0, NEEDS, OVERHEAD), award=None)
    problem = Problem(expenses=(steel,), funds=(ward,))
    reckoner = Reckoner(problem, best_fit(problem))
    assert (reckoner.most, reckoner.worth(complete(steel))) == (None, 110_00)


def test_nothing_is_solved_where_every_award_is_used_up(monkeypatch: pytest.MonkeyPatch) -> None:
    steel, bolts = expense("steel", 100_00), expense("bolts", 50_00, papers=frozenset())
    problem = Problem(expenses=(steel, bolts), funds=(fund("ward", 100_00, NEEDS),))
    reckoner = Reckoner(problem, best_fit(problem))
    monkeypatch.setattr(reckon, "most_used", None)
    assert reckoner.worth(complete(bolts)) == 0


def test_what_is_worth_nothing_yet_may_free_money_that_stays_with_the_work() -> None:
    """The fee pays the bill only for want of a paper: with it, the award pays instead."""
    steel = expense("steel", 100_00, papers=frozenset())
    sources = (fund("ward", 100_00, NEEDS), fund("fee", 100_00, kind="fee"))
    problem = Problem(expenses=(steel,), funds=sources)
    reckoner = Reckoner(problem, best_fit(problem))
    assert (reckoner.most, reckoner.worth(complete(steel))) == (100_00, 100_00)


def test_an_expense_that_is_not_there_is_refused() -> None:
    with pytest.raises(Unknown):
        Reckoner(case_c(), best_fit(case_c())).worth(expense("nobody", 1_00))
