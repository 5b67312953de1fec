"""Which quote to take: the date first, then a price that holds, then the price."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.choice import Offer, Why, choose, keeps_date

offers = st.lists(
    st.builds(
        Offer,
        key=st.text(max_size=3),
        price=st.integers(0, 500),
        in_hand=st.none() | st.integers(-9, 9),
        after_wanted=st.integers(-5, 5),
        expired=st.booleans(),
    ),
    min_size=1,
    max_size=6,
)
CHEAP = Offer(key="cheap", price=900, in_hand=3)
DEAR = Offer(key="dear", price=1_000, in_hand=3)


def test_nothing_is_chosen_of_nothing() -> None:
    assert choose([]) is None


def test_the_cheapest_is_taken_where_it_holds_all_that_the_others_hold() -> None:
    found = choose([DEAR, CHEAP])
    assert found and (found.best, found.why, found.dearer) == (CHEAP, Why.CHEAPEST, 0)


def test_one_quote_is_nothing_to_compare() -> None:
    found = choose([CHEAP])
    assert found and found.why == Why.ONLY


@pytest.mark.parametrize(
    ("broken", "flag"),
    [
        (Offer(key="cheap", price=900, in_hand=-1), "misses_date"),
        (Offer(key="cheap", price=900, in_hand=3, expired=True), "expired"),
        (Offer(key="cheap", price=900, in_hand=3, after_wanted=1), "comes_late"),
    ],
)
def test_a_cheaper_one_that_breaks_something_is_not_taken(broken: Offer, flag: str) -> None:
    found = choose([broken, DEAR])
    assert found and (found.best, found.why, found.cheapest) == (DEAR, Why.HOLDS, broken)
    assert found.dearer == 100
    assert getattr(found, flag)


def test_where_none_keeps_the_date_the_nearest_is_taken_whatever_it_costs() -> None:
    near, far = Offer(key="n", price=9, in_hand=-1), Offer(key="f", price=1, in_hand=-2)
    found = choose([far, near])
    assert found and (found.best, found.why) == (near, Why.CLOSEST)


def test_a_date_that_is_missed_anyway_is_no_fault_of_a_quote() -> None:
    same, worse = Offer(key="s", price=9, in_hand=-3), Offer(key="w", price=1, in_hand=-4)
    found = choose([worse, same], now=-3)
    assert found and (found.best, found.why) == (same, Why.HOLDS)
    assert keeps_date(same, -3)
    assert not keeps_date(worse, -3)


def test_days_in_hand_of_a_plan_ahead_are_not_asked_of_a_quote() -> None:
    assert keeps_date(Offer(key="", price=1, in_hand=0), now=5)


def test_of_two_at_one_price_the_one_that_leaves_more_days_is_taken() -> None:
    more = Offer(key="more", price=900, in_hand=5)
    found = choose([CHEAP, more])
    assert found and (found.best, found.why) == (more, Why.CHEAPEST)


@given(offers, st.none() | st.integers(-5, 5))
def test_nothing_that_holds_as_much_is_cheaper_than_the_choice(
    rows: list[Offer], now: int | None
) -> None:
    found = choose(rows, now)
    assert found
    best = found.best
    assert found.cheapest.price == min(row.price for row in rows)
    for row in rows:
        holds = keeps_date(row, now) and not row.expired and row.after_wanted <= 0
        assert not holds or (keeps_date(best, now) and best.price <= row.price)
