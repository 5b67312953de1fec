"""Who pays which cents of an expense, and why a fund may not."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.models import Share
from projects.models import LogEntry
from tests.budgets.factories import HTMX, expense, fund, pdf, rule, share, url

pytestmark = pytest.mark.django_db


def save(client, project, bill, **amounts):
    return client.post(url("share", project, bill.pk), amounts)


def part(fund) -> str:
    return f"fund_{fund.pk}"


def test_an_expense_is_split_between_two_funds_to_the_cent(partner, project):
    ward, own = fund(project), fund(project, "Own money", kind="own", award_cents=0)
    bill = expense(project, 10_001)
    save(partner, project, bill, **{part(ward): "33.34", "rest": own.pk})
    assert {s.fund_id: s.cents for s in bill.shares.all()} == {ward.pk: 3_334, own.pk: 6_667}
    assert "$33.34 from Riverside Ward improvement fund" in LogEntry.objects.first().sentence


def test_one_tap_gives_the_whole_expense_to_a_fund(partner, project):
    ward, bill = fund(project), expense(project, 20_000)
    page = partner.get(url("expense", project, bill.pk)).content.decode()
    assert f"All of it to {ward.name}" in page
    save(partner, project, bill, rest=ward.pk)
    assert bill.shares.get().cents == 20_000


def test_an_empty_amount_takes_a_share_away(partner, project):
    ward, bill = fund(project), expense(project)
    share(bill, ward, 20_000)
    save(partner, project, bill)
    assert not bill.shares.exists()


def refused(client, project, bill, ward, amount="200") -> str:
    answer = save(client, project, bill, **{part(ward): amount})
    assert answer.status_code == 422
    assert not Share.objects.filter(expense=bill).exists()
    page = answer.content.decode()
    assert f'value="{amount}"' in page
    return page


def test_shares_above_the_expense_are_refused(partner, project):
    page = refused(partner, project, expense(project, 19_999), fund(project))
    assert "The shares come to $0.01 more than the expense of $199.99" in page


def test_a_share_above_the_fund_is_refused_with_what_is_left(partner, project):
    page = refused(partner, project, expense(project), fund(project, award_cents=15_000))
    assert "pays at most $150.00 in all: $150.00 of it is left, this share is $200.00." in page


RULES = {
    "allowed_categories": ({"categories": ["install"]}, "pays only for installation"),
    "barred_categories": ({"categories": ["materials"]}, "does not pay for materials"),
    "category_cap": (
        {"categories": ["materials"], "cents": 9_000},
        "pays at most $90.00 for materials: $90.00 of it is left, this share is $200.00.",
    ),
    "category_share_cap": (
        {"categories": ["materials"], "basis_points": 150},
        "pays at most 1.5 % for materials: $150.00 of it is left, this share is $200.00.",
    ),
    "papers_needed": ({"papers": ["receipt"]}, "needs a paper that this expense lacks: receipt"),
}


@pytest.mark.parametrize("code", RULES)
def test_each_rule_that_bars_a_share_says_so_beside_it(partner, project, code):
    numbers, sentence = RULES[code]
    ward = fund(project, award_cents=1_000_000)
    rule(ward, code, **numbers)
    page = refused(partner, project, expense(project), ward)
    assert sentence in page
    assert "Rule: " in page and url("fund", project, ward.pk) in page
    assert 'aria-invalid="true"' in page


def test_a_gift_in_kind_is_not_charged_to_a_fund_that_pays_cash_only(partner, project):
    ward = fund(project)
    rule(ward, "cash_only")
    page = refused(partner, project, expense(project, in_kind=True), ward)
    assert "pays cash costs only: this expense is a gift in kind" in page


def test_an_expense_outside_the_period_names_both_days(partner, project):
    ward = fund(project, period_end=date(2031, 2, 28))
    page = refused(partner, project, expense(project, day=date(2031, 3, 1)), ward)
    assert "ends on 28 February 2031: this expense is dated 1 March 2031" in page


@pytest.mark.parametrize(
    ("status", "sentence"),
    [
        ("applied", "is only applied for: it can pay once its agreement is signed"),
        ("offered", "is only offered: it can pay once its agreement is signed"),
        ("closed", "is closed: nothing more can be charged to it"),
    ],
)
def test_a_fund_that_is_not_signed_cannot_pay(partner, project, status, sentence):
    ward, bill = fund(project, status=status), expense(project)
    assert sentence in refused(partner, project, bill, ward)
    page = partner.get(url("expense", project, bill.pk)).content.decode()
    assert sentence in page and f'name="{part(ward)}"' not in page


def test_a_letter_in_an_amount_is_named_and_kept(partner, project):
    page = refused(partner, project, expense(project), fund(project), "1,2O0")
    assert "where a digit should be" in page and "1,200 if that is what you mean" in page


def test_two_funds_are_judged_beside_what_each_already_pays(partner, project):
    ward = fund(project, award_cents=30_000)
    share(expense(project, 25_000), ward, 25_000)
    answer = save(partner, project, expense(project), **{part(ward): "50.01", "rest": "later"})
    assert "$50.00 of it is left, this share is $50.01" in answer.content.decode()


def test_a_share_of_a_fund_that_closed_later_may_stay(partner, project):
    ward, own = fund(project), fund(project, "Own money", kind="own", award_cents=0)
    bill = expense(project)
    share(bill, ward, 5_000)
    ward.status = "closed"
    ward.save()
    save(partner, project, bill, **{part(ward): "50", part(own): "150"})
    assert sorted(s.cents for s in bill.shares.all()) == [5_000, 15_000]


def test_what_a_fund_still_has_changes_at_once(partner, project):
    ward, bill = fund(project, award_cents=50_000), expense(project)
    amounts = {part(ward): "120", "rest": "later"}
    answer = partner.post(url("share", project, bill.pk), amounts, headers=HTMX)
    page = answer.content.decode()
    assert page.lstrip().startswith('<div id="sheet"') and "<html" not in page
    assert "$380 left" in page and "$80 has no fund yet" in page


def test_why_not_names_each_fund_and_its_reason(reader, project):
    rule(fund(project), "barred_categories", categories=["food"])
    fund(project, "Mill Lane Traders sponsorship", award_cents=100_000)
    page = reader.get(url("expense", project, expense(project, category="food").pk))
    words = page.content.decode()
    assert "Why not this fund?" in words
    assert "Riverside Ward improvement fund does not pay for food and hospitality." in words
    assert "up to $200 of this expense" in words


def test_a_reader_sees_who_pays_and_no_form(reader, project):
    ward, bill = fund(project), expense(project)
    share(bill, ward, 12_345)
    page = reader.get(url("expense", project, bill.pk)).content.decode()
    assert "$123.45" in page and f'name="{part(ward)}"' not in page
    assert "Save who pays" not in page


def test_a_paper_opens_the_fund_that_asked_for_it(partner, project):
    ward, bill = fund(project), expense(project)
    rule(ward, "papers_needed", papers=["receipt"])
    refused(partner, project, bill, ward)
    partner.post(url("paper-add", project, bill.pk), {"file": pdf(), "kind": "receipt"})
    assert save(partner, project, bill, rest=ward.pk).status_code == 302
    assert bill.shares.get().cents == 20_000


def test_the_fund_of_another_project_cannot_be_charged(partner, project):
    from tests.factories import ProjectFactory

    other = fund(ProjectFactory(name="Two Herons"))
    bill = expense(project)
    assert save(partner, project, bill, rest=other.pk).status_code == 422
    assert not Share.objects.exists()
