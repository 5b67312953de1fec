"""The best fit against trying every cent, on random tiny projects."""

import pytest

from budgets.engine.best import best_fit, check, exact, first_come
from tests.budgets.engine.best.brute import Tiny, optimum
from tests.budgets.engine.best.tiny import problem_of, random_tiny


def assert_exact(tiny: Tiny) -> None:
    problem = problem_of(tiny)
    fit = best_fit(problem)
    assert (fit.used, fit.steady) == optimum(tiny)
    assert not check(problem, fit)
    assert 0 <= fit.gap <= 1


@pytest.mark.parametrize("start", range(0, 500, 50))
def test_no_way_of_paying_every_cent_uses_more(start: int) -> None:
    for seed in range(start, start + 50):
        assert_exact(random_tiny(seed))


def test_no_way_uses_more_when_a_cent_is_match_once_anywhere() -> None:
    for seed in range(1000, 1060):
        assert_exact(random_tiny(seed, strict=True))


def test_no_way_uses_more_when_own_money_may_not_be_match() -> None:
    for seed in range(2000, 2060):
        assert_exact(random_tiny(seed, own_is_match=False))


def test_no_way_uses_more_when_every_expense_stays_whole() -> None:
    for seed in range(3000, 3080):
        assert_exact(random_tiny(seed, whole=True))


@pytest.mark.parametrize("start", range(4000, 4160, 40))
def test_a_search_of_a_few_cents_around_the_vertex_finds_the_same(
    start: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(exact, "TINY", 0)
    monkeypatch.setattr(exact, "PROVABLE", 0)
    for seed in range(start, start + 40):
        assert_exact(random_tiny(seed))


def test_habit_never_uses_more_than_the_best_fit() -> None:
    for seed in range(5000, 5060):
        problem = problem_of(random_tiny(seed))
        habit = first_come(problem)
        assert habit.used <= best_fit(problem).used
        assert not check(problem, habit)
