"""Exact parts of money, against exact fractions."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import largest_remainder, share_ceil, share_floor, share_half_up
from budgets.engine.money import MoneyError, NegativeMoney, NoWeights

totals = st.integers(0, 10**9)
weight_lists = st.lists(st.integers(0, 10**6), min_size=1, max_size=12).filter(any)
cents = st.integers(0, 10**11)
rates = st.integers(0, 10_000)


def test_the_seats_of_the_1792_apportionment_bill() -> None:
    """Census of 1790, 120 seats, Hamilton's method; Balinski and Young, "Fair Representation".

    Figures from memory of that book: weaker than a row of the published fixtures.
    """
    people = [630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236]
    people += [179570, 141822, 85533, 70835, 68705, 68446, 55540]
    seats = (21, 16, 14, 12, 11, 9, 8, 7, 6, 5, 3, 2, 2, 2, 2)
    assert largest_remainder(120, people) == seats


def test_a_tie_goes_to_the_earlier_line() -> None:
    assert largest_remainder(1, (5, 5)) == (1, 0)
    assert largest_remainder(100, (1, 1, 1)) == (34, 33, 33)


def test_a_refund_is_split_like_the_charge() -> None:
    assert largest_remainder(-100, (1, 1, 1)) == (-34, -33, -33)


def test_nothing_to_split_needs_no_weight() -> None:
    assert largest_remainder(0, (0, 0)) == (0, 0)
    assert largest_remainder(0, ()) == ()


@pytest.mark.parametrize("weights", [(), (0, 0), (2, -1)])
def test_money_without_a_weight_is_refused(weights: tuple[int, ...]) -> None:
    with pytest.raises(NoWeights) as caught:
        largest_remainder(100, weights)
    assert caught.value.weights == weights


@given(total=totals, weights=weight_lists)
def test_every_cent_is_given_out_once(total: int, weights: list[int]) -> None:
    assert sum(largest_remainder(total, weights)) == total


@given(total=totals, weights=weight_lists)
def test_each_part_is_within_a_cent_of_its_exact_share(total: int, weights: list[int]) -> None:
    for part, weight in zip(largest_remainder(total, weights), weights, strict=True):
        assert abs(part - Fraction(total * weight, sum(weights))) < 1


@given(total=totals, weights=weight_lists)
def test_no_weight_no_money(total: int, weights: list[int]) -> None:
    parts = largest_remainder(total, weights)
    assert all(part == 0 for part, weight in zip(parts, weights, strict=True) if weight == 0)


@given(total=totals, weights=weight_lists, data=st.data())
def test_a_heavier_line_never_gets_less(
    total: int, weights: list[int], data: st.DataObject
) -> None:
    parts = largest_remainder(total, weights)
    a, b = (data.draw(st.integers(0, len(weights) - 1)) for _ in range(2))
    if weights[a] > weights[b]:
        assert parts[a] >= parts[b]


@given(total=totals, weights=st.lists(st.integers(0, 10**6), min_size=1, unique=True).filter(any))
def test_the_order_of_lines_is_irrelevant_without_ties(total: int, weights: list[int]) -> None:
    whole = sum(weights)
    if len({total * weight % whole for weight in weights}) == len(weights):
        backwards = largest_remainder(total, weights[::-1])
        assert backwards[::-1] == largest_remainder(total, weights)


@given(amount=cents, rate=rates)
def test_a_cap_is_rounded_down_and_a_requirement_up(amount: int, rate: int) -> None:
    exact = Fraction(amount * rate, 10_000)
    assert exact - 1 < share_floor(amount, rate) <= exact <= share_ceil(amount, rate) < exact + 1


@given(amount=cents, rate=rates)
def test_a_tax_is_rounded_half_up(amount: int, rate: int) -> None:
    error = share_half_up(amount, rate) - Fraction(amount * rate, 10_000)
    assert Fraction(-1, 2) < error <= Fraction(1, 2)


def test_half_a_cent_goes_up_and_not_to_even() -> None:
    assert share_half_up(2_50, 8500) == 2_13  # 212.5


def test_an_amount_below_zero_has_no_share() -> None:
    with pytest.raises(NegativeMoney, match="It must be zero or more") as caught:
        share_floor(-1, 1500)
    assert isinstance(caught.value, MoneyError)
    assert caught.value.cents == -1
