"""Deposits, balances and what is kept back: a cent is asked for once."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.money import WHOLE, NegativeMoney
from budgets.engine.retainage import BadRate, Retainage, hold_back, keep_for_list, kept_of, retain
from budgets.engine.terms import (
    Bill,
    Reason,
    Terms,
    account,
    due_payments,
    milestones,
    next_bill,
)

ORDERED, DELIVERED = date(2031, 3, 3), date(2031, 5, 1)
HALF_AND_HALF = Terms(price=7_800_00, deposit=5000, net_days=15)

rates = st.integers(0, WHOLE)
cents = st.integers(0, 10_000_000_00)
rules = st.builds(
    Retainage,
    basis_points=rates,
    stop=st.none() | rates,
    after=rates,
    release_half=st.booleans(),
)
agreed = st.builds(
    Terms,
    price=cents,
    changes=st.integers(-5_000_000_00, 5_000_000_00),
    deposit=rates,
    net_days=st.integers(0, 90),
    retainage=rules,
    release_days=st.integers(0, 90),
    left_to_do=cents,
)


def days(dues: tuple) -> list[tuple[date | None, int]]:
    return [(due.day, due.cents) for due in dues]


def test_half_is_due_with_the_order_and_half_after_the_delivery() -> None:
    found = due_payments(HALF_AND_HALF, ORDERED, DELIVERED)
    assert days(found) == [(ORDERED, 3_900_00), (date(2031, 5, 16), 3_900_00)]
    assert [due.reason for due in found] == [Reason.DEPOSIT, Reason.BALANCE]


def test_a_logged_deposit_is_not_asked_for_again() -> None:
    found = due_payments(
        HALF_AND_HALF, ORDERED, DELIVERED, [Bill(cents=3_900_00, is_deposit=True, paid=True)]
    )
    assert days(found) == [(date(2031, 5, 16), 3_900_00)]


def test_a_first_payment_that_nobody_called_a_deposit_settles_the_order_as_well() -> None:
    found = due_payments(HALF_AND_HALF, ORDERED, DELIVERED, [Bill(cents=3_900_00)])
    assert days(found) == [(date(2031, 5, 16), 3_900_00)]


def test_an_order_without_terms_is_paid_on_delivery() -> None:
    assert days(due_payments(Terms(price=100_00), ORDERED, DELIVERED)) == [(DELIVERED, 100_00)]


def test_a_day_that_is_not_known_is_left_open() -> None:
    assert days(due_payments(HALF_AND_HALF, None, None)) == [(None, 3_900_00), (None, 3_900_00)]


def test_an_approved_change_goes_on_the_balance() -> None:
    terms = Terms(price=1_000_00, changes=200_00, deposit=5000)
    assert [due.cents for due in due_payments(terms, ORDERED, DELIVERED)] == [500_00, 700_00]


def test_a_change_down_below_the_deposit_leaves_nothing_to_pay() -> None:
    terms = Terms(price=1_000_00, changes=-600_00, deposit=5000)
    logged = [Bill(cents=500_00, is_deposit=True, paid=True)]
    assert due_payments(terms, ORDERED, DELIVERED, logged) == ()
    assert account(terms, logged).over == 100_00


def test_retainage_is_kept_from_the_balance_and_paid_later() -> None:
    terms = Terms(
        price=1_000_00, deposit=5000, retainage=Retainage(basis_points=1000), release_days=30
    )
    assert days(due_payments(terms, ORDERED, DELIVERED)) == [
        (ORDERED, 500_00),
        (DELIVERED, 450_00),
        (date(2031, 5, 31), 50_00),
    ]


def test_one_and_a_half_times_what_is_left_to_put_right_stays_held() -> None:
    terms = Terms(price=1_000_00, retainage=Retainage(basis_points=1000), left_to_do=40_00)
    last = due_payments(terms, ORDERED, DELIVERED)[1:]
    assert [(due.cents, due.day is None) for due in last] == [(40_00, False), (60_00, True)]


def test_the_last_bill_pays_out_what_was_kept() -> None:
    terms = Terms(price=1_000_00, retainage=Retainage(basis_points=1000))
    first = next_bill(terms, [])
    assert first == Bill(cents=900_00, retained=100_00)
    last = next_bill(terms, [first])
    assert last == Bill(cents=100_00, retained=-100_00)
    assert next_bill(terms, [first, last]) is None


def test_a_bill_that_crosses_the_half_way_point_keeps_by_the_state_before_it() -> None:
    rule = Retainage(basis_points=500, stop=5000)
    assert kept_of(rule, 100_00, 40_00, billed=40_00, held=2_00).kept == 2_00
    assert kept_of(rule, 100_00, 40_00, billed=50_00, held=2_50).kept == 0


def test_half_of_an_odd_cent_stays_held() -> None:
    rule = Retainage(basis_points=1000, stop=5000, release_half=True)
    assert kept_of(rule, 1_50, 1_50).held == 8


def test_a_hold_back_is_rounded_up_and_leaves_the_rest_payable() -> None:
    assert hold_back(3, 1500) == (1, 2)


def test_what_stays_for_the_list_is_never_more_than_is_held() -> None:
    assert keep_for_list(1_00, 1) == 2
    assert keep_for_list(1, 1_00) == 1


def test_an_account_tells_what_is_owed_from_what_is_not_billed_yet() -> None:
    logged = [
        Bill(cents=500_00, is_deposit=True, paid=True),
        Bill(cents=180_00, retained=20_00),
    ]
    found = account(Terms(price=1_000_00), logged)
    assert (found.billed, found.paid, found.owed) == (700_00, 500_00, 180_00)
    assert (found.retained, found.to_bill, found.to_pay) == (20_00, 300_00, 500_00)


def test_a_refund_lowers_what_was_paid_and_orders_nothing_anew() -> None:
    found = account(Terms(price=1_000_00), [Bill(cents=1_000_00, paid=True, came_back=100_00)])
    assert (found.paid, found.to_bill, found.to_pay) == (900_00, 0, 0)


@pytest.mark.parametrize("rate", [-1, WHOLE + 1])
def test_a_rate_is_between_nothing_and_the_whole(rate: int) -> None:
    with pytest.raises(BadRate):
        Terms(price=1, deposit=rate)
    with pytest.raises(BadRate):
        Retainage(basis_points=rate)
    with pytest.raises(BadRate):
        Retainage(stop=rate)
    with pytest.raises(BadRate):
        Retainage(after=rate)


def test_a_price_or_a_bill_below_zero_is_refused() -> None:
    with pytest.raises(NegativeMoney):
        Terms(price=-1)
    with pytest.raises(NegativeMoney):
        kept_of(Retainage(), 100, -1)


def test_parts_that_are_not_the_whole_are_refused() -> None:
    with pytest.raises(BadRate):
        milestones(100_00, (5000, 4000))


@given(cents, st.lists(st.integers(0, 1000), min_size=1, max_size=8))
def test_milestones_add_up_to_the_price_to_the_cent(total: int, parts: list[int]) -> None:
    points = [*parts, WHOLE - sum(parts)] if sum(parts) <= WHOLE else [WHOLE]
    found = milestones(total, points)
    assert sum(found) == total
    assert all(abs(p * WHOLE - total * w) < WHOLE for p, w in zip(found, points, strict=True))


@given(agreed)
def test_what_is_due_adds_up_to_the_whole_price(terms: Terms) -> None:
    assert sum(due.cents for due in due_payments(terms, ORDERED, DELIVERED)) == terms.total


@given(agreed, st.integers(0, 3))
def test_logged_bills_and_what_is_due_add_up_to_the_price(terms: Terms, taken: int) -> None:
    """Whoever logs what is due, step by step, never pays a cent twice."""
    logged: list[Bill] = []
    for _ in range(taken):
        bill = next_bill(terms, logged)
        if bill is None:
            break
        logged.append(bill)
    due = due_payments(terms, ORDERED, DELIVERED, logged)
    assert sum(row.cents for row in due) + sum(bill.cents for bill in logged) == terms.total
    found = account(terms, logged)
    assert found.paid + found.to_pay == terms.total


@given(rules, st.lists(st.integers(0, 1_000_00), max_size=8))
def test_what_is_held_is_never_below_zero_nor_above_what_was_billed(
    rule: Retainage, bills: list[int]
) -> None:
    found = retain(rule, sum(bills), bills)
    billed = 0
    for row in found:
        billed += row.bill
        assert 0 <= row.held <= billed
    assert sum(row.kept for row in found) == (found[-1].held if found else 0)
    assert sum(row.payable for row in found) + sum(row.kept for row in found) == sum(bills)
