"""Match: its rows, who may pay it, pools, and the ways a fund may ask for it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import (
    Counted,
    Match,
    cash_needed,
    fund_state,
    judge_match,
    match_bars,
    match_found,
    match_needed,
    match_of,
    may_pay_match,
    pool_of,
    rows_of,
    rule_from,
)
from budgets.engine.rules.match import band, tiered_match
from tests.budgets.engine.money_builders import expense, fund, share
from tests.budgets.engine.rows import holds

HOURS = expense("hours", 900_00, in_kind=True)
STEEL = expense("steel", 1000_00)
CLOTH = expense("cloth", 900_00)
WISCONSIN = {"tiers": [[60_000_00, 5000], [None, 6000]]}


def counted(item, cents: int, payer: str = "") -> Counted:  # type: ignore[no-untyped-def]
    return Counted(expense=item, fund="ward", payer=payer, cents=cents)


def row(source, code: str, total: int = 0):  # type: ignore[no-untyped-def]
    return next(row for row in rows_of(source, project_total=total) if row.code == code)


def test_the_match_requirement_falls_when_the_claim_falls() -> None:
    """One to one: 400 left unspent asks for 400 less."""
    ratio = row(fund(award=1000_00, match=Match()), "match")
    assert holds(ratio, [share(STEEL, 600_00)], [counted(CLOTH, 600_00)])
    assert not holds(ratio, [share(STEEL, 600_01)], [counted(CLOTH, 600_00)])


def test_overhead_asks_for_match_too() -> None:
    ratio = row(fund(match=Match()), "match")
    found = [counted(CLOTH, 600_00)]
    assert holds(ratio, [share(STEEL, 550_00)], found, indirect=50_00)
    assert not holds(ratio, [share(STEEL, 550_00)], found, indirect=50_01)


def test_in_kind_never_fills_the_cash_part() -> None:
    board = fund(match=Match(cash_basis_points=5000))
    charged = [share(STEEL, 900_00)]
    assert holds(row(board, "match"), charged, [counted(HOURS, 900_00)])
    assert not holds(row(board, "match_cash"), charged, [counted(HOURS, 900_00)])
    assert holds(row(board, "match_cash"), charged, [counted(CLOTH, 450_00)])
    assert not holds(row(board, "match_cash"), charged, [counted(CLOTH, 449_99)])


def test_gifts_fill_no_more_than_their_part() -> None:
    quarter = row(fund(match=Match(kind_basis_points=2500)), "match_kind")
    charged = [share(STEEL, 400_00)]
    assert holds(quarter, charged, [counted(HOURS, 100_00)])
    assert not holds(quarter, charged, [counted(HOURS, 100_01)])


def test_a_fund_that_takes_no_gifts_as_match_says_so() -> None:
    board = fund(match=Match(in_kind=False))
    assert [refusal.code for refusal in match_bars(board, HOURS)] == ["match_in_kind"]
    assert match_bars(board, STEEL) == ()
    assert match_found(board, [HOURS], []) == (0, 0)


def test_a_federal_regrant_is_no_match_for_a_federal_award() -> None:
    nation = fund(key="nation", name="National arts award", federal=True, match=Match())
    regrant = fund(key="regrant", name="State regrant", federal=True)
    state = fund(key="state", name="State grant")
    assert not may_pay_match(nation, regrant)
    assert may_pay_match(nation, state) and may_pay_match(nation, None)
    local = fund(key="local", match=Match())
    assert may_pay_match(local, regrant)
    shares = [share(STEEL, 300_00, "nation"), share(STEEL, 500_00, "regrant")]
    assert match_found(nation, [STEEL], shares, funds=[nation, regrant, state]) == (200_00, 200_00)


def test_a_fund_matches_neither_itself_nor_anything_when_it_asks_for_none() -> None:
    board = fund(match=Match())
    assert not may_pay_match(board, board)
    assert not may_pay_match(fund(), None)


def test_only_the_kinds_of_money_that_the_fund_names_are_match() -> None:
    board = fund(match=Match(payers=frozenset({"own", "sponsor"})))
    assert may_pay_match(board, None)
    assert may_pay_match(board, fund(key="traders", kind="sponsor"))
    assert not may_pay_match(board, fund(key="state", kind="state"))
    others = fund(match=Match(payers=frozenset({"state"})))
    shares = [share(STEEL, 300_00, "state")]
    known = [others, fund(key="state", kind="state")]
    assert match_found(others, [STEEL, HOURS], shares, funds=known) == (1200_00, 300_00)


def test_all_federal_awards_share_one_pool() -> None:
    one, two = fund(key="1", federal=True), fund(key="2", federal=True, pool="mine")
    assert pool_of(one) == pool_of(two)
    assert pool_of(fund(key="3")) != pool_of(fund(key="4"))
    assert pool_of(fund(key="3", pool="town")) == pool_of(fund(key="4", pool="town"))


def test_a_cent_counts_once_inside_a_pool() -> None:
    board = fund(match=Match())
    assert judge_match(board, STEEL, None, 400_00, paid=1000_00, counted=600_00) == ()
    (refusal,) = judge_match(board, STEEL, None, 400_01, paid=1000_00, counted=600_00)
    assert refusal.sentence.startswith("$400.00 of it can still count")
    assert judge_match(board, STEEL, None, 0, paid=1000_00)[0].code == "counted_once"


def test_match_by_the_wrong_payer_is_refused_with_its_name() -> None:
    nation = fund(federal=True, match=Match())
    regrant = fund(key="r", name="State regrant", federal=True)
    (refusal,) = judge_match(nation, STEEL, regrant, 1, paid=1000_00)
    assert "Federal money is no match for a federal award: State regrant" in refusal.sentence
    assert judge_match(nation, HOURS, None, 900_00, paid=900_00) == ()


def test_what_is_written_down_as_match_is_what_is_found() -> None:
    board = fund(match=Match())
    rows = [counted(CLOTH, 300_00), counted(HOURS, 200_00)]
    state = fund_state(board, [CLOTH, HOURS], [share(STEEL, 500_00)], counted=rows)
    assert (state.match_found, state.cash_found) == (500_00, 300_00)


def test_the_cliff_between_60000_and_60001() -> None:
    """Wisconsin Coastal Management: half up to 60,000 in all, then 60 percent of everything."""
    tiers = rule_from("tiered_match", WISCONSIN).tiers  # type: ignore[attr-defined]
    assert tiered_match(60_000_00, tiers) == 30_000_00
    assert tiered_match(60_001_00, tiers) == 36_000_60
    coast = fund(("tiered_match", WISCONSIN))
    small, large = match_of(coast, 60_000_00), match_of(coast, 60_001_00)
    assert match_needed(small, 30_000_00) == 30_000_00
    assert match_needed(large, 24_000_40) == 36_000_60


def test_half_of_the_project_is_a_match_of_one_to_one() -> None:
    board = fund(("grant_share", {"basis_points": 5000, "cash_basis_points": 5000}))
    match = match_of(board)
    assert (match_needed(match, 1500_00), cash_needed(match, 1500_00)) == (1500_00, 750_00)
    assert [row.code for row in rows_of(board, project_total=0)] == ["award", "match", "match_cash"]
    assert fund_state(board, [], [share(STEEL, 500_00)]).match_needed == 500_00


def test_of_two_ways_to_ask_the_larger_counts() -> None:
    board = fund(("grant_share", {"basis_points": 2500}), match=Match())
    assert match_needed(match_of(board), 100_00) == 300_00


def test_a_whole_project_outside_its_band_is_told() -> None:
    nation = fund(("total_band", {"least": 2, "most": 10}), award=10_000_00)
    assert band(10_000_00, 2, 10) == (20_000_00, 100_000_00)
    low = fund_state(nation, [], [], project_total=19_999_99).warnings
    assert "expects a project of $20,000.00 to $100,000.00" in low[0].sentence
    assert fund_state(nation, [], [], project_total=100_000_01).warnings
    for inside in (20_000_00, 100_000_00, None):
        assert not fund_state(nation, [], [], project_total=inside).warnings


def test_match_shown_beyond_the_requirement_is_owed() -> None:
    nation = fund(("match_is_owed", {}), match=Match())
    charged, more = [share(STEEL, 500_00)], [counted(CLOTH, 500_01)]
    (warning,) = fund_state(nation, [CLOTH], charged, counted=more).warnings
    assert "$0.01 more than it asks for" in warning.sentence
    exact = [counted(CLOTH, 500_00)]
    assert fund_state(nation, [CLOTH], charged, counted=exact).warnings == ()


ratios = st.builds(
    Match,
    numerator=st.integers(min_value=0, max_value=9),
    denominator=st.integers(min_value=1, max_value=9),
    cash_basis_points=st.integers(min_value=0, max_value=10_000),
)
cents = st.integers(min_value=0, max_value=300)


@given(match=ratios, claim=cents, cash=cents, kind=cents)
def test_the_rows_say_what_the_rounded_requirement_says(match, claim, cash, kind) -> None:  # type: ignore[no-untyped-def]
    board = fund(match=match)
    found = [counted(CLOTH, cash), counted(HOURS, kind)]
    enough = cash + kind >= match_needed(match, claim) and cash >= cash_needed(match, claim)
    rows = [row for row in rows_of(board, project_total=0) if row.code != "award"]
    assert all(holds(row, [share(STEEL, claim)], found) for row in rows) is enough


@pytest.mark.parametrize("kind", [None, 5000])
def test_gifts_without_a_limit_have_no_row(kind) -> None:  # type: ignore[no-untyped-def]
    match = Match() if kind is None else Match(kind_basis_points=kind)
    rows = {row.code for row in rows_of(fund(match=match), project_total=0)}
    assert ("match_kind" in rows) is (kind is not None)
