"""Mistakes that books of small commissions make, each with its number."""

from datetime import timedelta

from budgets.engine import (
    Match,
    Rounding,
    cash_needed,
    fund_state,
    judge_share,
    match_needed,
    share_floor,
)
from budgets.engine.match import total_for_share
from tests.budgets.engine.money_builders import OPENING, expense, fund, share

HOURS = expense("hours", 500_00, in_kind=True)
STEEL = expense("steel", 1000_00)


def test_truncated_match_in_an_official_sheet() -> None:
    """US DOJ match requirement text: 500,000 at 90 % is printed 55,555; a requirement is 55,556."""
    printed = total_for_share(500_000_00, 90, 100, rounding=Rounding.FLOOR, unit=100)
    assert printed == (555_555_00, 55_555_00)
    assert total_for_share(500_000_00, 90, 100, unit=100) == (555_556_00, 55_556_00)


def test_match_requirement_is_lowered_when_the_claim_falls() -> None:
    """One to one: 400 of the award left unspent takes 400 off the match."""
    board = fund(award=1000_00, match=Match())
    assert fund_state(board, [STEEL], [share(STEEL, 1000_00)]).match_needed == 1000_00
    assert fund_state(board, [STEEL], [share(STEEL, 600_00)]).match_needed == 600_00


def test_in_kind_is_not_counted_as_cash() -> None:
    board = fund(match=Match(cash_basis_points=5000))
    state = fund_state(board, [STEEL, HOURS], [share(STEEL, 1000_00)])
    assert (state.match_needed, state.match_found) == (1000_00, 500_00)
    assert (state.cash_needed, state.cash_found) == (500_00, 0)


def test_federal_regrant_is_not_match_for_federal() -> None:
    national = fund(key="national", match=Match(never_from=frozenset({"regrant"})))
    shares = [share(STEEL, 300_00, "national"), share(STEEL, 500_00, "regrant")]
    assert fund_state(national, [STEEL], shares).match_found == 200_00


def test_the_same_cent_is_not_charged_twice() -> None:
    assert judge_share(fund(), STEEL, [share(STEEL, 1000_00, "board")], 1)[0].code == "expense"


def test_the_same_cent_does_not_match_what_it_pays() -> None:
    assert fund_state(fund(match=Match()), [STEEL], [share(STEEL, 1000_00)]).match_found == 0


def test_a_percent_cap_is_floored() -> None:
    """15 % of 333.33 is 49.9995: the cap is 49.99."""
    ward = fund(
        ("category_share_cap", {"categories": ["admin"], "basis_points": 1500}), award=333_33
    )
    assert share_floor(333_33, 1500) == 49_99
    assert judge_share(ward, expense(category="admin"), [], 50_00)[0].limit == 49_99


def test_the_cash_part_of_a_match_is_ceiled_once() -> None:
    """75 % in cash of a third of 4 cents is 1 cent; taken of the ceiled 2 it would be 2."""
    third = Match(numerator=1, denominator=3, cash_basis_points=7500)
    assert match_needed(third, 4) == 2
    assert cash_needed(third, 4) == 1
    assert cash_needed(third, 5) == 2
    assert cash_needed(None, 4) == 0


def test_the_day_after_the_period_is_too_late() -> None:
    ended = fund(period_end=OPENING - timedelta(days=1))
    assert judge_share(ended, STEEL, [], 1_00)[0].code == "eligible_period"


def test_a_missing_paper_bars_the_match_too() -> None:
    board = fund(("papers_needed", {"papers": ["receipt"]}), match=Match())
    assert fund_state(board, [STEEL], []).match_found == 0


def test_an_offer_that_is_not_signed_is_no_money() -> None:
    assert judge_share(fund(status="offered"), STEEL, [], 1_00)[0].code == "not_signed"
