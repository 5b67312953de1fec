"""Federal money asks for quotes by itself, by the thresholds of the day, and bars nothing."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import fit
from budgets.facts import all_of
from budgets.models import DatedFact
from budgets.selectors.quotes.advised import quotes_advised, quotes_rules
from tests.budgets.factories import expense, fund, rule, share, url

pytestmark = pytest.mark.django_db
SOURCE = "FAR 2.101, 90 FR 41872."


@pytest.fixture
def nation(project):
    return fund(project, "National endowment", award_cents=40_000_000, is_federal=True)


def advised(project, bill) -> list[str]:
    books = fit.read(project)
    return quotes_advised(books, [bill.pk], books.funds)[bill.pk]


def bought(project, source, cents, **fields):
    bill = expense(project, cents, **fields)
    share(bill, source, 1_000)
    return bill


def test_purchase_2025_09_30_against_10_01(project, nation):
    """FAR 2.101: 10,000 until 30 September 2025, 15,000 from 1 October."""
    before = bought(project, nation, 12_000_00, day=date(2025, 9, 30))
    after = bought(project, nation, 12_000_00, day=date(2025, 10, 1))
    assert advised(project, before) == [
        "National endowment is federal money: a purchase above $10,000 should have 2 quotes, "
        "this has 0 quotes. FAR 2.101, micro-purchase threshold."
    ]
    assert advised(project, after) == []


def test_the_day_of_the_order_decides(project, nation):
    bill = bought(project, nation, 12_000_00, ordered_on=date(2025, 9, 30), day=date(2025, 10, 20))
    assert advised(project, bill)


def test_quotes_are_asked_for_above_the_threshold_only(project, nation):
    assert not advised(project, bought(project, nation, 15_000_00))
    (said,) = advised(project, bought(project, nation, 15_000_01))
    assert "a purchase above $15,000 should have 2 quotes" in said and said.endswith(SOURCE)


def test_above_the_second_threshold_bids_are_asked_for(project, nation):
    (said,) = advised(project, bought(project, nation, 350_000_01))
    assert "a purchase above $350,000 should have sealed bids or proposals" in said


def test_a_rule_of_the_fund_itself_wins(project, nation):
    bill = bought(project, nation, 20_000_00)
    rule(nation, "quotes_needed", cents=5_000_00, quotes=3)
    assert advised(project, bill) == []  # it bars, and so is no advice
    nation.rules.update(params={"cents": 5_000_00, "quotes": 3, "warn_only": True})
    assert advised(project, bill) == [
        "National endowment: a purchase above $5,000 should have 3 quotes, this has 0 quotes."
    ]
    nation.rules.update(params={"cents": 90_000_00, "quotes": 3})
    assert advised(project, bill) == []


def test_a_fact_of_the_project_itself_wins_over_the_shipped_one(project, nation):
    bill = bought(project, nation, 12_000_00)
    DatedFact.objects.create(
        project=project, name="quotes_from", value="8000", valid_from=date(2031, 1, 1),
        source="The holder's policy",
    )  # fmt: skip
    assert "above $8,000" in advised(project, bill)[0]


def test_other_money_asks_for_nothing_by_itself(project):
    ward = fund(project, award_cents=40_000_000)
    assert advised(project, bought(project, ward, 20_000_00)) == []
    assert quotes_rules(ward, all_of(project), date(2031, 3, 3)) == []


def test_gifts_in_kind_need_no_quotes(project, nation):
    assert advised(project, bought(project, nation, 400_000_00, in_kind=True)) == []


def test_a_warning_bars_nothing_and_stands_on_both_pages(reader, project, nation):
    bill = bought(project, nation, 20_000_00)
    books = fit.read(project)
    assert books.refusals_of == {}
    for page in (url("expense", project, bill.pk), url("fund", project, nation.pk)):
        assert SOURCE in reader.get(page).content.decode()
    said = reader.get(url("fund", project, nation.pk)).content.decode()
    assert "As federal money: a purchase above $15,000 should have 2 quotes." in said
