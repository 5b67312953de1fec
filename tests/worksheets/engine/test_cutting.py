"""The cut list of bars: published optima, brute force on small cases, and the traps of the saw."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine.cutting import (
    Cut,
    CuttingError,
    at_once,
    bars,
    cost,
    faults,
    fewest_different,
    lower_bound,
    problem,
    search,
    useful,
    waste,
    whole,
)
from worksheets.engine.cutting.bound import attainable
from worksheets.engine.cutting.choosing import every_cut, no_gap
from worksheets.engine.cutting.covering import covering
from worksheets.engine.cutting.part import exactly
from worksheets.engine.cutting.problem import merit
from worksheets.engine.cutting.search import by_length

# Encyclopedia article “Cutting stock problem”, paper rolls of 5600 mm (demand from memory).
ROLLS = [
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20),
    (2000, 10), (2050, 12), (2100, 14), (2140, 16), (2150, 18), (2200, 20),
]  # fmt: skip
# Lecture notes on column generation: boards of 17 m.
BOARDS = problem([(17, 1)], [(3, 25), (5, 20), (9, 15)])


def brute(given) -> int:
    """The least cost over every multiset of bars and every way to fill them: tiny cases only."""
    cuts = {pieces: given.stocks[stock].price for stock, pieces in every_cut(given)}
    seen: dict[tuple[int, ...], int] = {(0,) * len(given.demand): 0}
    for target in product(*(range(n + 1) for n in given.demand)):
        for pieces, price in cuts.items():
            before = tuple(t - pieces.count(n) for n, t in enumerate(target))
            if min(before) >= 0 and before in seen:
                seen[target] = min(seen.get(target, 10**9), seen[before] + price)
    return seen[given.demand]


@st.composite
def small_problems(draw):
    stocks = draw(st.lists(st.tuples(st.integers(20, 60), st.integers(1, 30)), min_size=1,
                           max_size=3, unique_by=lambda stock: stock[0]))  # fmt: skip
    kerf, trim = draw(st.integers(0, 3)), draw(st.integers(0, 2))
    most = max(length for length, _ in stocks) - 2 * trim
    sizes = draw(st.lists(st.integers(4, most), min_size=1, max_size=4, unique=True))
    pieces = [(size, draw(st.integers(1, 4))) for size in sizes]
    return problem(stocks, pieces, kerf=kerf, trim=trim, useful=draw(st.integers(0, 12)))


@given(case=small_problems())
@settings(max_examples=150, deadline=None)
def test_the_first_answer_holds_and_its_bound_is_true(case):
    found, best = at_once(case), brute(case)
    assert faults(case, found.plan) == []
    assert found.cost == cost(case, found.plan)
    assert found.least <= best <= found.cost


@given(case=small_problems())
@settings(max_examples=60, deadline=None)
def test_the_search_ends_with_the_least_cost_of_all_and_its_proof(case):
    found = search(case, seconds=5)
    assert faults(case, found.plan) == []
    assert found.cost == brute(case)
    assert found.proven


@given(case=small_problems())
@settings(max_examples=60, deadline=None)
def test_no_whole_plan_is_under_the_bound_of_the_linear_programme(case):
    bound = lower_bound(case, to_the_end=True)
    assert float(bound.least) <= brute(case) + 1e-6
    assert float(bound.least) == pytest.approx(bound.relaxed, rel=1e-6, abs=1e-6)
    assert attainable(case, bound.least) <= brute(case)


@given(case=small_problems(), seed=st.integers(1, 9))
@settings(max_examples=30, deadline=None)
def test_lengths_with_no_common_step_are_still_bounded_from_below(case, seed):
    """A nanometre more on every piece leaves no coarse grid that is exact."""
    big = problem(
        [(s.length * 10**7 + 7, s.price) for s in case.stocks],
        [(n * 10**7 - seed * (i + 1), d)
         for i, (n, d) in enumerate(zip(case.lengths, case.demand, strict=True))],
        kerf=case.kerf * 10**7 + 1, trim=case.trim * 10**7,
    )  # fmt: skip
    best = brute(big)
    found = search(big, seconds=5)
    assert faults(big, found.plan) == []
    assert found.least <= best <= found.cost
    assert float(lower_bound(big).least) <= best + 1e-6


@given(case=small_problems())
@settings(max_examples=40, deadline=None)
def test_the_fewest_different_cuts_cost_no_more_and_are_no_more(case):
    start = search(case, seconds=5).plan
    plan, _ = fewest_different(case, start, 5.0)
    assert faults(case, plan) == []
    assert cost(case, plan) == cost(case, start)
    assert len(plan) <= len(start)


@given(case=small_problems())
def test_pieces_saw_dust_off_cuts_and_waste_make_up_the_bars(case):
    plan = at_once(case).plan
    pieces = sum(n * d for n, d in zip(case.lengths, case.demand, strict=True))
    bought = sum(case.stocks[cut.stock].length * cut.times for cut in plan)
    assert pieces + sum(useful(case, plan)) + waste(case, plan) == bought
    assert waste(case, plan) >= 0
    assert all(rest >= case.useful for rest in useful(case, plan))


def test_the_encyclopedia_needs_73_rolls_and_10_different_cuts_not_19():
    """19 is the number of different plans with 10 cuts; it is no number of cuts."""
    given = problem([(5600, 1)], ROLLS)
    assert len(every_cut(given)) == 308
    found = search(given)
    assert (found.cost, found.least, found.proven) == (73, 73, True)
    fewest, proven = fewest_different(given, found.plan, float("inf"))
    assert (len(fewest), proven) == (10, True)
    assert faults(given, fewest) == []


def test_a_fifth_piece_fits_because_the_saw_cuts_between_pieces_and_not_after_the_last():
    inch = 0.0254
    given = problem([(whole(240 * inch), 1)], [(whole(47.9 * inch), 5)], kerf=whole(0.125 * inch))
    assert bars(at_once(given).plan) == 1
    tighter = problem(
        [(whole(240 * inch), 1)], [(whole(47.9 * inch) + 1, 5)], kerf=whole(0.125 * inch)
    )
    assert bars(at_once(tighter).plan) == 2


def test_boards_of_17_meet_the_published_bound():
    found = search(BOARDS)
    assert (found.cost, found.proven) == (19, True)
    assert float(lower_bound(BOARDS, to_the_end=True).least) == pytest.approx(18.3333, abs=1e-3)


def test_a_short_bar_is_bought_where_it_costs_less_together():
    """Timbers of 8, 10 and 12 ft (practical cutting-stock article): 8 and 12 ft, $57.84."""
    pieces = [(43125, 1), (48875, 1), (44500, 3)]
    found = search(problem([(96000, 2057), (120000, 2997), (144000, 3727)], pieces))
    assert (found.cost, found.proven) == (5784, True)
    assert sorted(cut.stock for cut in found.plan) == [0, 2]


def test_both_ends_of_a_bar_are_trimmed():
    assert bars(at_once(problem([(100, 1)], [(45, 2)], trim=5)).plan) == 1
    assert bars(at_once(problem([(100, 1)], [(45, 2)], trim=6)).plan) == 2


def test_the_cut_before_an_off_cut_is_lost_from_it():
    given = problem([(100, 1)], [(60, 1)], kerf=3, useful=37)
    assert given.rest(0, (0,)) == 37
    assert useful(given, at_once(given).plan) == [37]
    assert waste(given, at_once(given).plan) == 3


def test_an_off_cut_that_the_saw_eats_is_none():
    given = problem([(100, 1)], [(98, 1)], kerf=3)
    assert given.rest(0, (0,)) == 0


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        ((Cut(0, (0, 0)),), "2 of 3 pieces of 40 are cut"),
        ((Cut(0, (0, 0)), Cut(0, (0, 0))), "4 of 3 pieces of 40 are cut"),
        ((Cut(0, (0, 0, 0)),), "ends at 122"),
        ((Cut(1, (0, 0)), Cut(0, (0,))), "is no bar"),
        ((Cut(0, (0, 0)), Cut(0, (0,), 0)), "is no bar"),
    ],
)
def test_a_plan_with_a_fault_is_told_apart(plan, says):
    given = problem([(100, 1)], [(40, 3)], kerf=1)
    assert any(says in fault for fault in faults(given, plan))


def test_pieces_beyond_what_is_wanted_are_taken_out_of_a_plan():
    given = problem([(100, 1)], [(40, 3)])
    assert faults(given, exactly(given, [Cut(0, (0, 0), 3)])) == []


@pytest.mark.parametrize(
    ("stocks", "pieces", "says"),
    [
        ([], [(10, 1)], "no bar"),
        ([(100, 1)], [], "no piece"),
        ([(100, 1)], [(10, 0)], "no piece"),
        ([(100, 1)], [(101, 1)], "longer than every bar"),
        ([(100, 1)], [(0, 1)], "more than 0"),
        ([(100, -1)], [(10, 1)], "0 or more"),
    ],
)
def test_what_cannot_be_cut_is_refused(stocks, pieces, says):
    with pytest.raises(CuttingError, match=says):
        problem(stocks, pieces)


def test_a_bar_may_cost_nothing():
    found = search(problem([(100, 0), (200, 5)], [(90, 2), (150, 1)]), seconds=2)
    assert (found.cost, found.proven) == (5, True)


def test_a_search_stops_when_it_is_told_to():
    heard = []

    def tell(share, found):
        heard.append((share, found.cost, found.least))
        return False

    given = problem([(5600, 1)], ROLLS)
    found = search(given, tell=tell)
    assert len(heard) == 1
    assert faults(given, found.plan) == []


def test_a_search_stops_when_its_time_is_over():
    ticks = iter(range(1000))
    found = search(problem([(5600, 1)], ROLLS), seconds=3, clock=lambda: float(next(ticks)))
    assert not found.fewest
    with pytest.raises(ValueError, match="from 0 to 10 seconds"):
        search(BOARDS, seconds=11)


def test_a_search_goes_on_from_a_given_plan_and_never_returns_a_worse_one():
    given = problem([(5600, 1)], ROLLS)
    best = search(given, seconds=3).plan
    assert bars(best) < bars(at_once(given).plan)
    again = search(given, best, tell=lambda share, found: False)
    assert merit(given, again.plan) <= merit(given, best)


def test_a_given_plan_with_a_fault_is_passed_over():
    found = at_once(BOARDS, (Cut(0, (0,), 1),))
    assert faults(BOARDS, found.plan) == []


@given(
    prices=st.lists(st.integers(1, 40), min_size=1, max_size=4),
    covers=st.lists(st.integers(1, 40), min_size=4, max_size=4),
    wanted=st.integers(1, 150),
)
def test_whole_bars_cover_at_least_what_is_wanted(prices, covers, wanted):
    """Against a table of the most that can be covered at each cost."""
    given = problem([(100 + n, price) for n, price in enumerate(prices)], [(10, 1)])
    most, total = [0], 0
    while most[-1] < wanted:
        total += 1
        ways = [most[total - p] + c for p, c in zip(prices, covers, strict=False) if p <= total]
        most.append(max([most[-1], *ways]))
    assert covering(given, covers[: len(prices)], wanted) == total


def test_bars_are_whole_so_their_length_alone_can_prove_a_plan():
    given = problem([(20, 46), (24, 57), (8, 20)], [(20, 1), (23, 1)])
    assert by_length(given) == 103
    assert at_once(given).proven


@given(
    prices=st.lists(st.integers(1, 30), min_size=1, max_size=3),
    least=st.fractions(min_value=0, max_value=200),
)
def test_a_bound_is_raised_to_the_next_sum_of_prices(prices, least):
    given = problem([(100 + n, price) for n, price in enumerate(prices)], [(10, 1)])
    sums = {0}
    for price in prices:
        sums |= {s + price * n for s in sums for n in range(240 // price + 2)}
    assert attainable(given, Fraction(least)) == min(s for s in sums if s >= least)


def test_the_tie_goes_to_fewer_different_cuts_then_to_the_longer_off_cut():
    given = problem([(100, 1)], [(50, 2), (30, 2)])
    alike = (Cut(0, (0, 1), 2),)
    unlike = (Cut(0, (0, 0)), Cut(0, (1, 1)))
    assert merit(given, alike) < merit(given, unlike)


def test_the_checker_knows_that_the_far_end_is_trimmed_too():
    given = problem([(100, 1)], [(45, 2)], trim=6)
    assert faults(given, (Cut(0, (0, 0)),)) == ["Bar 1 ends at 96; it can be used to 94."]


def test_a_piece_as_long_as_its_bar_is_cut_though_no_coarse_step_shows_that_it_fits():
    given = problem([(200_000_007, 1)], [(199_999_999, 1), (39_999_998, 1)], kerf=1)
    assert bars(at_once(given).plan) == 2


def test_the_solver_is_told_to_leave_no_gap():
    """Left alone it ends within 0.01 % of the best, which over many bars is a bar’s difference."""
    from ortools.linear_solver import pywraplp

    parameters = no_gap(pywraplp)
    assert parameters.GetDoubleParam(parameters.RELATIVE_MIP_GAP) == 0
