"""Money that came back lowers the expense and whoever pays it, to the cent."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import fit
from budgets.models import Credit, Share
from budgets.services import claims
from projects.models import LogEntry
from tests.budgets.factories import (
    claim,
    counted,
    credit,
    expense,
    fund,
    photo,
    share,
    url,
)
from tests.factories import TODAY

pytestmark = pytest.mark.django_db


def typed(**changes):
    return {"cents": "50", "day": "2031-03-02", "what": "Two tins returned", **changes}


def add(client, project, bill, **fields):
    return client.post(url("credit-add", project, bill.pk), typed(**fields))


@pytest.fixture
def bill(project):
    return expense(project, 20_000)


def test_a_refund_is_kept_with_its_slip_and_lowers_the_line(partner, project, bill):
    answer = add(partner, project, bill, slip=photo())
    assert answer.status_code == 302
    made = Credit.objects.get()
    assert (made.cents, made.day, made.paper.kind) == (5_000, date(2031, 3, 2), "credit")
    assert fit.read(project).expense_values[bill.pk].amount == 15_000
    page = partner.get(url("expense", project, bill.pk)).content.decode()
    assert "Two tins returned" in page and "$150" in page
    assert "$50 came back of $200 to Ledger Street Paints" in LogEntry.objects.first().sentence


def test_a_refund_takes_each_payers_part_by_the_largest_remainder(partner, project, bill):
    """Of 200.00: 100.00, 50.01 and own 49.99; of 0.05 back 0.03, 0.01 and 0.01."""
    ward, board = fund(project, "Ward"), fund(project, "Board")
    share(bill, ward, 10_000)
    share(bill, board, 5_001)
    add(partner, project, bill, cents="0.05")
    assert {row.fund: row.cents for row in Share.objects.all()} == {ward: 9_997, board: 5_000}


def test_a_whole_refund_leaves_no_share_and_no_match(partner, project, bill):
    ward, board = fund(project, "Ward"), fund(project, "Board")
    share(bill, ward, 20_000)
    counted(bill, board, 20_000, payer=ward)
    add(partner, project, bill, cents="200")
    assert not bill.shares.exists() and not bill.counted.exists()


def test_match_never_exceeds_what_its_payer_still_pays(partner, project, bill):
    ward, board = fund(project, "Ward"), fund(project, "Board")
    share(bill, ward, 12_000)
    counted(bill, board, 12_000, payer=ward)
    counted(bill, board, 8_000)
    add(partner, project, bill, cents="100")
    found = {row.payer: row.cents for row in bill.counted.all()}
    assert found == {ward: 6_000, None: 4_000}


def test_a_refund_after_a_claim_is_told_and_frees_what_is_no_longer_charged(partner, project, bill):
    ward = fund(project, "Ward")
    share(bill, ward, 20_000)
    claim(ward, (bill, 20_000))
    page = partner.get(url("credit-add", project, bill.pk)).content.decode()
    assert "It stands in claim 1 on Ward." in page and "the next claim takes" in page
    add(partner, project, bill)
    books = fit.read(project)
    assert books.locks.shares == {(bill.pk, ward.pk): 20_000}
    assert books.locked == {(bill.pk, ward.pk): 15_000}


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"cents": "200.01"}, "At most $200 can come back of this expense."),
        ({"cents": "-5"}, "below zero"),
        ({"cents": "€20"}, "is in euros; this is kept in US dollars."),
        ({"cents": "1.234,56"}, "Write 1,234.56 if that is what you mean."),
        ({"day": "2031-03-04"}, "is still to come. Add it once the money is back."),
        ({"day": "2031-02-27"}, "nothing came back before it"),
        ({"what": ""}, "Write why, such as Two tins of primer returned."),
    ],
)
def test_a_wrong_refund_is_refused_beside_its_field(partner, project, bill, changes, sentence):
    answer = add(partner, project, bill, **changes)
    assert answer.status_code == 422 and sentence in answer.content.decode()
    assert not Credit.objects.exists()


def test_refunds_together_stay_within_the_expense(partner, project, bill):
    credit(bill, 16_000)
    assert "At most $40 can come back" in add(partner, project, bill).content.decode()


def test_nothing_comes_back_of_a_gift(partner, project):
    gift = expense(project, 20_000, in_kind=True)
    assert "Nobody paid for a gift" in add(partner, project, gift).content.decode()


def test_a_refund_is_taken_out_again_and_no_share_grows_by_itself(partner, project, bill):
    ward = fund(project, "Ward")
    share(bill, ward, 20_000)
    add(partner, project, bill)
    partner.post(url("credit-delete", project, Credit.objects.get().pk))
    assert not Credit.objects.exists()
    assert Share.objects.get().cents == 15_000


def prepared(ward):
    return claims.prepare_claim(fund=ward, through=TODAY, final=False, kind="claim", user=None)


def test_the_next_claim_takes_back_what_was_filed_too_much(partner, project, bill):
    """200.00 claimed, 50.00 came back: the next claim corrects by 50.00, told once."""
    ward = fund(project, "Ward")
    share(bill, ward, 20_000)
    claim(ward, (bill, 20_000))
    add(partner, project, bill)
    draft = prepared(ward)
    row = draft.shares.get()
    assert (row.cents, row.credit, row.corrects.cents) == (-5_000, Credit.objects.get(), 20_000)
    claims.file_claim(claim=draft, filed_on=TODAY, expected_on=None, note="", user=None)
    assert fit.read(project).locked == {(bill.pk, ward.pk): 15_000}
    assert bill.shares.get().cents == 15_000
    with pytest.raises(claims.Refused):
        prepared(ward)


def test_a_refund_of_what_was_not_claimed_yet_corrects_nothing(partner, project, bill):
    ward = fund(project, "Ward")
    share(bill, ward, 20_000)
    claim(ward, (bill, 12_000))
    bill.paid_on = bill.day
    bill.save()
    add(partner, project, bill)
    draft = prepared(ward)
    assert [row.cents for row in draft.shares.all()] == [3_000]
