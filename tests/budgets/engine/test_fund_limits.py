"""What depends on all that is charged together: caps of every base, the agreed budget, rows."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import BadRule, fund_state, judge_share, room, rows_of, rule_from
from tests.budgets.engine.money_builders import OPENING, expense, fund, share
from tests.budgets.engine.rows import holds, left_side

ADMIN = {"categories": ["admin"]}
POSTAGE = expense("postage", 900_00, category="admin")
STEEL = expense("steel", 5000_00)
AGREED = {"materials": 1000_00, "install": 500_00, "admin": 500_00}


def row(source, code: str, total: int = 0):  # type: ignore[no-untyped-def]
    return next(row for row in rows_of(source, project_total=total) if row.code == code)


def codes(source, item, cents: int, *so_far, **more) -> list[str]:  # type: ignore[no-untyped-def]
    return [refusal.code for refusal in judge_share(source, item, so_far, cents, **more)]


def test_the_base_of_a_share_matters() -> None:
    """A quarter of a project of 400,000 is 100,000; of an award of 300,000 it is 75,000."""
    quarter = {**ADMIN, "basis_points": 2500}
    whole = fund(("category_total_cap", quarter), award=300_000_00)
    award = fund(("category_share_cap", quarter), award=300_000_00)
    assert row(whole, "category_total_cap", 400_000_00).most == 100_000_00
    assert row(award, "category_share_cap", 400_000_00).most == 75_000_00


def test_a_cap_on_the_whole_project_judges_once_the_project_is_known() -> None:
    ward = fund(("category_total_cap", {**ADMIN, "basis_points": 1500}))
    assert codes(ward, POSTAGE, 150_01, project_total=1000_00) == ["category_total_cap"]
    assert codes(ward, POSTAGE, 150_00, project_total=1000_00) == []
    assert codes(ward, POSTAGE, 150_01) == []
    assert room(ward, POSTAGE, [], project_total=1000_00) == 150_00
    state = fund_state(ward, [POSTAGE], [share(POSTAGE, 100_00)], project_total=1000_00)
    assert [(cap.limit, cap.used) for cap in state.cap_states] == [(150_00, 100_00)]


def test_a_percent_cap_on_what_is_claimed_moves_with_the_claim() -> None:
    ward = fund(("category_claimed_cap", {**ADMIN, "basis_points": 1500}))
    limit = row(ward, "category_claimed_cap")
    assert holds(limit, [share(POSTAGE, 150_00), share(STEEL, 850_00)])
    assert not holds(limit, [share(POSTAGE, 150_00), share(STEEL, 849_99)])
    assert not holds(limit, [share(POSTAGE, 150_01), share(STEEL, 850_00)])
    assert holds(limit, [share(POSTAGE, 150_00), share(STEEL, 800_00)], indirect=50_00)


def test_a_claim_out_of_proportion_is_a_warning_and_the_impossible_a_bar() -> None:
    ward = fund(("category_claimed_cap", {**ADMIN, "basis_points": 1500}), award=1000_00)
    state = fund_state(ward, [POSTAGE], [share(POSTAGE, 100_00)])
    assert state.refusals == ()
    assert state.warnings[0].sentence == (
        "Riverside Ward improvement fund: 15 % of what is charged so far may be administration, "
        "$85.00 is too much."
    )
    assert codes(ward, POSTAGE, 150_01) == ["category_claimed_cap"]
    assert room(ward, POSTAGE, []) == 150_00


def test_a_floor_for_the_artist_is_told_and_never_stops_the_first_bill() -> None:
    board = fund(("category_floor", {"categories": ["artist_fee"], "basis_points": 3333}))
    fee = expense("fee", 500_00, category="artist_fee")
    assert codes(board, STEEL, 100_00) == []
    limit = row(board, "category_floor")
    assert holds(limit, [share(fee, 333_30), share(STEEL, 666_70)])
    assert not holds(limit, [share(fee, 333_29), share(STEEL, 666_71)])
    assert "$33.33 is missing" in fund_state(board, [], [share(STEEL, 100_00)]).warnings[0].sentence
    enough = [share(STEEL, 66_66), share(fee, 33_34)]
    assert fund_state(board, [], enough).warnings == ()


def test_caps_inside_caps() -> None:
    """Region 2 Arts Council, young artists: 600 in all, travel 100, supplies 50."""
    van, paint = expense("van", 400_00, category="transport"), expense("paint", 400_00)
    board = fund(
        ("category_cap", {"categories": ["transport"], "cents": 100_00}),
        ("category_cap", {"categories": ["materials"], "cents": 50_00}),
        ("category_cap", {"categories": ["transport", "materials"], "cents": 120_00}),
        award=600_00,
    )
    assert room(board, van, []) == 100_00
    assert room(board, paint, [share(van, 100_00)]) == 20_00
    assert [row.most for row in rows_of(board, project_total=0)] == [600_00, 100_00, 50_00, 120_00]


def agreed(basis_points: int, of: str, **more):  # type: ignore[no-untyped-def]
    rule = ("agreed_budget", {"basis_points": basis_points, "of": of})
    return fund(rule, budget=AGREED, **more)


def test_a_tenth_of_the_whole_budget_may_move() -> None:
    ward = agreed(1000, "total")
    assert room(ward, STEEL, []) == 1200_00
    assert codes(ward, STEEL, 1200_00) == []
    assert codes(ward, STEEL, 1200_01) == ["agreed_budget"]
    assert room(ward, POSTAGE, [share(STEEL, 1150_00)]) == 550_00


def test_money_for_what_was_never_agreed_uses_the_tolerance() -> None:
    ward, tea = agreed(1000, "total"), expense("tea", 500_00, category="food")
    assert room(ward, tea, []) == 200_00
    assert room(agreed(1000, "line"), tea, []) == 0
    assert not holds(row(ward, "agreed_budget"), [share(tea, 200_01)])


def test_a_tenth_of_each_line_may_move() -> None:
    ward = agreed(1000, "line")
    assert room(ward, STEEL, []) == 1100_00
    assert codes(ward, STEEL, 1100_01) == ["agreed_budget"]
    assert {cap.limit for cap in fund_state(ward, [], []).cap_states} == {1100_00, 550_00}


def test_without_an_agreed_budget_nothing_is_measured_against_it() -> None:
    ward = fund(("agreed_budget", {"basis_points": 1000}))
    assert codes(ward, STEEL, 5000_00) == []
    assert [row.code for row in rows_of(ward, project_total=0)] == ["award"]


def test_moves_are_the_sum_of_increases_not_their_balance() -> None:
    ward = agreed(1000, "total")
    fits = [share(STEEL, 1100_00), share(POSTAGE, 600_00)]
    assert holds(row(ward, "agreed_budget"), fits)
    more = [*fits, share(expense("lift", 501_00, category="install"), 500_01)]
    assert not holds(row(ward, "agreed_budget"), more)


def test_a_budget_already_broken_still_takes_what_was_agreed_elsewhere() -> None:
    lift = expense("lift", 900_00, category="install")
    assert room(agreed(0, "total"), lift, [share(STEEL, 1100_00)]) == 500_00


def test_overhead_and_direct_costs_share_the_award() -> None:
    award = row(fund(award=1000_00), "award")
    assert holds(award, [share(STEEL, 900_00)], indirect=100_00)
    assert not holds(award, [share(STEEL, 900_00)], indirect=100_01)


def test_a_row_of_a_cap_adds_up_the_days_it_is_in_force() -> None:
    cap = rule_from(
        "category_cap",
        {"categories": ["materials"], "cents": 100_00},
        starts_on=OPENING,
        ends_on=OPENING,
    )
    limit = row(replace(fund(), rules=(cap,)), "category_cap")
    before = expense("before", day=OPENING - timedelta(days=1))
    after = expense("after", day=OPENING + timedelta(days=1))
    assert left_side(limit, [share(before, 1), share(expense(), 2), share(after, 4)]) == 2


RULES = [
    ("category_cap", {"categories": ["admin", "materials"], "cents": 40}),
    ("category_share_cap", {"categories": ["materials"], "basis_points": 3333}),
    ("category_total_cap", {"categories": ["install"], "basis_points": 1250}),
    ("agreed_budget", {"basis_points": 1000, "of": "total"}),
    ("agreed_budget", {"basis_points": 1500, "of": "line"}),
]
bills = st.lists(
    st.tuples(
        st.sampled_from(["admin", "materials", "install", "food"]),
        st.integers(min_value=1, max_value=60),
    ),
    max_size=12,
)


@given(bills=bills, picks=st.sets(st.sampled_from(range(len(RULES)))))
def test_what_is_let_through_share_by_share_holds_as_rows(bills, picks) -> None:  # type: ignore[no-untyped-def]
    """Every share as large as there is room for: no row breaks, and one cent more is refused."""
    rules = [RULES[pick] for pick in sorted(picks)]
    ward = fund(*rules, award=101, budget={"admin": 20, "materials": 33, "install": 17})
    shares = []
    for number, (category, cents) in enumerate(bills):
        bill = expense(f"bill {number}", cents, category=category)
        most = room(ward, bill, shares, project_total=200)
        if most < cents:
            assert judge_share(ward, bill, shares, most + 1, project_total=200)
        if most:
            assert not judge_share(ward, bill, shares, most, project_total=200)
            shares.append(share(bill, most))
    assert all(holds(row, shares) for row in rows_of(ward, project_total=200))
    state = fund_state(ward, [], shares, project_total=200)
    assert state.refusals == ()


SENSELESS = [
    ("category_total_cap", {**ADMIN, "basis_points": 10_001}),
    ("category_claimed_cap", {**ADMIN, "basis_points": -1}),
    ("category_floor", {"basis_points": 100}),
    ("agreed_budget", {"of": "page"}),
    ("rate_ceiling", {"unit": "furlong", "mills": 1}),
    ("period_by", {"by": "hoped"}),
    ("paid_by", {"on": "14 July"}),
    ("paid_by", {}),
    ("tiered_match", {"tiers": [[6000000, 5000]]}),
    ("tiered_match", {"tiers": [[2, 5000], [1, 4000], [None, 6000]]}),
    ("grant_share", {"basis_points": 0}),
    ("total_band", {"least": 3, "most": 2}),
    ("progress_report", {"numerator": 4, "denominator": 3}),
    ("report_due", {"after": "supper"}),
    ("report_due", {"days": 1001}),
    ("retained", {"basis_points": 500, "after_basis_points": 600}),
    ("paid_back", {"months": 61}),
    ("indirect_rate", {"basis_points": 1500, "partner_cents": -1}),
]


@pytest.mark.parametrize(("code", "params"), SENSELESS, ids=lambda value: str(value)[:30])
def test_a_senseless_rule_is_refused(code: str, params: dict) -> None:  # type: ignore[type-arg]
    with pytest.raises(BadRule) as refused:
        rule_from(code, params)
    assert refused.value.rule == code


def test_days_are_read_from_their_written_form() -> None:
    back = rule_from("paid_back", {"dates": ["2031-09-01", "2031-06-01"]})
    assert back.dates == (date(2031, 9, 1), date(2031, 6, 1))  # type: ignore[attr-defined]
    assert "1 June 2031, 1 September 2031" in back.sentence()
