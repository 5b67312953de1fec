"""Overhead at a rate, how a fund pays, and what is due to it."""

from dataclasses import replace
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from budgets.engine import (
    Payment,
    claim_days,
    fund_state,
    hold_back_of,
    indirect_of,
    payment_of,
    progress_report_due,
    records_until,
    report_dates,
    retained_of,
)
from budgets.engine.paying import add_months
from budgets.engine.rules.indirect import capped_by_year
from budgets.engine.rules.reporting import progress_due
from tests.budgets.engine.money_builders import expense, fund, share

RATE = {"basis_points": 1500, "excluded": ["install"], "partner_cents": 50_000_00}


def part(key: str, partner: str, **more):  # type: ignore[no-untyped-def]
    return expense(key, 100_000_00, partner=partner, **more)


def test_a_partner_cap_is_per_partner_and_cumulative() -> None:
    """2 CFR 200.1: the first 50,000 of each partner's part, once over the whole award."""
    rate = indirect_of(fund(("indirect_rate", RATE)))
    assert rate is not None
    first, again = part("one", "Loft"), part("two", "Loft")
    other = part("three", "Shop")
    charged = [share(first, 40_000_00), share(again, 30_000_00), share(other, 60_000_00)]
    assert rate.base_of(charged) == 100_000_00
    assert capped_by_year((10_000_00, 11_000_00, 9_000_00), 25_000_00)[2] == 4_000_00


def test_what_is_excluded_bears_no_overhead_and_neither_does_a_partners_part_of_it() -> None:
    rate = indirect_of(fund(("indirect_rate", RATE)))
    lift = expense("lift", 12_000_00, category="install")
    hired = part("hire", "Loft", category="install")
    steel = expense("steel", 20_000_00)
    charged = [share(lift, 12_000_00), share(hired, 5_00), share(steel, 20_000_00)]
    assert rate is not None and rate.base_of(charged) == 20_000_00
    assert rate.most(charged) == 3_000_00


def test_300000_and_one_part_of_200000() -> None:
    """15 % with a partner's cap of 50,000: base 350,000; under the old 25,000 at 10 %: 32,500."""
    charged = [
        share(expense("own", 300_000_00), 300_000_00),
        share(part("p", "Loft"), 100_000_00),
        share(part("q", "Loft"), 100_000_00),
    ]
    new = indirect_of(fund(("indirect_rate", RATE)))
    old_rate = {"basis_points": 1000, "partner_cents": 25_000_00}
    old = indirect_of(fund(("indirect_rate", old_rate)))
    assert new is not None and (new.base_of(charged), new.most(charged)) == (350_000_00, 52_500_00)
    assert old is not None and (old.base_of(charged), old.most(charged)) == (325_000_00, 32_500_00)


def test_overhead_never_goes_over_the_award_and_is_floored() -> None:
    board = fund(("indirect_rate", {"basis_points": 1500}), award=110_00)
    bill = expense("bill", 100_00)
    assert fund_state(board, [], [share(bill, 100_00)]).indirect == 10_00
    assert fund_state(board, [], [share(bill, 33_33)]).indirect == 4_99
    assert fund_state(fund(), [], [share(bill, 33_33)]).indirect == 0


@given(st.lists(st.integers(min_value=0, max_value=90), max_size=8), st.integers(0, 200))
def test_a_partner_cap_over_years_adds_up_to_the_cap_over_all(years, cap) -> None:  # type: ignore[no-untyped-def]
    assert sum(capped_by_year(years, cap)) == min(sum(years), cap)


def test_two_thirds_means_exceeds() -> None:
    """NEA reporting requirements: 10,000 of 15,000 asks for nothing yet, 10,000.01 does."""
    assert not progress_due(15_000_00, 10_000_00)
    assert progress_due(15_000_00, 10_000_01)
    nation = fund(("progress_report", {}), award=15_000_00)
    assert not progress_report_due(nation, 10_000_00)
    assert progress_report_due(nation, 10_000_01)
    assert not progress_report_due(fund(award=15_000_00), 15_000_00)
    (warning,) = fund_state(nation, [], [], claimed=10_000_01).warnings
    assert "a progress report is due" in warning.sentence


def test_half_ahead_the_rest_paid_back_and_a_tenth_held() -> None:
    board = fund(
        ("paid_ahead", {"basis_points": 5000, "lag_days": 20}),
        ("paid_back", {"months": 3, "lag_days": 45, "smallest_cents": 500_00}),
        ("held_back", {"basis_points": 1000, "lag_days": 60}),
        ("paid_by_milestone", {}),
    )
    assert payment_of(board) == Payment(
        back=True,
        months=3,
        lag_days=45,
        smallest_cents=500_00,
        ahead_basis_points=5000,
        ahead_lag_days=20,
        milestones=True,
        held_basis_points=1000,
        held_lag_days=60,
        said=True,
    )
    assert hold_back_of(board) == 1000
    assert payment_of(fund()) == Payment()


def test_the_last_claim_is_on_the_last_day() -> None:
    start, end = date(2031, 1, 31), date(2031, 4, 30)
    monthly = Payment(back=True, months=1)
    days = [date(2031, 2, 28), date(2031, 3, 31), end]
    assert list(claim_days(monthly, start, end)) == days
    assert claim_days(Payment(back=True), start, end) == (end,)
    assert claim_days(Payment(), start, end) == ()
    assert claim_days(monthly, end, start) == ()
    given_days = Payment(back=True, dates=(start, date(2032, 1, 1)))
    assert claim_days(given_days, start, end) == (start,)


def test_a_contract_keeps_a_part_of_every_bill() -> None:
    """Hawaii Revised Statutes 103-32.1: 5 percent, none once half is done."""
    rule = retained_of(fund(("retained", {"basis_points": 500, "stop_basis_points": 5000})))
    assert rule is not None and rule.after_basis_points == 0
    assert rule.sentence().endswith("accepted; once 50 % is done, nothing.")
    assert retained_of(fund()) is None


def test_reports_are_due_by_the_day_they_hang_on() -> None:
    nation = fund(
        ("report_due", {"days": 120}),
        ("report_due", {"what": "Report to the town", "days": 45, "after": "public_date"}),
        ("report_due", {"what": "Half-way report", "on": "2027-02-01"}),
        period_end=date(2026, 12, 31),
    )
    named = [(due.what, due.on) for due in report_dates(nation, public_on=date(2026, 12, 1))]
    assert named == [
        ("Report to the town", date(2027, 1, 15)),
        ("Half-way report", date(2027, 2, 1)),
        ("Final report", date(2027, 4, 30)),
    ]
    assert len(report_dates(nation)) == 2


def test_spending_that_lags_may_lapse() -> None:
    rule = ("spend_down", {"basis_points": 5000, "on": "2031-06-30"})
    board = fund(rule, award=1000_00)
    (soon,) = fund_state(board, [], [], claimed=499_99, today=date(2031, 3, 3)).warnings
    assert "$0.01 more is to be claimed by 30 June 2031" in soon.sentence
    (late,) = fund_state(board, [], [], claimed=499_99, today=date(2031, 7, 1)).warnings
    assert "was due by 30 June 2031" in late.sentence
    assert fund_state(board, [], [], claimed=500_00).warnings == ()


def test_records_are_kept_for_the_longest_that_is_asked() -> None:
    """2 CFR 200.334: three years from the final report; some programmes ask for five."""
    nation = fund(("records_kept", {}), ("records_kept", {"years": 5}))
    assert records_until(nation, date(2027, 9, 28)) == date(2032, 9, 28)
    assert records_until(replace(nation, rules=()), date(2027, 9, 28)) is None


def test_a_month_that_has_no_such_day_gives_its_last() -> None:
    assert add_months(date(2031, 1, 31), 1) == date(2031, 2, 28)
    assert add_months(date(2031, 12, 31), 2) == date(2032, 2, 29)
    assert add_months(date(2031, 11, 30), 1) == date(2031, 12, 30)
