"""Claims through the pages: prepared, filed, paid, sent back, corrected."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from budgets import fit
from budgets.models import Claim, ClaimShare, Expense, Fund, Income, Share
from budgets.services import claims as services
from tests.budgets.factories import (
    claim,
    claimed_match,
    credit,
    expense,
    fund,
    paper,
    rule,
    share,
    url,
)
from tests.factories import TODAY

pytestmark = pytest.mark.django_db
PAID = date(2031, 3, 1)


@pytest.fixture
def board(project):
    made = fund(project, "Wexcombe Arts Board", award_cents=1_000_000)
    rule(made, "paid_back", months=3, lag_days=45)
    rule(made, "held_back", basis_points=1000)
    return made


@pytest.fixture
def paint(project, board):
    return charged(project, board, 100_001)


def charged(project, board, cents, **fields):
    made = expense(project, cents, **{"paid_on": PAID, **fields})
    share(made, board, cents)
    return made


def prepare(client, project, board, **fields):
    values = {"to_day": TODAY.isoformat(), "kind": "claim", **fields}
    return client.post(url("claim-add", project, board.pk), values)


def file(client, project, one, **fields):
    values = {"filed_on": TODAY.isoformat(), **fields}
    return client.post(url("claim-file", project, one.pk), values)


def filed(client, project, board, **fields):
    prepare(client, project, board, **fields)
    made = Claim.objects.filter(fund=board, state="draft").get()
    file(client, project, made)
    made.refresh_from_db()
    assert made.state == "filed"
    return made


def pay(client, project, one, cents, **fields):
    values = {"cents": cents, "day": TODAY.isoformat(), **fields}
    return client.post(url("claim-pay", project, one.pk), values)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def test_a_claim_takes_what_is_paid_and_says_why_the_rest_waits(partner, project, board, paint):
    rule(board, "barred_categories", categories=["food"])
    charged(project, board, 30_000, payee="Saltglaze Metalworks", paid_on=None)
    charged(project, board, 5_000, payee="Weir Bakery", category="food")
    assert prepare(partner, project, board).status_code == 302
    made = Claim.objects.get()
    assert [(row.expense, row.cents) for row in made.shares.all()] == [(paint, 100_001)]
    assert (made.held_back_cents, made.due_cents) == (10_001, 90_000)
    page = text(partner.get(url("claim", project, made.pk)))
    assert "It is not paid yet. Log when it was paid" in page
    assert "Weir Bakery" in page and "food" in page


def test_the_room_says_what_can_be_claimed_and_of_whom(partner, project, board, paint):
    page = text(partner.get(url("claims", project)))
    assert "Nothing can be claimed now; $1,000.01 of Wexcombe Arts Board can on" in page
    Fund.objects.update(period_start=None)
    page = text(partner.get(url("claims", project)))
    assert "$1,000.01 can be claimed now from Wexcombe Arts Board." in page
    assert "Prepare this claim" in page


def test_a_filed_claim_awaits_its_money_after_the_funds_lag(partner, project, board, paint):
    made = filed(partner, project, board)
    assert made.expected_on == TODAY + timedelta(45)
    assert fit.read(project).locked == {(paint.pk, board.pk): 100_001}
    assert "$900 is still to come" in text(partner.get(url("claim", project, made.pk)))


def test_what_was_filed_stays_where_it_is(partner, project, board, paint):
    filed(partner, project, board)
    ward = fund(project, "Ward")
    answer = partner.post(
        url("share", project, paint.pk), {f"fund_{ward.pk}": "500", f"fund_{board.pk}": "500.01"}
    )
    assert answer.status_code in (409, 422) and "claim" in text(answer)
    assert Share.objects.get().cents == 100_001


def test_what_a_filed_claim_holds_is_not_deleted(partner, project, board, paint):
    slip = paper(paint)
    filed(partner, project, board)
    for name, pk in (
        ("expense-delete", paint.pk),
        ("fund-delete", board.pk),
        ("line-delete", paint.line_id),
    ):
        answer = partner.post(url(name, project, pk))
        assert answer.status_code == 409, name
    answer = partner.post(url("paper-delete", project, slip.pk))
    assert answer.status_code == 409
    assert Expense.objects.filter(pk=paint.pk).exists() and Fund.objects.filter(pk=board.pk)


def test_a_claim_that_was_sent_back_holds_nothing_and_is_taken_again(
    partner, project, board, paint
):
    first = filed(partner, project, board)
    partner.post(url("claim-back", project, first.pk), {"reason": "The bank slip is missing"})
    first.refresh_from_db()
    assert first.state == "refused" and "The bank slip is missing" in first.note
    assert fit.read(project).locked == {}
    again = filed(partner, project, board)
    assert (again.number, again.due_cents) == (2, 90_000)


def test_money_comes_in_parts_and_the_last_part_pays_the_claim(partner, project, board, paint):
    made = filed(partner, project, board)
    pay(partner, project, made, "400")
    made.refresh_from_db()
    assert made.state == "filed"
    pay(partner, project, made, "500")
    made.refresh_from_db()
    assert made.state == "paid" and sum(Income.objects.values_list("cents", flat=True)) == 90_000


def test_more_than_is_due_is_refused_beside_its_field(partner, project, board, paint):
    made = filed(partner, project, board)
    answer = pay(partner, project, made, "900.01")
    assert answer.status_code == 422 and "$900 is still due on this claim." in text(answer)
    assert 'value="900.01"' in text(answer) and not Income.objects.exists()


def test_money_that_is_still_to_come_is_not_logged(partner, project, board, paint):
    made = filed(partner, project, board)
    answer = pay(partner, project, made, "1", day="2031-03-04")
    assert answer.status_code == 422 and "is still to come" in text(answer)


def test_money_taken_out_makes_the_claim_awaited_again(partner, project, board, paint):
    made = filed(partner, project, board)
    pay(partner, project, made, "900")
    partner.post(url("income-delete", project, Income.objects.get().pk))
    made.refresh_from_db()
    assert made.state == "filed" and not Income.objects.exists()


def test_the_final_claim_asks_for_all_that_was_held_back(partner, project, board, paint):
    filed(partner, project, board)
    charged(project, board, 50_000)
    last = filed(partner, project, board, is_final="on")
    assert (last.held_back_cents, last.released_cents, last.due_cents) == (0, 10_001, 60_001)


def test_a_final_claim_may_ask_for_the_hold_back_alone(partner, project, board, paint):
    filed(partner, project, board)
    last = filed(partner, project, board, is_final="on")
    assert last.due_cents == 10_001 and not last.shares.exists()


def test_an_advance_is_accounted_for_before_anything_is_due(partner, project, board, paint):
    partner.post(
        url("income-add", project, board.pk), {"cents": "400", "day": "2031-02-01", "what": "Half"}
    )
    made = filed(partner, project, board)
    assert (made.netted_cents, made.held_back_cents, made.due_cents) == (40_000, 6_001, 54_000)


def test_a_report_on_money_paid_ahead_asks_for_nothing(partner, project, board, paint):
    Income.objects.create(fund=board, day=PAID, cents=200_000)
    made = filed(partner, project, board, kind="report")
    assert (made.asked_cents, made.due_cents, made.expected_on) == (100_001, 0, None)
    assert "Accounts for $1,000.01" in text(partner.get(url("claim", project, made.pk)))


def test_refund_after_claim(partner, project, board, paint):
    """100.00 of 1,000.01 came back: the next claim takes it back with the hold-back untouched."""
    first = filed(partner, project, board)
    partner.post(
        url("credit-add", project, paint.pk),
        {"cents": "100", "day": "2031-03-02", "what": "Tins returned"},
    )
    charged(project, board, 50_000)
    second = filed(partner, project, board)
    back = second.shares.get(cents__lt=0)
    assert (back.cents, back.corrects.claim) == (-10_000, first)
    assert "Tins returned" in back.reason and second.asked_cents == 40_000
    assert Share.objects.get(expense=paint).cents == 90_001


def test_a_correction_by_hand_is_an_entry_of_the_next_claim(partner, project, board, paint):
    first = filed(partner, project, board)
    row = first.shares.get()
    correct = url("claim-correct", project, first.pk, row.pk)
    partner.post(correct, {"cents": "50", "reason": "Tins for the studio"})
    draft = Claim.objects.get(state="draft")
    assert [(r.cents, r.corrects, r.reason) for r in draft.shares.all()] == [
        (-5_000, row, "Tins for the studio")
    ]
    assert first.shares.get().cents == 100_001
    file(partner, project, draft)
    assert Share.objects.get().cents == 95_001
    answer = partner.post(correct, {"cents": "950.02", "reason": "All of it"})
    assert answer.status_code == 422 and "$950.01 of this expense stands in claims" in text(answer)


def test_a_correction_that_was_sent_back_is_charged_again(partner, project, board, paint):
    row = filed(partner, project, board).shares.get()
    values = {"cents": "50", "reason": "Tins for the studio"}
    partner.post(url("claim-correct", project, row.claim_id, row.pk), values)
    draft = Claim.objects.get(state="draft")
    file(partner, project, draft)
    partner.post(url("claim-back", project, draft.pk), {"reason": "Not needed"})
    assert Share.objects.get().cents == 100_001
    assert fit.read(project).locked == {(paint.pk, board.pk): 100_001}


def test_overhead_falls_with_what_is_taken_back(partner, project, board, paint):
    """A tenth on 1,000.01 is 100.00; on 500.01 it is 50.00: 50.00 is given back."""
    rule(board, "indirect_rate", basis_points=1000)
    first = filed(partner, project, board)
    assert first.indirect_cents == 10_000
    values = {"cents": "500", "reason": "Tins for the studio"}
    partner.post(url("claim-correct", project, first.pk, first.shares.get().pk), values)
    assert Claim.objects.get(state="draft").indirect_cents == -5_000


def test_overhead_falls_with_what_came_back(partner, project, board, paint):
    """2 CFR 200.406: of 1,000.01 claimed, 200.00 came back; its tenth, 20.00, goes back too."""
    rule(board, "indirect_rate", basis_points=1000)
    filed(partner, project, board)
    values = {"cents": "200", "day": "2031-03-02", "what": "Tins returned"}
    partner.post(url("credit-add", project, paint.pk), values)
    second = filed(partner, project, board)
    assert (second.shares.get().cents, second.indirect_cents) == (-20_000, -2_000)


def test_books_that_moved_since_are_told_and_taken_anew(partner, project, board, paint):
    prepare(partner, project, board)
    draft = Claim.objects.get()
    charged(project, board, 5_000)
    answer = file(partner, project, draft)
    assert answer.status_code == 409 and "The books have changed since" in text(answer)
    partner.post(url("claim-refresh", project, draft.pk))
    file(partner, project, draft)
    draft.refresh_from_db()
    assert (draft.state, draft.asked_cents) == ("filed", 105_001)


def test_one_claim_on_a_fund_is_prepared_at_a_time(partner, owner, project, board, paint):
    prepare(partner, project, board)
    answer = prepare(owner, project, board)
    assert answer.status_code == 422 and "is being prepared. File it first." in text(answer)
    assert Claim.objects.count() == 1


def test_of_two_who_file_at_once_the_second_is_told(partner, owner, project, board, paint):
    prepare(partner, project, board)
    draft = Claim.objects.get()
    file(partner, project, draft)
    answer = file(owner, project, draft)
    assert answer.status_code == 409 and "What was filed stays" in text(answer)
    assert ClaimShare.objects.count() == 1


def test_no_cent_is_claimed_twice(partner, project, board, paint):
    filed(partner, project, board)
    answer = prepare(partner, project, board)
    assert answer.status_code == 422 and "Nothing that is charged to this fund" in text(answer)


def test_claims_never_ask_for_more_than_the_award(partner, project, board, paint):
    filed(partner, project, board)
    charged(project, board, 900_000)
    prepare(partner, project, board)
    asked = sum(row.asked_cents for row in Claim.objects.filter(fund=board))
    assert asked <= 1_000_000


@pytest.mark.parametrize(
    ("day", "sentence"),
    [
        ("2031-03-04", "is still to come"),
        ("2031-03-02", "The last claim goes up to"),
        ("soon", ""),
    ],
)
def test_a_claim_goes_up_to_a_day_that_is_past_and_not_claimed(
    partner, project, board, paint, day, sentence
):
    filed(partner, project, board)
    charged(project, board, 5_000)
    answer = prepare(partner, project, board, to_day=day)
    assert answer.status_code == 422 and sentence in text(answer)


def test_match_is_reported_once_with_the_claim(partner, project, board, paint):
    rule(board, "match", numerator=1, denominator=1)
    made = claim(board, (paint, 100_001))
    gift = expense(project, 60_000, in_kind=True, category="community")
    claimed_match(made, gift, 60_000)
    page = text(partner.get(url("claim", project, made.pk)))
    assert "$400.01 short" in page and "$600 is reported with it" in page


def test_a_claim_prints_with_its_papers_and_as_a_table(partner, project, board, paint):
    made = filed(partner, project, board)
    printed = partner.get(url("claim-pdf", project, made.pk))
    assert printed.status_code == 200 and printed.content.startswith(b"%PDF")
    table = partner.get(url("claim-csv", project, made.pk) + "?table=spending")
    assert table.status_code == 200 and "Ledger Street Paints" in table.content.decode()


def test_a_draft_is_dropped_and_a_filed_claim_is_not(partner, project, board, paint):
    prepare(partner, project, board)
    partner.post(url("claim-delete", project, Claim.objects.get().pk))
    assert not Claim.objects.exists()
    made = filed(partner, project, board)
    assert partner.post(url("claim-delete", project, made.pk)).status_code == 409


def test_a_reader_looks_and_changes_nothing(reader, partner, project, board, paint):
    made = filed(partner, project, board)
    assert reader.get(url("claim", project, made.pk)).status_code == 200
    assert prepare(reader, project, board).status_code == 403
    assert pay(reader, project, made, "1").status_code == 403


def test_a_paid_claim_with_money_is_not_sent_back(partner, project, board, paint):
    made = filed(partner, project, board)
    pay(partner, project, made, "1")
    answer = partner.post(url("claim-back", project, made.pk), {"reason": "Late"})
    assert answer.status_code == 409 and "brought no money" in text(answer)


def test_a_refund_before_the_claim_corrects_nothing(partner, project, board, paint):
    credit(paint, 10_000)
    Share.objects.update(cents=90_001)
    made = filed(partner, project, board)
    assert made.asked_cents == 90_001
    with pytest.raises(services.Refused):
        services.refresh_claim(claim=made, user=None)
