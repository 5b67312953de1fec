"""The bound holds for any prices, and is as good as the best fit."""

from hypothesis import given, settings
from hypothesis import strategies as st

from budgets.engine import Match
from budgets.engine.best import Problem, best_fit
from budgets.engine.best.bound import bound
from budgets.engine.best.classes import classify
from budgets.engine.best.lp import relax
from budgets.engine.best.rows import program_of
from tests.budgets.engine.best.books import random_books
from tests.budgets.engine.best.cases import case_b, case_c, expense, fund


@settings(deadline=None, max_examples=30, database=None, derandomize=True)
@given(st.integers(0, 10_000), st.data())
def test_any_prices_give_a_bound(seed: int, data: st.DataObject) -> None:
    problem = random_books(seed, most=12)
    program = program_of(classify(problem))
    count = len(program.limits)
    prices = data.draw(st.lists(st.floats(0, 2), min_size=count, max_size=count))
    assert bound(program, prices) >= best_fit(problem).used


def test_without_prices_the_bound_is_all_there_is() -> None:
    program = program_of(classify(case_b()))
    assert bound(program, [0.0] * len(program.limits)) == sum(
        program.upper[key] for key in program.objectives[0]
    )


def test_a_bound_in_fractions_of_a_cent_is_rounded_down() -> None:
    """Two for one of 100.01: 66.67 1/3 can be paid, so 66.67."""
    match = Match(numerator=1, denominator=2)
    nation = fund("nation", 900_00, match=match)
    program = program_of(classify(Problem(expenses=(expense("wire", 100_01),), funds=(nation,))))
    assert bound(program, relax(program).prices) == 66_67


def test_the_bound_of_a_small_commission_is_its_optimum() -> None:
    assert best_fit(case_c()).bound == 20_199_00
