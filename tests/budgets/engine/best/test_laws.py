"""What holds for every fit, whatever the books."""

import random
from collections import Counter
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from budgets.engine import bars, eligible, match_bars, pool_of
from budgets.engine.best import Order, best_fit, check, first_come, most
from budgets.engine.best.static import standings
from tests.budgets.engine.best.books import keys, random_books, with_locks

quiet = settings(
    deadline=None, max_examples=40, database=None, derandomize=True,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
seeds = st.integers(0, 100_000)


@quiet
@given(seeds)
def test_no_cent_is_lost_or_made(seed: int) -> None:
    problem = random_books(seed)
    fit = best_fit(problem)
    charged, match = Counter[str](), Counter[tuple[str, str, str]]()
    paid = Counter({(key, ""): cents for key, cents in fit.own.items()})
    for share in fit.shares:
        charged[share.expense.key] += share.cents
        paid[share.expense.key, share.fund] += share.cents
    pools = {fund.key: pool_of(fund) for fund in problem.funds}
    for row in fit.counted:
        match[row.expense.key, row.payer, pools[row.fund]] += row.cents
    for item in problem.expenses:
        if item.in_kind:
            paid[item.key, ""] = item.amount
            assert not charged[item.key]
        else:
            assert charged[item.key] + fit.own[item.key] == item.amount
    assert all(cents <= paid[key[:2]] for key, cents in match.items())


@quiet
@given(seeds)
def test_every_fit_keeps_every_rule_and_its_bound(seed: int) -> None:
    problem = random_books(seed)
    fit = best_fit(problem)
    assert check(problem, fit) == ()
    assert fit.gap in (0, 1)


@quiet
@given(seeds)
def test_the_order_of_the_input_changes_nothing(seed: int) -> None:
    problem = with_locks(random_books(seed), seed)
    rng = random.Random(seed)
    mixed = replace(
        problem,
        expenses=tuple(rng.sample(problem.expenses, len(problem.expenses))),
        funds=tuple(rng.sample(problem.funds, len(problem.funds))),
        locked=tuple(reversed(problem.locked)),
        locked_match=tuple(reversed(problem.locked_match)),
    )
    assert best_fit(mixed) == best_fit(problem) == best_fit(problem)


@quiet
@given(seeds)
def test_what_is_claimed_stays_and_costs_nothing_that_was_free(seed: int) -> None:
    problem = random_books(seed)
    locked = with_locks(problem, seed)
    free, fit = best_fit(problem), best_fit(locked)
    assert not fit.findings and not check(locked, fit)
    shares, match = Counter[object](), Counter[object]()
    for share in fit.shares:
        shares[share.expense.key, share.fund] += share.cents
    for row in fit.counted:
        match[row.expense.key, row.fund, row.payer] += row.cents
    for expense, source, cents, _ in keys(locked.locked):
        assert shares[expense, source] >= cents  # type: ignore[operator]
    for expense, source, cents, payer in keys(locked.locked_match):
        assert match[expense, source, payer] >= cents  # type: ignore[operator]
    assert free.used - 1 <= fit.used <= free.bound  # a part of the optimum is no obstacle to it


@quiet
@given(seeds)
def test_no_habit_uses_more(seed: int) -> None:
    problem = random_books(seed)
    best = best_fit(problem)
    for order in Order:
        habit = first_come(problem, order)
        assert check(problem, habit) == ()
        assert habit.used <= best.bound


@quiet
@given(seeds)
def test_one_step_alone_finds_as_much(seed: int) -> None:
    problem = random_books(seed)
    assert abs(most(problem) - best_fit(problem).used) <= 1


@quiet
@given(seeds)
def test_sifting_many_answers_as_each_alone(seed: int) -> None:
    problem = random_books(seed)
    expenses, funds = problem.taking_part, problem.sources
    found = standings(expenses, funds)
    for number, fund in enumerate(funds):
        for place, item in enumerate(expenses):
            open_to = not bars(fund, item) and not item.in_kind and eligible(fund, item) > 0
            assert found.charge[number] >> place & 1 == open_to
            assert found.match[number] >> place & 1 == (not match_bars(fund, item))


@quiet
@given(seeds)
def test_a_least_charge_leaves_few_crumbs_and_breaks_nothing(seed: int) -> None:
    problem = random_books(seed, minimum_charge=1_00)
    fit, exact = best_fit(problem), best_fit(random_books(seed))
    assert check(problem, fit) == ()
    assert exact.used - fit.used <= 100 * len(problem.funds) * len(problem.expenses)
    small = [share for share in fit.shares if share.cents < 1_00 <= share.expense.amount]
    before = [share for share in exact.shares if share.cents < 1_00 <= share.expense.amount]
    assert len(small) <= len(before)
