"""What an expense needs to survive an audit: kept, shown when filled, refused when impossible."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.models import Expense
from tests.budgets.factories import (
    claim,
    claimed_match,
    counted,
    credit,
    expense,
    fund,
    line,
    paper,
    rule,
    share,
    typed,
    url,
)

pytestmark = pytest.mark.django_db

FULL = {
    "cents": "106.25", "tax_cents": "6.25", "tax_rate": "6.25", "fee_cents": "",
    "invoice_no": "2207", "invoice_on": "2031-03-01", "paid_on": "2031-03-02",
    "paid_from": "card 4471", "payment_ref": "88-12", "payer": "sponsor",
    "ordered_on": "2031-02-20", "delivered_on": "2031-02-28", "quantity_hundredths": "2.5",
    "unit": "hour", "what": "Primer", "need": "Cheapest of three", "place": "Wexcombe Mills",
    "allocation": "60 %, by painted area", "relation": "related", "partner": "Ward office",
}  # fmt: skip


def log(client, project, **fields):
    return client.post(url("expense-add", project), typed(line(project), **fields))


def page_of(client, project) -> str:
    return client.get(url("expense", project, Expense.objects.get().pk)).content.decode()


def test_every_fact_is_kept_and_shown(partner, project):
    assert log(partner, project, **FULL).status_code == 302
    made = Expense.objects.get()
    assert (made.cents, made.tax_cents, made.quantity_hundredths) == (10_625, 625, 250)
    assert (made.paid_on, made.payer, made.workings) == (
        date(2031, 3, 2),
        "sponsor",
        {"tax_rate": "6.25"},
    )
    page = page_of(partner, project)
    for words in ("2207", "card 4471", "2.5 hours", "Cheapest of three", "60 %, by painted area"):
        assert words in page


def test_what_is_empty_is_not_shown(partner, project):
    log(partner, project)
    page = page_of(partner, project)
    for name in ("Order and delivery", "Another currency", "Whom it belongs to"):
        assert f"<h3>{name}</h3>" not in page


def test_groups_stay_folded_until_something_in_them_is_filled_or_wrong(partner, project):
    page = partner.get(url("expense-add", project)).content.decode()
    assert page.count('<details class="more">') == 6
    page = log(partner, project, invoice_on="2031-03-09").content.decode()
    assert page.count('<details class="more" open>') == 1


def test_it_is_paid_on_its_day_unless_it_is_still_to_pay(partner, project):
    log(partner, project)
    assert Expense.objects.get().paid_on == date(2031, 3, 3)


def test_a_bill_may_be_due_later_and_shows_as_to_pay(partner, project):
    log(partner, project, unpaid="on", due_on="2031-03-20")
    assert Expense.objects.get().paid_on is None
    assert "$212.40 is to be paid by Thu 20 Mar." in page_of(partner, project)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"paid_on": "2031-03-04"}, "Tue 4 Mar is still to come. Tick “Not paid yet”"),
        ({"invoice_on": "2031-03-04"}, "An invoice that has not come yet is no expense."),
        ({"delivered_on": "2031-03-04"}, "Leave it empty until it is here."),
        ({"unpaid": "on", "paid_on": "2031-03-01"}, "It is marked as not paid yet."),
        ({"ordered_on": "2031-03-02", "delivered_on": "2031-03-01"}, "cannot have come before"),
        ({"is_deposit": "on"}, "Choose the order that it is a deposit on."),
        ({"tax_cents": "212.40"}, "Tax and fees are part of the $212.40"),
        ({"tax_rate": "6,25"}, "Write a percentage such as 6.25."),
        ({"unit": "mile"}, "How many? Write a number, such as 2.5."),
        ({"quantity_hundredths": "-2"}, "Write a number of at most two decimals"),
        ({"cents": "1.234,56"}, "Write 1,234.56 if that is what you mean."),
        ({"cents": "10,000,000.01"}, "is too large. The most is 10,000,000"),
        ({"cents": "€120"}, "is in euros; this is kept in US dollars. Fill in “Another currency”"),
        ({"cents": "120 CAD"}, "is in Canadian dollars"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_typed_is_lost(
    partner, project, changes, sentence
):
    answer = log(partner, project, **changes)
    page = answer.content.decode()
    assert answer.status_code == 422 and sentence in page
    assert 'value="Ledger Street Paints"' in page and not Expense.objects.exists()


OTHER = {
    "cents": "", "foreign_cents": "120", "foreign_currency": "EUR", "foreign_rate": "1.0850",
    "foreign_day": "2031-03-01",
}  # fmt: skip


def test_another_currency_is_reckoned_at_the_rate_of_its_day(partner, project):
    assert log(partner, project, **OTHER).status_code == 302
    made = Expense.objects.get()
    assert (made.cents, made.foreign) == (13_020, "EUR 120.00 at 1.0850, 1 March 2031")
    page = partner.get(url("expense-edit", project, made.pk)).content.decode()
    assert 'value="1.0850"' in page and "EUR 120.00 at 1.0850" in page_of(partner, project)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"foreign_rate": ""}, "belong together: fill this in too."),
        ({"foreign_currency": ""}, "belong together: fill this in too."),
        ({"cents": "131"}, "EUR 120.00 at 1.0850, 1 March 2031 makes $130.20."),
        ({"foreign_rate": "0"}, "A rate is above zero"),
        ({"foreign_day": "2031-03-04"}, "The rate of a day to come is not known."),
        ({"foreign_currency": "USD"}, "That is not in the list."),
    ],
)
def test_another_currency_needs_all_of_its_four_facts(partner, project, changes, sentence):
    answer = log(partner, project, **{**OTHER, **changes})
    assert answer.status_code == 422 and sentence in answer.content.decode()


def test_a_printed_tax_is_kept_and_only_doubted(partner, project):
    log(partner, project, cents="116", tax_cents="16", tax_rate="6.25")
    assert Expense.objects.get().tax_cents == 1_600
    assert "The printed tax is $16; 6.25 % of $100 is $6.25." in page_of(partner, project)


def test_a_tax_rounded_line_by_line_is_not_doubted(partner, project):
    log(partner, project, cents="106.28", tax_cents="6.28", tax_rate="6.25")
    assert "The printed tax is" not in page_of(partner, project)


def test_the_page_says_which_fund_asks_for_which_paper(partner, project):
    bill = expense(project)
    for name in ("Ward", "Board"):
        rule(fund(project, name), "papers_needed", papers=["receipt", "payment"])
    paper(bill, "receipt")
    page = " ".join(partner.get(url("expense", project, bill.pk)).content.decode().split())
    assert 'Receipt or invoice: <span class="word holds">here</span>' in page
    assert "missing</span>, asked for by Ward and Board" in page


# What a filed claim holds


@pytest.fixture
def claimed(project):
    bill, ward = expense(project, 20_000), fund(project, "Ward")
    share(bill, ward, 20_000)
    claim(ward, (bill, 20_000))
    return bill


def test_an_expense_that_a_filed_claim_holds_is_not_deleted(partner, project, claimed):
    answer = partner.post(url("expense-delete", project, claimed.pk))
    page = answer.content.decode()
    assert answer.status_code == 409 and Expense.objects.exists()
    assert "It cannot be deleted: it stands in claim 1 on Ward." in page


def test_nor_is_the_paper_that_it_rests_on(partner, project, claimed):
    kept = paper(claimed)
    answer = partner.post(url("paper-delete", project, kept.pk))
    assert answer.status_code == 409 and claimed.papers.exists()


def test_a_claim_in_preparation_only_loses_its_line(partner, project):
    bill, ward = expense(project, 20_000), fund(project, "Ward")
    draft = claim(ward, (bill, 20_000), state="draft")
    assert partner.post(url("expense-delete", project, bill.pk)).status_code == 302
    assert not Expense.objects.exists() and not draft.shares.exists()


def test_its_amount_does_not_fall_below_what_was_filed(partner, project, claimed):
    changes = typed(claimed.line, cents="150")
    answer = partner.post(url("expense-edit", project, claimed.pk), changes)
    assert answer.status_code == 422
    assert "$200 of it stands in claim 1 on Ward." in answer.content.decode()


def test_shares_bound_an_amount_net_of_what_came_back(partner, project):
    bill = expense(project, 20_000)
    share(bill, fund(project, "Ward"), 15_000)
    credit(bill, 5_000)
    answer = partner.post(url("expense-edit", project, bill.pk), typed(bill.line, cents="190"))
    assert "Funds pay $150 of it." in answer.content.decode()


def test_match_in_a_filed_claim_holds_a_gift(partner, project):
    gift, ward = expense(project, 20_000, in_kind=True), fund(project, "Ward")
    counted(gift, ward, 20_000)
    claimed_match(claim(ward), gift, 20_000)
    assert partner.post(url("expense-delete", project, gift.pk)).status_code == 409
    assert Expense.objects.exists()
