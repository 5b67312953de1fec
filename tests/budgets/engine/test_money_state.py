"""What funds have left, what is unassigned, and the laws that hold for any books."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import (
    Expense,
    Fund,
    Match,
    Refusal,
    Share,
    fund_state,
    fund_states,
    judge_share,
    line_state,
    room,
    unassigned,
)
from budgets.engine.money import NegativeMoney
from tests.budgets.engine.money_builders import OPENING, expense, fund, share

STEEL = expense("steel", 1000_00)
TEA = expense("tea", 200_00, category="food")
HOURS = expense("hours", 500_00, category="community", in_kind=True)
CAPS = (
    ("category_cap", {"categories": ["materials", "food"], "cents": 700_00}),
    ("category_share_cap", {"categories": ["food"], "basis_points": 333}),
)


def test_the_shares_of_an_expense_never_exceed_it() -> None:
    (refusal,) = judge_share(fund(), STEEL, [share(STEEL, 900_00, "board")], 150_00)
    assert refusal.code == "expense"
    assert (
        refusal.sentence == "$100.00 of this expense of $1,000.00 is left, this share is $150.00."
    )


@pytest.mark.parametrize("cents", [0, -1, 10.5, True])
def test_a_share_is_whole_cents(cents: int) -> None:
    assert [refusal.code for refusal in judge_share(fund(), STEEL, [], cents)] == ["whole_cents"]


def test_an_amount_below_zero_is_no_expense_share_or_award() -> None:
    for make in (lambda: expense(cents=-1), lambda: share(STEEL, -1), lambda: fund(award=-1)):
        with pytest.raises(NegativeMoney):
            make()


def test_a_fund_shows_what_it_pays_and_has_left() -> None:
    state = fund_state(
        fund(*CAPS),
        [STEEL, TEA],
        [share(STEEL, 400_00), share(TEA, 100_00), share(STEEL, 9, "own")],
    )
    assert (state.charged, state.left, state.refusals) == (500_00, 4500_00, ())
    assert [(cap.used, cap.limit, cap.left) for cap in state.cap_states] == [
        (500_00, 700_00, 200_00),
        (100_00, 166_50, 66_50),
    ]


def test_own_money_shows_no_end() -> None:
    assert fund_state(fund(award=None), [STEEL], [share(STEEL, 400_00)]).left is None


def test_an_overdrawn_fund_is_below_zero_and_names_the_share() -> None:
    state = fund_state(fund(award=300_00), [STEEL], [share(STEEL, 400_00)])
    assert state.left == -100_00
    assert [(refusal.code, refusal.expense) for refusal in state.refusals] == [("award", "steel")]


def test_a_fund_that_closed_later_still_stands_by_what_it_paid() -> None:
    assert fund_state(fund(status="closed"), [STEEL], [share(STEEL, 400_00)]).refusals == ()


def test_one_bad_share_does_not_blame_the_good_ones() -> None:
    early = expense("early", 300_00, day=OPENING - timedelta(days=9))
    state = fund_state(
        fund(award=300_00), [early, STEEL], [share(STEEL, 50_00), share(early, 300_00)]
    )
    assert [refusal.expense for refusal in state.refusals] == ["steel"]


def test_match_is_what_others_pay_for_eligible_work() -> None:
    board = fund(("barred_categories", {"categories": ["food"]}), key="board", match=Match())
    shares = [share(STEEL, 400_00, "board"), share(STEEL, 250_00, "ward")]
    state = fund_state(board, [STEEL, TEA, HOURS], shares)
    assert (state.match_needed, state.match_found) == (400_00, 600_00 + 500_00)
    assert (state.cash_needed, state.cash_found) == (0, 600_00)


def test_a_barred_category_may_still_match_when_the_fund_says_so() -> None:
    rule = ("barred_categories", {"categories": ["food"], "match_too": False})
    assert fund_state(fund(rule, match=Match()), [TEA], []).match_found == 200_00


def test_gifts_in_kind_match_only_where_they_are_accepted() -> None:
    assert fund_state(fund(match=Match(in_kind=False)), [STEEL, HOURS], []).match_found == 1000_00


def test_an_expense_out_of_the_period_is_no_match() -> None:
    late = fund(match=Match(), period_start=OPENING + timedelta(days=1))
    assert fund_state(late, [STEEL], []).match_found == 0


def test_an_unsigned_or_closed_fund_still_counts_its_match() -> None:
    for status in ("offered", "closed"):
        assert fund_state(fund(match=Match(), status=status), [STEEL], []).match_found == 1000_00


def test_an_expense_listed_twice_is_counted_once() -> None:
    assert fund_state(fund(match=Match()), [STEEL, STEEL], []).match_found == 1000_00


def test_what_no_fund_pays_is_unassigned_and_gifts_have_no_bill() -> None:
    shares = [share(STEEL, 400_00), share(STEEL, 100_00, "board"), share(TEA, 200_00)]
    assert unassigned([STEEL, TEA, HOURS], shares) == {"steel": 500_00}


def test_a_line_has_left_what_is_neither_ordered_nor_spent() -> None:
    assert line_state(1000_00, 400_00, 250_00).left == 350_00
    assert line_state(100_00, 80_00, 40_00).left == -20_00


def test_room_is_nothing_when_a_rule_bars_the_expense() -> None:
    assert room(fund(("barred_categories", {"categories": ["food"]})), TEA, []) == 0
    assert room(fund(status="offered"), STEEL, []) == 0


# --- laws ---------------------------------------------------------------------------------------

expenses = st.lists(
    st.builds(
        Expense,
        key=st.integers(0, 30).map(str),
        amount=st.integers(1, 900_00),
        day=st.integers(0, 40).map(lambda days: OPENING - timedelta(days=days)),
        category=st.sampled_from(["materials", "food", "install"]),
        in_kind=st.booleans(),
    ),
    min_size=1,
    max_size=8,
    unique_by=lambda item: item.key,
)
funds = st.builds(
    lambda award, cap, points, key: fund(
        ("category_cap", {"categories": ["materials", "food"], "cents": cap}),
        ("category_share_cap", {"categories": ["food"], "basis_points": points}),
        award=award,
        key=key,
        match=Match(numerator=1, denominator=2),
    ),
    st.integers(0, 900_00),
    st.integers(0, 900_00),
    st.integers(0, 10_000),
    st.sampled_from(["board", "ward"]),
)
wishes = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 9), st.integers(1, 500_00)), max_size=25
)


def accept(
    sources: list[Fund], items: list[Expense], wanted: list[tuple[int, int, int]]
) -> list[Share]:
    """Shares that the judge lets through, one by one."""
    shares: list[Share] = []
    for which, item_at, cents in wanted:
        source, item = sources[which % len(sources)], items[item_at % len(items)]
        if not judge_share(source, item, shares, cents):
            shares.append(share(item, cents, source.key))
    return shares


@given(source=funds, items=expenses, wanted=wishes)
def test_caps_are_never_exceeded_when_the_judge_agrees(source, items, wanted) -> None:  # type: ignore[no-untyped-def]
    state = fund_state(source, items, accept([source], items, wanted))
    assert source.award is not None and state.charged <= source.award
    assert all(cap.used <= cap.limit for cap in state.cap_states)
    assert state.left == source.award - state.charged >= 0


@given(source=funds, items=expenses, wanted=wishes)
def test_cents_are_conserved(source, items, wanted) -> None:  # type: ignore[no-untyped-def]
    shares = accept([source, fund(key="own", award=None)], items, wanted)
    cash = [item for item in items if not item.in_kind]
    paid = sum(part.cents for part in shares if not part.expense.in_kind)
    assert paid + sum(unassigned(items, shares).values()) == sum(item.amount for item in cash)


@given(source=funds, items=expenses, wanted=wishes, data=st.data())
def test_the_order_of_the_books_is_irrelevant(source, items, wanted, data) -> None:  # type: ignore[no-untyped-def]
    shares = [share(items[b % len(items)], c, ("board", "ward")[a % 2]) for a, b, c in wanted]
    other = fund_state(
        source, data.draw(st.permutations(items)), data.draw(st.permutations(shares))
    )
    assert other == fund_state(source, items, shares)


@given(source=funds, items=expenses, wanted=wishes)
def test_room_is_the_most_that_the_judge_lets_through(source, items, wanted) -> None:  # type: ignore[no-untyped-def]
    shares = accept([source], items, wanted)
    for item in items:
        most = room(source, item, shares)
        assert most == 0 or judge_share(source, item, shares, most) == ()
        assert judge_share(source, item, shares, most + 1) != ()


@given(source=funds, items=expenses, wanted=wishes)
def test_match_needed_is_the_charge_times_the_ratio_rounded_up(source, items, wanted) -> None:  # type: ignore[no-untyped-def]
    state = fund_state(source, items, accept([source], items, wanted))
    assert 2 * state.match_needed - state.charged in (0, 1)
    assert state.match_found == sum(item.amount for item in items) - state.charged


@given(source=funds, other=funds, items=expenses, wanted=wishes)
def test_all_funds_at_once_are_judged_as_one_share_after_the_other(  # type: ignore[no-untyped-def]
    source, other, items, wanted
) -> None:
    sources = [source, other] if source.key != other.key else [source]
    shares = [
        share(items[b % len(items)], c, ("board", "ward", "own")[a % 3]) for a, b, c in wanted
    ]
    states = fund_states(sources, items, shares)
    for one in sources:
        assert states[one.key] == fund_state(one, items, shares, funds=sources)
        assert states[one.key].refusals == one_by_one(one, shares)


def one_by_one(source: Fund, shares: list[Share]) -> tuple[Refusal, ...]:
    """What the judge says to each share of a fund by day, beside those of all funds before it."""
    by_day = sorted(shares, key=lambda s: (s.expense.day, s.expense.key, s.fund, s.cents))
    return tuple(
        refusal
        for place, part in enumerate(by_day)
        if part.fund == source.key
        for refusal in judge_share(source, part.expense, by_day[:place], part.cents)
    )
