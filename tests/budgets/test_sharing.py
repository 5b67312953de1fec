"""Sums to the cent, what an expense counts for as match, and two people at one expense."""

from __future__ import annotations

import json

import pytest

from budgets.models import Counted
from projects.models import LogEntry
from tests.budgets.factories import (
    claim,
    claimed_match,
    counted,
    credit,
    expense,
    fund,
    rule,
    share,
    url,
)

pytestmark = pytest.mark.django_db


def save(client, project, bill, **amounts):
    return client.post(url("share", project, bill.pk), amounts)


def pays(fund) -> str:
    return f"fund_{fund.pk}"


def counts(fund) -> str:
    return f"match_{fund.pk}"


def board_of(project, **params):
    """The arts board's grant, which asks for as much from elsewhere."""
    board = fund(project, "Wexcombe Arts Board small works grant")
    rule(board, "match", **{"numerator": 1, "denominator": 1, **params})
    return board


def rows(bill) -> dict[tuple[int, int | None], int]:
    return {(row.fund_id, row.payer_id): row.cents for row in Counted.objects.filter(expense=bill)}


def test_shares_a_cent_short_are_refused_until_somebody_says_who_pays_it(partner, project):
    ward, bill = fund(project), expense(project, 20_000)
    page = save(partner, project, bill, **{pays(ward): "199.99"}).content.decode()
    assert "The shares come to $0.01 less than the expense of $200." in page
    assert 'value="199.99"' in page and not bill.shares.exists()
    save(partner, project, bill, **{pays(ward): "199.99", "rest": "later"})
    assert bill.shares.get().cents == 19_999


def test_what_came_back_is_not_shared_out(partner, project):
    ward, bill = fund(project), expense(project, 20_000)
    credit(bill, 5_000)
    page = save(partner, project, bill, **{pays(ward): "150.01"}).content.decode()
    assert "$0.01 more than the expense of $150." in page
    save(partner, project, bill, rest=ward.pk)
    assert bill.shares.get().cents == 15_000


def test_own_money_counts_as_match_beside_what_the_award_pays(partner, project):
    board, bill = board_of(project), expense(project, 20_000)
    amounts = {pays(board): "120", counts(board): "80", "rest": "later"}
    save(partner, project, bill, **amounts)
    assert rows(bill) == {(board.pk, None): 8_000}
    told = LogEntry.objects.first().sentence
    assert "counts as match, $80 for Wexcombe Arts Board small works grant" in told


def test_what_an_award_pays_is_no_match_for_it(partner, project):
    board, bill = board_of(project), expense(project, 20_000)
    amounts = {pays(board): "120", counts(board): "80.01", "rest": "later"}
    answer = save(partner, project, bill, **amounts)
    assert answer.status_code == 422 and not rows(bill)
    words = "$80.00 of it can count for Wexcombe Arts Board small works grant: this is $80.01."
    assert words in answer.content.decode()


def test_what_another_fund_pays_counts_with_its_payer(partner, project):
    board, ward, bill = board_of(project), fund(project), expense(project, 20_000)
    save(partner, project, bill, **{pays(ward): "150", counts(board): "200", "rest": "later"})
    assert rows(bill) == {(board.pk, None): 5_000, (board.pk, ward.pk): 15_000}


def test_federal_regrant_used_as_match_for_federal_is_refused(partner, project):
    nation = fund(project, "National arts award", kind="federal", is_federal=True)
    rule(nation, "match", numerator=1, denominator=1)
    regrant, bill = fund(project, "State regrant", is_federal=True), expense(project, 20_000)
    amounts = {pays(regrant): "200", counts(nation): "200"}
    answer = save(partner, project, bill, **amounts)
    assert "$0.00 of it can count for National arts award" in answer.content.decode()


def test_a_cent_is_match_once_inside_a_pool(partner, project):
    board, ward = board_of(project), fund(project, pool="town")
    board.pool = "town"
    board.save()
    rule(ward, "match", numerator=1, denominator=1)
    bill = expense(project, 20_000)
    answer = save(partner, project, bill, **{counts(board): "150", counts(ward): "100"})
    assert "$50.00 of it can count for Riverside Ward" in answer.content.decode()
    save(partner, project, bill, **{counts(board): "150", counts(ward): "50"})
    assert rows(bill) == {(board.pk, None): 15_000, (ward.pk, None): 5_000}


def test_a_gift_counts_with_no_payer_and_never_where_gifts_do_not(partner, project):
    board, strict = board_of(project), fund(project, "Mill Lane Traders sponsorship")
    rule(strict, "match", numerator=1, denominator=1, basis_points=10_000)
    gift = expense(project, 30_000, in_kind=True, payee="Volunteer crew")
    answer = save(partner, project, gift, **{counts(board): "300", counts(strict): "300"})
    assert "does not count gifts in kind as match" in answer.content.decode()
    save(partner, project, gift, **{counts(board): "300"})
    assert rows(gift) == {(board.pk, None): 30_000}


def test_one_tap_leaves_what_counts_as_far_as_it_is_still_paid_so(partner, project):
    board, ward, bill = board_of(project), fund(project), expense(project, 20_000)
    counted(bill, board, 20_000)
    save(partner, project, bill, rest=ward.pk)
    assert rows(bill) == {(board.pk, ward.pk): 20_000}
    save(partner, project, bill, rest=board.pk)
    assert rows(bill) == {}


def test_what_a_filed_claim_holds_cannot_be_lowered(partner, project):
    board, bill, gift = board_of(project), expense(project), expense(project, in_kind=True)
    share(bill, board, 20_000)
    counted(gift, board, 20_000)
    claimed_match(claim(board, (bill, 20_000)), gift, 20_000)
    page = save(partner, project, bill, **{pays(board): "199.99", "rest": "later"}).content.decode()
    assert "$200.00 of it is charged in a claim on Wexcombe Arts Board" in page
    page = save(partner, project, gift, **{counts(board): "100"}).content.decode()
    assert "$200.00 of it is counted as match in a claim on Wexcombe Arts Board" in page
    assert bill.shares.get().cents == 20_000 and rows(gift) == {(board.pk, None): 20_000}


def opened(bill) -> str:
    """What the form carries when it is opened now."""
    shares = [[row.fund_id, row.cents] for row in bill.shares.order_by("fund")]
    return json.dumps({"shares": shares, "counted": []})


def test_the_second_of_two_people_sees_the_first_one_s_change_and_loses_nothing(partner, project):
    ward, traders = fund(project), fund(project, "Mill Lane Traders sponsorship")
    bill = expense(project, 20_000)
    seen = opened(bill)
    save(partner, project, bill, seen=seen, **{pays(ward): "50", "rest": "later"})
    mine = {"seen": seen, pays(traders): "100", "rest": "later"}
    answer = save(partner, project, bill, **mine)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody else changed who pays this" in page
    assert "Changed meanwhile to $50." in page
    assert 'value="50"' in page and 'value="100"' in page
    assert bill.shares.get().cents == 5_000
    mine |= {"seen": opened(bill), pays(ward): "50"}
    save(partner, project, bill, **mine)
    assert sorted(row.cents for row in bill.shares.all()) == [5_000, 10_000]


def test_where_both_changed_one_amount_both_are_shown(partner, project):
    ward, bill = fund(project), expense(project, 20_000)
    seen = opened(bill)
    save(partner, project, bill, seen=seen, **{pays(ward): "50", "rest": "later"})
    answer = save(partner, project, bill, seen=seen, **{pays(ward): "70", "rest": "later"})
    page = answer.content.decode()
    assert "Somebody saved $50 here meanwhile. Save again to keep yours." in page
    assert 'value="70"' in page and bill.shares.get().cents == 5_000


@pytest.mark.parametrize("seen", ["", "x", "[]", "{}", "null", '{"shares": 3, "counted": []}'])
def test_a_page_that_was_tampered_with_is_judged_all_the_same(partner, project, seen):
    ward, bill = fund(project), expense(project, 20_000)
    save(partner, project, bill, seen=seen, rest=ward.pk)
    assert bill.shares.get().cents == 20_000


def test_a_fund_shows_what_counts_as_its_match_and_who_pays_it(reader, project):
    board, ward, bill = board_of(project), fund(project), expense(project, 20_000)
    page = reader.get(url("fund", project, board.pk)).content.decode()
    assert "Nothing is written down yet; $200 of what is spent and given could count." in page
    share(bill, ward, 15_000)
    counted(bill, board, 15_000, ward)
    counted(bill, board, 5_000)
    page = reader.get(url("fund", project, board.pk)).content.decode()
    found = page.split("What counts as its match")[1]
    assert ward.name in found and "your own money" in found and "$200" in found
    assert (
        "What counts as its match" not in reader.get(url("fund", project, ward.pk)).content.decode()
    )
