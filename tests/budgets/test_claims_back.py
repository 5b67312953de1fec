"""Money that goes back to a fund: owed once the last claim is filed, and logged when it is paid."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import flow
from budgets.models import Income
from budgets.selectors.claims.ledger import ledger_of
from budgets.selectors.reports.source import read_source
from budgets.services.credits import add_credit
from schedules import plan
from tests.budgets.factories import claim, expense, fund, rule, share, url
from tests.factories import TODAY

pytestmark = pytest.mark.django_db


@pytest.fixture
def board(project):
    made = fund(project, "Wexcombe Arts Board", award_cents=1_000_000)
    rule(made, "paid_back", months=3, lag_days=45)
    return made


@pytest.fixture
def closed(partner, project, board):
    """200 was claimed at the end and came; 40 of it came back later and was corrected."""
    bill = expense(project, 20_000, paid_on=TODAY)
    share(bill, board, 20_000)
    last = claim(board, (bill, 20_000), state="paid", is_final=True, filed_on=TODAY)
    Income.objects.create(fund=board, claim=last, day=TODAY, cents=20_000)
    values = {"cents": 4_000, "day": TODAY, "what": "Tins returned"}
    add_credit(expense=bill, values=values, paper=None, user=project.memberships.first().user)
    partner.post(url("claim-add", project, board.pk), {"to_day": str(TODAY), "kind": "claim"})
    draft = board.claims.get(state="draft")
    partner.post(url("claim-file", project, draft.pk), {"filed_on": str(TODAY)})
    return board


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def give_back(client, project, board, cents="40", day=TODAY):
    values = {"cents": cents, "day": str(day), "what": "Transfer 0911"}
    return client.post(url("income-back", project, board.pk), values)


def to_come(project) -> list[int]:
    plan.recompute(project, TODAY)
    found = flow.cash_of(flow.read(project, TODAY))
    return [row.cents for row in found.flows if row.day > TODAY and row.what.startswith("Wexc")]


def test_what_came_back_after_the_last_claim_is_owed_to_the_fund(partner, project, closed):
    """2 CFR 200.346: what is paid beyond what is allowed is a debt to the awarding body."""
    assert ledger_of(closed).to_pay_back == 4_000
    page = text(partner.get(url("claims", project)))
    assert "$40 is owed back to Wexcombe Arts Board." in page
    assert "<dt>To pay back</dt><dd>$40</dd>" in page
    assert to_come(project) == [-4_000]


def test_the_form_opens_with_all_that_is_owed(partner, project, closed):
    assert 'value="40"' in text(partner.get(url("income-back", project, closed.pk)))


def test_what_is_paid_back_is_owed_no_more_and_leaves_the_account(partner, project, closed):
    assert give_back(partner, project, closed).status_code == 302
    assert Income.objects.get(cents=-4_000).what == "Transfer 0911"
    assert (ledger_of(closed).to_pay_back, ledger_of(closed).received) == (0, 16_000)
    assert to_come(project) == []
    assert "$40 was paid back to Wexcombe Arts Board" in text(
        partner.get(f"/projects/{project.pk}/log/")
    )


def test_reports_count_what_stayed(partner, project, closed):
    """Cash receipts of Standard Form 425, line a, are net of what was returned."""
    give_back(partner, project, closed)
    assert read_source(project, TODAY).received[closed.pk] == 16_000


def test_an_advance_that_is_paid_back_is_not_awaited_again(partner, project):
    ahead = fund(project, "Ward fund", award_cents=500_000)
    rule(ahead, "paid_ahead", basis_points=5000)
    Income.objects.create(fund=ahead, day=TODAY, cents=250_000)
    give_back(partner, project, ahead, cents="2,500")
    plan.recompute(project, TODAY)
    found = flow.cash_of(flow.read(project, TODAY))
    assert [row.cents for row in found.flows if row.day > TODAY] == []


@pytest.mark.parametrize(
    ("cents", "day", "says"),
    [
        ("200.01", TODAY, "$200 has come from Wexcombe Arts Board in all"),
        ("40", date(2031, 3, 4), "It is logged once it is paid"),
        ("-40", TODAY, ""),
        ("", TODAY, ""),
    ],
)
def test_what_cannot_have_been_paid_back_is_refused(partner, project, closed, cents, day, says):
    answer = give_back(partner, project, closed, cents=cents, day=day)
    assert answer.status_code == 422 and says in text(answer)
    assert not Income.objects.filter(cents__lt=0).exists()


def test_what_was_paid_back_is_corrected_and_taken_out(partner, project, closed):
    give_back(partner, project, closed, cents="30")
    row = Income.objects.get(cents__lt=0)
    edit = url("income-edit", project, row.pk)
    assert 'value="30"' in text(partner.get(edit))
    partner.post(edit, {"cents": "40", "day": str(TODAY)})
    assert ledger_of(closed).to_pay_back == 0
    assert "Take out $40 paid back to" in text(partner.get(url("income-delete", project, row.pk)))
    partner.post(url("income-delete", project, row.pk))
    assert ledger_of(closed).to_pay_back == 4_000


def test_while_claims_go_on_nothing_is_owed_back(partner, project, board):
    """What was paid ahead goes against the next claim."""
    Income.objects.create(fund=board, day=TODAY, cents=5_000)
    assert (ledger_of(board).paid_ahead, ledger_of(board).to_pay_back) == (5_000, 0)
    assert "owed back" not in text(partner.get(url("claims", project)))
