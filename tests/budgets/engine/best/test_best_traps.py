"""Mistakes that lose or overstate money when expenses are shared out, each with its number."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from budgets.engine import Expense, Fund, Match, Status, rule_from
from budgets.engine.best import Fit, Policy, Problem, best_fit, check
from tests.budgets.engine.best.cases import DAY, expense, fund, gift, never, only, two_papers


def solved(expenses: tuple[Expense, ...], *funds: Fund, **given: Any) -> Fit:
    problem = Problem(expenses=expenses, funds=funds, **given)
    fit = best_fit(problem)
    assert not check(problem, fit)
    return fit


def test_in_kind_is_not_counted_as_cash() -> None:
    """One to one, half of the match in cash: gifts of 1,000 and 200 of cash carry 400."""
    board = fund(
        "board", 1000_00, only("materials", "install"), match=Match(cash_basis_points=5000)
    )
    fit = solved((expense("steel", 600_00), gift("hours", 1000_00)), board)
    assert (fit.used, fit.own_total) == (400_00, 200_00)
    assert sum(row.cents for row in fit.counted if row.payer == "" and not row.expense.in_kind) >= (
        200_00
    )


def test_in_kind_pays_no_bill_and_never_lapses() -> None:
    pool = fund("gifts", 1000_00, gifts=True)
    fit = solved((expense("steel", 600_00), gift("hours", 400_00)), pool, fund("flex", 2000_00))
    assert (fit.used, fit.lapse) == (600_00, {"flex": 1400_00})
    assert {row.expense.key for row in fit.shares} == {"steel"}


def test_a_federal_regrant_is_no_match_for_a_federal_award() -> None:
    nation = fund("nation", 500_00, only("materials"), federal=True, match=Match())
    bills = (expense("steel", 500_00), expense("lamps", 500_00, "lighting"))
    regrant = fund("regrant", 500_00, only("lighting"), federal=True)
    wide = replace(nation, rules=())
    assert solved(bills, wide, regrant).used == 750_00  # 250 own for 250, then the regrant's 500
    assert solved(bills, wide, replace(regrant, federal=False)).used == 1000_00


def test_the_same_cent_is_match_once_for_all_federal_awards() -> None:
    own = Match(payers=frozenset({"own"}))
    funds = [fund(name, 500_00, federal=True, match=own) for name in ("nation", "coast")]
    bills = (expense("steel", 600_00), gift("hours", 300_00))
    assert solved(bills, *funds).used == 450_00
    other = replace(funds[1], federal=False)
    assert solved(bills, funds[0], other).used == 600_00
    strict = Policy(strict_pools=True)
    assert solved(bills, funds[0], other, policy=strict).used == 450_00


def test_match_falls_when_the_claim_falls() -> None:
    """What is counted follows what is charged, and is no more than that."""
    fit = solved(
        (expense("steel", 300_00), gift("hours", 900_00)), fund("f", 900_00, match=Match())
    )
    assert (fit.used, sum(row.cents for row in fit.counted)) == (300_00, 300_00)


def test_a_percent_cap_on_what_is_claimed_moves_with_the_claim() -> None:
    """15 % for administration: 1,000 of it needs 5,666.67 of other costs."""
    cap = rule_from("category_claimed_cap", {"categories": ["admin"], "basis_points": 1500})
    bills = (expense("office", 1000_00, "admin"), expense("steel", 1700_00))
    fit = solved(bills, fund("flex", 9000_00, cap))
    assert (fit.used, fit.own["office"]) == (2000_00, 700_00)
    more = (bills[0], expense("steel", 5666_66))
    assert solved(more, fund("flex", 9000_00, cap)).own["office"] == 1
    assert solved((bills[0], expense("steel", 5666_67)), fund("flex", 9000_00, cap)).own_total == 0


def test_the_cliff_of_a_match_that_grows_with_the_project() -> None:
    """Wisconsin Coastal Management: half up to 60,000 in all, 60 % above; 60,000 against 60,001."""
    tiers = [[60_000_00, 5000], [None, 6000]]
    coast = fund("coast", 90_000_00, rule_from("tiered_match", {"tiers": tiers}))
    assert solved((expense("pier", 60_000_00),), coast).used == 30_000_00
    assert solved((expense("pier", 60_001_00),), coast).used == 24_000_40


def test_a_partners_part_bears_overhead_once_for_each_partner() -> None:
    """Two partners at 60,000 with a cap of 50,000 each: 15 % of 100,000, not of 50,000."""
    rate = {"basis_points": 1500, "partner_cents": 50_000_00}
    rule = rule_from("indirect_rate", rate)
    bills = tuple(expense(name, 60_000_00, partner=name) for name in ("Fold", "Quarry Lane"))
    fit = solved(bills, fund("nation", 500_000_00, rule))
    assert (fit.indirect["nation"], fit.used) == (15_000_00, 135_000_00)


def test_the_partners_cap_holds_over_all_years() -> None:
    """10,000, 11,000 and 9,000 in three years, cap 25,000: the third year adds 4,000."""
    rule = rule_from("indirect_rate", {"basis_points": 1000, "partner_cents": 25_000_00})
    years = [(10_000_00, 2031), (11_000_00, 2032), (9_000_00, 2033)]
    bills = tuple(
        expense(str(year), cents, day=date(year, 3, 3), partner="Fold") for cents, year in years
    )
    assert solved(bills, fund("nation", 500_000_00, rule)).indirect["nation"] == 2500_00


def test_overhead_stays_inside_the_award() -> None:
    """20,000 + a partner's 60,000 + equipment 12,000 at 15 %: 92,000 direct, 10,500 overhead."""
    rule = rule_from(
        "indirect_rate",
        {"basis_points": 1500, "excluded": ["equipment"], "partner_cents": 50_000_00},
    )
    bills = (
        expense("steel", 20_000_00),
        expense("Fold", 60_000_00, partner="Fold"),
        expense("kiln", 12_000_00, "equipment"),
    )
    assert solved(bills, fund("nation", 200_000_00, rule)).used == 102_500_00
    assert solved(bills, fund("nation", 100_000_00, rule)).used == 100_000_00


def test_a_cost_in_the_period_but_paid_too_late_is_own_money() -> None:
    last = rule_from("paid_by", {"on": date(2032, 4, 28)})
    bills = tuple(
        expense(day.isoformat(), 100_00, paid=day) for day in (date(2032, 4, 28), date(2032, 4, 29))
    )
    fit = solved(bills, fund("nation", 500_00, last))
    assert [row.expense.key for row in fit.shares] == ["2032-04-28"]


def test_a_missing_paper_bars_the_charge_and_the_match() -> None:
    bare = expense("bolts", 300_00, papers=frozenset({"receipt"}))
    nation = fund("nation", 500_00, two_papers(), match=Match())
    assert solved((bare, expense("steel", 300_00)), nation).used == 150_00


def test_an_offer_pays_only_in_a_what_if() -> None:
    offer = fund("board", 500_00, status=Status.OFFERED)
    bills = (expense("steel", 300_00),)
    assert solved(bills, offer).used == 0
    assert solved(bills, offer, policy=Policy(include_offered=True)).used == 300_00


def test_what_is_above_a_rate_is_own_money_and_two_ceilings_add_up() -> None:
    """100 miles at 80 cents; one fund pays 72.5 cents a mile, another 5."""
    trip = expense("trip", 80_00, "transport", units=100_00, unit="mile")
    first = fund("nation", 500_00, rule_from("rate_ceiling", {"unit": "mile", "mills": 725}))
    second = fund("board", 500_00, rule_from("rate_ceiling", {"unit": "mile", "mills": 50}))
    assert solved((trip,), first).own == {"trip": 7_50}
    assert solved((trip,), first, second).own == {"trip": 2_50}


def test_a_fee_pays_only_what_no_grant_can() -> None:
    fee = fund("fee", 5000_00, kind="fee")
    grant = fund("grant", 300_00, only("lighting"))
    fit = solved((expense("lamps", 300_00, "lighting"), expense("steel", 500_00)), fee, grant)
    assert (fit.used, fit.steady, fit.lapse) == (300_00, 500_00, {"grant": 0})


def test_own_money_among_the_funds_pays_nothing_here() -> None:
    fit = solved((expense("steel", 500_00),), fund("mine", 900_00, kind="own"))
    assert (fit.shares, fit.own_total) == ((), 500_00)


def test_narrow_and_early_money_goes_first() -> None:
    lamp = (expense("lamps", 300_00, "lighting"), expense("steel", 100_00))
    wide = fund("wide", 400_00, period_end=date(2031, 9, 30))
    narrow = fund("narrow", 300_00, only("lighting"), period_end=date(2032, 9, 30))
    assert solved(lamp[:1], wide, narrow).charged == {"narrow": 300_00}
    late = fund("late", 400_00, period_end=date(2031, 12, 31))
    assert solved(lamp[1:], late, wide).charged == {"wide": 100_00}


def test_planned_bills_take_part_so_that_todays_choice_does_not_spoil_them() -> None:
    """Freezing the best of what is spent loses what is still to come."""
    plan = expense("canopy", 500_00, "lighting", forecast=True, papers=frozenset())
    lamps = expense("lamps", 500_00, "lighting")
    funds = (fund("flex", 500_00, never("lighting")), fund("lights", 1000_00, only("lighting")))
    assert solved((lamps, plan), *funds).used == 1000_00
    without = solved((lamps, plan), *funds, policy=Policy(include_forecast=False))
    assert (without.used, set(without.own)) == (500_00, {"lamps"})


def test_what_is_spent_is_paid_before_what_is_planned() -> None:
    """Of two alike, the bill that is here goes first: the money comes with the next claim."""
    plan = expense("a canopy", 500_00, forecast=True)
    fit = solved((plan, expense("b steel", 500_00)), fund("flex", 600_00))
    assert {row.expense.key: row.cents for row in fit.shares} == {
        "a canopy": 100_00,
        "b steel": 500_00,
    }


def test_no_bill_is_split_when_all_stay_whole() -> None:
    bills = (expense("a", 300_00), expense("b", 400_00), expense("c", 500_00))
    whole = Policy(whole_expenses=True)
    assert solved(bills, fund("flex", 800_00), policy=whole).charged == {"flex": 800_00}
    assert solved(bills, fund("flex", 850_00), policy=whole).used == 800_00
    assert solved(bills, fund("flex", 850_00)).used == 850_00


def test_no_line_is_below_a_dollar_and_nothing_is_lost_by_it() -> None:
    bills = (expense("a", 300_00), expense("b", 200_02))
    funds = (fund("flex", 300_02), fund("rest", 200_00))
    dollar = Policy(minimum_charge=1_00)
    fit = solved(bills, *funds, policy=dollar)
    assert all(share.cents >= 1_00 for share in fit.shares)
    assert (fit.used, fit.crumbs, fit.own_total) == (500_02, 0, 0)


def test_two_cents_that_fit_nowhere_are_left_out_and_told() -> None:
    bills = (expense("a", 300_00), expense("lamps", 200_00, "lighting"))
    funds = (fund("flex", 300_02), fund("rest", 199_98, only("lighting")))
    assert solved(bills, *funds).used == 500_00
    fit = solved(bills, *funds, policy=Policy(minimum_charge=1_00))
    assert (fit.used, fit.crumbs, fit.gap) == (499_98, 2, 2)
    assert fit.own["lamps"] == 2


@pytest.mark.parametrize("days", [0, 1])
def test_a_cap_that_starts_on_a_day_counts_from_that_day(days: int) -> None:
    cap = rule_from(
        "category_cap",
        {"categories": ["materials"], "cents": 100_00},
        starts_on=date(2031, 3, 3 + days),
    )
    fit = solved((expense("steel", 300_00, day=DAY),), fund("flex", 900_00, cap))
    assert fit.used == (300_00 if days else 100_00)


@pytest.mark.parametrize(("day", "used"), [(3, 100_00), (4, 300_00)])
def test_a_cap_that_ends_on_a_day_still_counts_it(day: int, used: int) -> None:
    given = {"categories": ["materials"], "cents": 100_00}
    cap = rule_from("category_cap", given, ends_on=date(2031, 3, 3))
    other = expense("wire", 1_00, day=date(2031, 3, 7 - day))
    fit = solved((other, expense("steel", 300_00, day=date(2031, 3, day))), fund("f", 900_00, cap))
    assert fit.charged == {"f": used + 1_00}


def test_overhead_that_is_claimed_is_not_paid_again() -> None:
    """10 % of 500 is 50: 20 of it are claimed already, 30 are left."""
    rule = rule_from("indirect_rate", {"basis_points": 1000})
    bills = (expense("steel", 500_00),)
    flex = fund("flex", 900_00, rule)
    fit = solved(bills, flex, locked_indirect={"flex": 20_00})
    assert (fit.indirect, fit.used, fit.gap) == ({"flex": 50_00}, 550_00, 0)
    tight = solved(bills, fund("flex", 510_00, rule), locked_indirect={"flex": 20_00})
    assert (tight.indirect, tight.own_total) == ({"flex": 20_00}, 10_00)
    cap = rule_from("category_cap", {"categories": ["materials"], "cents": 200_00})
    capped = solved(bills, fund("flex", 900_00, rule, cap), locked_indirect={"flex": 20_00})
    assert (capped.indirect, capped.used) == ({"flex": 20_00}, 220_00)


def test_a_trip_that_stays_whole_has_one_payer_whatever_their_rates() -> None:
    """80 for 100 miles: 60 cents a mile from one fund, 20 from another; not from both."""
    trip = expense("trip", 80_00, "transport", units=100_00, unit="mile")
    first = fund("nation", 500_00, rule_from("rate_ceiling", {"unit": "mile", "mills": 600}))
    second = fund("board", 500_00, rule_from("rate_ceiling", {"unit": "mile", "mills": 200}))
    fit = solved((trip,), first, second, policy=Policy(whole_expenses=True))
    assert (fit.charged, fit.own_total) == ({"nation": 60_00}, 20_00)
    assert solved((trip,), first, second).own_total == 0
