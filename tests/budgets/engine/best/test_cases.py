"""Three small commissions: what the best fit finds, and what a habit loses."""

from collections import Counter

import pytest

from budgets.engine.best import (
    Fit,
    Order,
    Problem,
    best_fit,
    check,
    first_come,
    with_award,
    with_papers,
    with_spending,
    worth,
)
from tests.budgets.engine.best.cases import case_a, case_b, case_c, expense


def by_fund(fit: Fit) -> dict[str, int]:
    found = Counter[str]()
    for share in fit.shares:
        found[share.fund] += share.cents
    return dict(found)


def test_lamps_go_to_the_lights_fund_so_that_paint_finds_a_payer() -> None:
    fit = best_fit(case_a())
    assert [(row.expense.key, row.fund) for row in fit.shares] == [
        ("1 lamps", "lights"),
        ("2 paint", "flex"),
    ]
    assert (fit.used, fit.bound, fit.own_total) == (10_000_00, 10_000_00, 0)
    assert first_come(case_a()).used == 5000_00


def test_a_private_award_pays_the_lamps_and_is_match_for_the_federal_one() -> None:
    fit = best_fit(case_b())
    assert (fit.used, fit.own_total) == (7000_00, 2000_00)
    assert by_fund(fit) == {"lights": 3000_00, "match": 4000_00}
    assert sum(row.cents for row in fit.counted) == 4000_00
    assert {row.fund for row in fit.counted} == {"match"}
    habit = first_come(case_b())
    assert (by_fund(habit), habit.own_total) == ({"match": 4000_00}, 5000_00)


def test_a_small_commission_uses_twenty_thousand_and_habit_sixteen() -> None:
    fit = best_fit(case_c())
    assert (fit.used, fit.gap) == (20_199_00, 0)
    assert by_fund(fit) == {"city": 5500_00, "garden": 4000_00, "nation": 10_699_00}
    assert fit.lapse == {"city": 0, "garden": 0, "nation": 1301_00}
    assert fit.own == {
        **dict.fromkeys((item.key for item in case_c().expenses if not item.in_kind), 0),
        "13 bolts": 583_33,
        "16 opening": 250_00,
    }


@pytest.mark.parametrize(
    ("order", "used"),
    [(Order.LISTED, 15_900_00), (Order.TIGHTEST, 19_899_00), (Order.CLOSING, 19_899_00)],
)
def test_every_habit_loses_something_on_a_small_commission(order: Order, used: int) -> None:
    habit = first_come(case_c(), order)
    assert habit.used == used
    assert not check(case_c(), habit)


def test_a_missing_proof_of_payment_is_worth_its_whole_bill() -> None:
    problem = case_c()
    mended = with_papers(problem, "13 bolts", "payment")
    assert worth(problem, best_fit(problem), mended) == 583_33


@pytest.mark.parametrize("key", ["nation", "city", "garden"])
def test_a_larger_award_is_worth_nothing_when_bills_are_short(key: str) -> None:
    problem = case_c()
    assert worth(problem, best_fit(problem), with_award(problem, key, 1000_00)) == 0


def test_a_thousand_more_spent_is_paid_back_where_award_and_match_have_room() -> None:
    problem = case_c()
    more = with_spending(problem, expense("19 late steel", 1000_00))
    assert worth(problem, best_fit(problem), more) == 1000_00


def test_nothing_to_pay_and_nobody_to_pay_it() -> None:
    assert best_fit(Problem(expenses=(), funds=())).used == 0
    bare = best_fit(Problem(expenses=(expense("steel", 5),), funds=()))
    assert (bare.own, bare.bound) == ({"steel": 5}, 0)
