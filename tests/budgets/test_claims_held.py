"""What a filed claim was told stays as it was told, until a later claim corrects it."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.models import Share
from tests.budgets.factories import (
    claim,
    claimed_match,
    counted,
    expense,
    fund,
    line,
    share,
    typed,
    url,
)

pytestmark = pytest.mark.django_db
DAY = date(2031, 3, 1)


@pytest.fixture
def board(project):
    return fund(project, "Wexcombe Arts Board", award_cents=100_000)


@pytest.fixture
def paint(project, board):
    made = expense(project, 20_000, payee="Ledger Street Paints", day=DAY, paid_on=DAY)
    share(made, board, 20_000)
    return made


@pytest.fixture
def filed(board, paint):
    return claim(board, (paint, 20_000))


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def edit(client, project, bill, **changes):
    values = typed(bill.line, cents="200", day=DAY.isoformat(), paid_on=DAY.isoformat())
    values = {**values, "version": bill.version, **changes}
    return client.post(url("expense-edit", project, bill.pk), values)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"cents": "199.99"}, "of it stands in claim 1 on Wexcombe Arts Board"),
        ({"cents": "200.01"}, "It was $200 in claim 1 on Wexcombe Arts Board"),
        ({"payee": "Another shop"}, "It was “Ledger Street Paints” in claim 1"),
        ({"day": "2031-02-28"}, "It was Sat 1 Mar 2031 in claim 1"),
        ({"unpaid": "on", "paid_on": ""}, "It was paid in claim 1"),
    ],
)
def test_what_a_claim_says_of_an_expense_stays(partner, project, paint, filed, changes, sentence):
    answer = edit(partner, project, paint, **changes)
    assert answer.status_code == 422 and sentence in text(answer)
    paint.refresh_from_db()
    assert (paint.cents, paint.payee, paint.day) == (20_000, "Ledger Street Paints", DAY)


def test_an_expense_in_a_claim_moves_to_no_other_category(partner, project, paint, filed):
    food, paints = line(project, "Soup", category="food"), line(project, "Other paint")
    answer = edit(partner, project, paint, line=food.pk)
    assert answer.status_code == 422 and "It was “Materials" in text(answer)
    assert edit(partner, project, paint, line=paints.pk).status_code == 302


def test_what_no_claim_tells_may_still_be_written(partner, project, paint, filed):
    assert edit(partner, project, paint, invoice_no="118").status_code == 302
    paint.refresh_from_db()
    assert paint.invoice_no == "118"


def test_an_expense_in_a_draft_may_change(partner, project, board, paint):
    claim(board, (paint, 20_000), state="draft")
    assert edit(partner, project, paint, payee="Another shop").status_code == 302


def test_an_expense_in_a_claim_that_was_sent_back_may_change(partner, project, board, paint):
    claim(board, (paint, 20_000), state="refused")
    assert edit(partner, project, paint, payee="Another shop").status_code == 302


def test_a_line_keeps_the_category_that_claims_were_filed_under(partner, project, paint, filed):
    fields = {"name": "Paint", "category": "food", "planned_cents": "500"}
    answer = partner.post(url("line-edit", project, paint.line_id), fields)
    assert answer.status_code == 422 and "claim 1 on Wexcombe Arts Board" in text(answer)
    fields["category"] = "materials"
    assert partner.post(url("line-edit", project, paint.line_id), fields).status_code == 302


def test_an_award_is_not_lowered_below_what_was_asked_of_it(partner, project, board, filed):
    fields = {
        "name": board.name,
        "kind": board.kind,
        "status": board.status,
        "role": "grantee",
        "version": board.version,
    }
    answer = partner.post(url("fund-edit", project, board.pk), {**fields, "award_cents": "199.99"})
    assert answer.status_code == 422
    assert "$200 was asked of it in claims. Write that much or more." in text(answer)
    assert (
        partner.post(url("fund-edit", project, board.pk), {**fields, "award_cents": "200"})
    ).status_code == 302


def test_a_share_that_is_claimed_is_not_lowered_but_may_be_raised(partner, project, board, paint):
    Share.objects.update(cents=15_000)
    claim(board, (paint, 15_000))
    save = url("share", project, paint.pk)
    answer = partner.post(save, {f"fund_{board.pk}": "149.99", "rest": "later"})
    assert answer.status_code == 422
    assert "$150.00 of it is charged in a claim on Wexcombe Arts Board" in text(answer)
    partner.post(save, {f"fund_{board.pk}": "200"})
    assert Share.objects.get().cents == 20_000


def test_match_that_was_reported_is_not_taken_away(partner, project, board, paint, filed):
    own = expense(project, 5_000, paid_on=DAY)
    counted(own, board, 5_000)
    claimed_match(filed, own, 5_000)
    ward = fund(project, "Ward", award_cents=100_000)
    answer = partner.post(url("share", project, own.pk), {f"fund_{ward.pk}": "50"})
    assert answer.status_code == 422
    assert "$50.00 of it is counted as match in a claim on Wexcombe Arts Board" in text(answer)
    assert own.counted.get().cents == 5_000 and not own.shares.exists()
    answer = partner.post(url("expense-delete", project, own.pk))
    assert answer.status_code == 409
