"""Claims: nothing is lost between what is charged, what is asked for and what comes."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import Match, fund_state, judge_share, match_needed
from budgets.engine.claims import (
    Amounts,
    Charged,
    OverTheAmount,
    Why,
    amounts,
    give_back,
    never_paid_back,
    sort_out,
    standing,
)
from budgets.engine.money import NegativeMoney
from tests.budgets.engine.money_builders import expense, fund, share

MARCH = date(2031, 3, 31)
days = st.none() | st.integers(-60, 60).map(lambda n: MARCH + timedelta(n))
cents = st.integers(1, 10_000_000_00)
rows = st.lists(
    st.builds(
        Charged, key=st.text("abc", min_size=1), cents=cents, paid=days, barred=st.booleans()
    ),
    max_size=12,
)
rates = st.integers(0, 10_000)


@given(rows)
def test_every_charged_cent_is_taken_or_left_with_its_reason(charged) -> None:
    found = sort_out(charged, MARCH)
    left = [row for row, _ in found.left]
    assert sorted(map(repr, [*found.taken, *left])) == sorted(map(repr, charged))
    assert found.cents + sum(row.cents for row in left) == sum(row.cents for row in charged)


@given(rows)
def test_nothing_is_taken_that_is_barred_or_not_paid_by_the_last_day(charged) -> None:
    found = sort_out(charged, MARCH)
    assert all(row.paid and row.paid <= MARCH and not row.barred for row in found.taken)
    for row, why in found.left:
        assert (why is Why.BARRED) == row.barred
        assert why is not Why.NOT_PAID or row.paid is None
        assert why is not Why.LATER or (row.paid and row.paid > MARCH)


def test_what_is_paid_on_the_last_day_is_in_the_claim() -> None:
    found = sort_out([Charged(key="paint", cents=1, paid=MARCH)], MARCH)
    assert found.cents == 1 and found.left == ()


def test_a_share_of_nothing_is_in_no_claim() -> None:
    found = sort_out([Charged(key="paint", cents=0, paid=None)], MARCH)
    assert found.taken == () and found.left == ()


@given(st.integers(-10_000, 10_000_000), st.integers(0, 10_000), st.integers(0, 9_000_000), rates)
def test_what_is_asked_is_netted_held_or_due(direct, indirect, ahead, rate) -> None:
    found = amounts(direct, indirect=indirect, ahead=ahead, held_basis_points=rate)
    assert found.asked == direct + indirect
    assert found.asked == found.netted + found.held + found.due
    assert 0 <= found.netted <= ahead and found.held >= 0
    assert found.due >= min(0, found.asked)


@given(cents, rates, st.integers(0, 5_000_000))
def test_a_final_claim_holds_nothing_and_asks_for_all_that_was_held(direct, rate, before) -> None:
    found = amounts(direct, held_basis_points=rate, held_before=before, final=True)
    assert (found.held, found.released, found.due) == (0, before, direct + before)


@given(st.lists(cents, min_size=1, max_size=6), rates, st.integers(0, 9_000_000))
def test_over_all_claims_the_whole_amount_comes_once(parts, rate, ahead) -> None:
    """Advance, claims and the hold-back at the end add up to what was charged."""
    left, held, due = ahead, 0, 0
    for place, part in enumerate(parts):
        found = amounts(
            part,
            ahead=left,
            held_basis_points=rate,
            held_before=held,
            final=place == len(parts) - 1,
        )
        left, held, due = left - found.netted, held + found.held, due + found.due
    assert due + (ahead - left) == sum(parts)


def test_the_advance_comes_off_before_the_share_that_is_held() -> None:
    """1,000.01, of it 400.00 paid ahead, a tenth held of 600.01: 60.01 held, 540.00 due."""
    found = amounts(1_000_01, ahead=400_00, held_basis_points=1000)
    assert (found.netted, found.held, found.due) == (400_00, 60_01, 540_00)


def test_a_correction_alone_lowers_what_is_due_and_holds_nothing() -> None:
    found = amounts(-50_00, ahead=400_00, held_basis_points=1000)
    assert (found.netted, found.held, found.due) == (0, 0, -50_00)


@pytest.mark.parametrize("name", ["ahead", "held_before"])
def test_no_advance_and_no_hold_back_is_below_zero(name) -> None:
    with pytest.raises(NegativeMoney):
        amounts(1, **{name: -1})


paid_by = st.dictionaries(st.sampled_from("abcde"), st.integers(0, 500_000), min_size=1)


@given(paid_by, st.data())
def test_a_refund_is_given_back_to_the_cent_and_to_nobody_more_than_he_paid(paid, data) -> None:
    refund = data.draw(st.integers(0, sum(paid.values())))
    found = give_back(refund, paid)
    assert sum(found.values()) == refund
    assert all(0 <= found[who] <= paid[who] for who in paid)
    total = sum(paid.values())
    assert all(abs(found[who] * total - refund * paid[who]) < max(total, 1) for who in paid)


def test_more_cannot_come_back_than_was_paid() -> None:
    with pytest.raises(OverTheAmount) as caught:
        give_back(101, {"board": 60, "own": 40})
    assert (caught.value.cents, caught.value.most) == (101, 100)


def test_refund_after_claim() -> None:
    """500.00 claimed, 100.00 came back, of which the board paid half: the next claim asks 50.00
    less, and both together come to what the board still pays."""
    back = give_back(100_00, {"board": 250_00, "own": 250_00})
    first, second = amounts(250_00), amounts(80_00 - back["board"])
    assert second.due == 30_00
    assert first.due + second.due == 250_00 + 80_00 - 50_00


def test_cost_in_period_but_paid_after_liquidation() -> None:
    """Bought inside the period, paid one day after the last claim: never paid back."""
    last = MARCH
    late = Charged(key="lift", cents=700_00, paid=last + timedelta(1))
    in_time = Charged(key="paint", cents=300_00, paid=last)
    unpaid = Charged(key="frame", cents=5_00, paid=None)
    assert sort_out([late, in_time], last).left == ((late, Why.LATER),)
    assert never_paid_back([late, in_time, unpaid], last) == 705_00
    assert never_paid_back([late], None) == 0


def test_a_bill_paid_after_liquidation_is_barred_by_the_fund() -> None:
    board = fund(("paid_by", {"on": MARCH.isoformat()}))
    late = expense("lift", paid=MARCH + timedelta(1))
    assert [r.code for r in judge_share(board, late, [], 1)] == ["paid_by"]
    assert judge_share(board, expense("lift", paid=MARCH), [], 1) == ()


def test_match_requirement_not_lowered_when_the_claim_falls() -> None:
    """One to one on 1,000.00; 400.00 is taken back: 600.00 of match is asked for, not 1,000.00."""
    rule, steel = Match(), expense("steel", 1000_00)
    asked = amounts(1000_00).asked + amounts(-400_00).asked
    assert match_needed(rule, asked) == 600_00
    board = fund(award=1000_00, match=rule)
    assert fund_state(board, [steel], [share(steel, asked)]).match_needed == 600_00


@given(st.lists(st.tuples(cents, st.integers(0, 100)), max_size=5), st.lists(cents, max_size=5))
def test_what_is_still_to_come_is_due_less_received(claims, received) -> None:
    made = [Amounts(direct=direct, held=held) for direct, held in claims]
    expected = sum(direct - held for direct, held in claims) - sum(received)
    assert standing(made, received) == expected
