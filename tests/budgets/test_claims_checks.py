"""What a funder would not take, what waits and why, and money that is lost when a bill is late."""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets import overview
from budgets.models import Claim, ClaimMatch, Income
from budgets.selectors.claims.ledger import ledger_of
from budgets.selectors.claims.room import claims_room
from projects.hooks import Level
from tests.budgets.factories import claim, claimed_match, counted, expense, fund, rule, share, url
from tests.factories import TODAY

pytestmark = pytest.mark.django_db
PAID = date(2031, 3, 1)


@pytest.fixture
def board(project):
    """Claims every three months from 1 January: 1 April, 1 July, and 31 July for the last time."""
    return fund(
        project,
        "Wexcombe Arts Board",
        award_cents=1_000_000,
        period_start=date(2031, 1, 1),
        period_end=date(2031, 7, 31),
    )


def charged(project, board, cents, **fields):
    made = expense(project, cents, **{"paid_on": PAID, "day": PAID, **fields})
    share(made, board, cents)
    return made


def prepare(client, project, board, **fields):
    values = {"to_day": TODAY.isoformat(), "kind": "claim", **fields}
    return client.post(url("claim-add", project, board.pk), values)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def test_money_not_signed_for_is_asked_for_nothing(partner, project):
    for hope in (fund(project, status="offered"), fund(project, "Own", kind="own", award_cents=0)):
        assert partner.get(url("claim-add", project, hope.pk)).status_code == 200
        answer = prepare(partner, project, hope)
        assert answer.status_code == 422 and "is asked for nothing" in text(answer)


def test_a_claim_goes_no_further_than_the_funds_last_day_for_paying(partner, project, board):
    rule(board, "paid_by", on="2031-03-02")
    charged(project, board, 5_000)
    answer = prepare(partner, project, board)
    assert answer.status_code == 422
    assert "takes bills paid by Sun 2 Mar 2031. Choose that day or an earlier one." in text(answer)
    assert prepare(partner, project, board, to_day="2031-03-02").status_code == 302


def test_cost_in_period_but_paid_after_liquidation(partner, project, board):
    rule(board, "paid_by", on="2031-02-28")
    charged(project, board, 5_000, payee="Saltglaze Metalworks", day=date(2031, 2, 1))
    answer = prepare(partner, project, board, to_day="2031-02-28")
    assert answer.status_code == 422 and "$50 waits" in text(answer)
    page = text(partner.get(url("claims", project)))
    assert "Never paid back" in page and "this one was paid 1 March 2031" in page
    levels = {row.level for row in overview.claims_panel(project, TODAY).rows}
    assert levels == {Level.BROKEN}


def test_a_bill_not_paid_yet_must_be_paid_before_the_last_claim(partner, project, board):
    rule(board, "paid_back", months=3)
    charged(project, board, 70_000, paid_on=None)
    [row] = claims_room(project, TODAY).funds
    assert (row.must_pay, row.lost) == (70_000, 0)
    assert "paid after Thu 31 Jul 2031, they are never paid back" in text(
        partner.get(url("claims", project))
    )
    [row] = claims_room(project, date(2031, 8, 1)).funds
    assert (row.must_pay, row.lost) == (0, 70_000)


def test_claims_wait_for_the_funds_next_day_to_claim(project, board):
    rule(board, "paid_back", months=3)
    charged(project, board, 70_000)
    [row] = claims_room(project, TODAY).funds
    assert (row.opens_on, row.claimable, row.ready) == (date(2031, 4, 1), 0, 70_000)
    [row] = claims_room(project, date(2031, 4, 2)).funds
    assert (row.opens_on, row.claimable) == (None, 70_000)
    claim(board, (row.ledger.books.expenses[0], 1), filed_on=date(2031, 4, 2))
    [row] = claims_room(project, date(2031, 4, 3)).funds
    assert (row.opens_on, row.claimable) == (date(2031, 7, 1), 0)


def test_the_earlier_of_two_last_days_is_the_last(project, board):
    rule(board, "paid_back", months=3)
    assert ledger_of(board).last_to_pay == date(2031, 7, 31)
    rule(board, "paid_by", on="2031-06-30")
    assert ledger_of(board).last_to_pay == date(2031, 6, 30)
    board.rules.all().delete()
    rule(board, "paid_by", on="2031-09-30")
    rule(board, "paid_back", months=3)
    assert ledger_of(board).last_to_pay == date(2031, 7, 31)


def test_a_claim_below_the_smallest_is_not_worth_it(partner, project, board):
    rule(board, "paid_back", smallest_cents=50_000)
    charged(project, board, 49_999)
    [row] = claims_room(project, TODAY).funds
    assert row.claimable == 0
    assert "takes no claim below $500" in text(partner.get(url("claims", project)))


def test_what_was_paid_ahead_brings_nothing_when_it_is_claimed(project, board):
    charged(project, board, 40_000)
    Income.objects.create(fund=board, day=PAID, cents=30_000)
    [row] = claims_room(project, TODAY).funds
    assert (row.ready, row.claimable) == (40_000, 10_000)


def test_claims_never_exceed_an_award_that_was_lowered(partner, project, board):
    charged(project, board, 60_000)
    board.award_cents = 59_999
    board.save()
    answer = prepare(partner, project, board)
    assert answer.status_code == 422
    assert Claim.objects.count() == 0


def test_overhead_and_costs_together_never_exceed_the_award(partner, project, board):
    claim(board, (charged(project, board, 20_000), 20_000), indirect_cents=970_000)
    charged(project, board, 10_001)
    answer = prepare(partner, project, board)
    assert answer.status_code == 422 and "only $100 of the award is not asked" in text(answer)


def test_no_more_is_accounted_for_than_came_ahead(partner, project, board):
    charged(project, board, 60_000)
    Income.objects.create(fund=board, day=PAID, cents=59_999)
    answer = prepare(partner, project, board, kind="report")
    assert answer.status_code == 422
    assert "$599.99 came ahead and is not accounted for; what is charged comes to $600" in text(
        answer
    )


def test_money_of_parts_is_accounted_for_too(partner, project, board):
    rule(board, "paid_by_milestone")
    charged(project, board, 60_000)
    half = board.milestones.create(title="Half", cents=60_000, on=PAID)
    Income.objects.create(fund=board, day=PAID, cents=60_000, milestone=half)
    page = text(partner.get(url("claim-add", project, board.pk)))
    assert '<option value="report" selected>' in page
    assert prepare(partner, project, board, kind="report").status_code == 302
    assert (Claim.objects.get().netted_cents, Claim.objects.get().due_cents) == (60_000, 0)


def test_a_draft_gets_another_last_day(partner, project, board):
    charged(project, board, 5_000)
    charged(project, board, 700, paid_on=TODAY)
    prepare(partner, project, board)
    draft = Claim.objects.get()
    change = url("claim-change", project, draft.pk)
    assert f'value="{TODAY.isoformat()}"' in text(partner.get(change))
    partner.post(change, {"to_day": PAID.isoformat(), "kind": "claim"})
    draft.refresh_from_db()
    assert (draft.to_day, draft.asked_cents) == (PAID, 5_000)
    answer = partner.post(change, {"to_day": "2031-02-01", "kind": "claim"})
    assert answer.status_code == 422 and "Nothing that is charged" in text(answer)


def test_a_filed_claim_gets_no_other_last_day(partner, project, board):
    made = claim(board, (charged(project, board, 5_000), 5_000))
    answer = partner.post(
        url("claim-change", project, made.pk), {"to_day": PAID.isoformat(), "kind": "claim"}
    )
    assert answer.status_code == 422 and "What was filed stays" in text(answer)


def filing(client, project, board, **fields):
    prepare(client, project, board, to_day="2031-03-02")
    draft = Claim.objects.get()
    return client.post(
        url("claim-file", project, draft.pk), {"filed_on": TODAY.isoformat(), **fields}
    )


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"filed_on": "2031-03-01"}, "It takes what is paid until Sun 2 Mar 2031"),
        ({"filed_on": "2031-03-04"}, "is still to come"),
        ({"expected_on": "2031-03-02"}, "Its money comes on that day or later"),
        ({"filed_on": ""}, "Choose a day"),
    ],
)
def test_a_claim_is_filed_after_its_last_day_and_before_its_money(
    partner, project, board, fields, sentence
):
    charged(project, board, 5_000)
    answer = filing(partner, project, board, **fields)
    assert answer.status_code == 422 and sentence in text(answer)
    assert Claim.objects.get().state == "draft"


def test_money_before_the_filing_is_no_money_of_the_claim(partner, project, board):
    charged(project, board, 5_000)
    filing(partner, project, board)
    made = Claim.objects.get()
    answer = partner.post(url("claim-pay", project, made.pk), {"cents": "50", "day": "2031-03-02"})
    assert answer.status_code == 422 and "was paid ahead" in text(answer)


def test_what_is_corrected_lowers_what_came_for_a_paid_claim(partner, project, board):
    charged(project, board, 5_000)
    filing(partner, project, board)
    made = Claim.objects.get()
    partner.post(url("claim-pay", project, made.pk), {"cents": "50", "day": TODAY.isoformat()})
    came = Income.objects.get()
    edit = url("income-edit", project, came.pk)
    answer = partner.post(edit, {"cents": "50.01", "day": TODAY.isoformat()})
    assert answer.status_code == 422 and "Claim 1 is owed no more than $50 now" in text(answer)
    partner.post(edit, {"cents": "49", "day": TODAY.isoformat()})
    made.refresh_from_db()
    assert made.state == "filed"


def test_no_more_comes_from_a_fund_than_its_award(partner, project, board):
    answer = partner.post(
        url("income-add", project, board.pk), {"cents": "10,000.01", "day": PAID.isoformat()}
    )
    assert answer.status_code == 422 and "owes no more than $10,000 now" in text(answer)


def test_a_correction_beyond_the_claim_comes_off_the_next(partner, project, board):
    """200 is taken back where nothing new is claimed: 20 of the next 50 go against it."""
    bill = charged(project, board, 20_000)
    first = claim(board, (bill, 20_000), state="paid", filed_on=PAID)
    Income.objects.create(fund=board, claim=first, day=TODAY, cents=20_000)
    row = first.shares.get()
    partner.post(
        url("claim-correct", project, first.pk, row.pk), {"cents": "20", "reason": "Not ours"}
    )
    draft = Claim.objects.get(state="draft")
    partner.post(url("claim-file", project, draft.pk), {"filed_on": TODAY.isoformat()})
    draft.refresh_from_db()
    assert draft.due_cents == -2_000
    assert "gives $20 back" in text(partner.get(url("claim", project, draft.pk)))
    assert ledger_of(board).paid_ahead == 2_000
    charged(project, board, 5_000)
    prepare(partner, project, board)
    assert Claim.objects.get(state="draft").due_cents == 3_000


def test_match_requirement_not_lowered_when_the_claim_falls(partner, project, board):
    """1:1 on 200 filed and 50 of it taken back: 150 of match is asked for in all, not 200."""
    rule(board, "match", numerator=1, denominator=1)
    bill = charged(project, board, 20_000)
    first = claim(board, (bill, 20_000))
    gift = expense(project, 15_000, in_kind=True, category="community")
    counted(gift, board, 15_000)
    claimed_match(first, gift, 15_000)
    assert "$50 short" in text(partner.get(url("claim", project, first.pk)))
    partner.post(
        url("claim-correct", project, first.pk, first.shares.get().pk),
        {"cents": "50", "reason": "Not ours"},
    )
    draft = Claim.objects.get(state="draft")
    page = text(partner.get(url("claim", project, draft.pk)))
    assert "$150 of match is asked for in all. $150 was reported before" in page
    assert "short.</span>" not in page


def test_match_of_a_cost_is_reported_once_it_is_paid(partner, project, board):
    charged(project, board, 20_000)
    unpaid, gift = (
        expense(project, 700, paid_on=None),
        expense(project, 300, in_kind=True, day=PAID, category="community"),
    )
    counted(unpaid, board, 700)
    counted(gift, board, 300)
    prepare(partner, project, board)
    assert [(row.expense, row.cents) for row in ClaimMatch.objects.all()] == [(gift, 300)]


def test_match_that_came_back_is_corrected_in_the_next_claim(partner, project, board):
    bill, own = charged(project, board, 20_000), expense(project, 5_000, paid_on=PAID)
    counted(own, board, 5_000)
    claimed_match(claim(board, (bill, 20_000)), own, 5_000)
    partner.post(
        url("credit-add", project, own.pk),
        {"cents": "10", "day": "2031-03-02", "what": "Tin returned"},
    )
    charged(project, board, 100)
    prepare(partner, project, board)
    [row] = Claim.objects.get(state="draft").match.all()
    assert (row.cents, bool(row.reason)) == (-1_000, True)


def test_two_thirds_asked_for_call_for_a_progress_report(partner, project, board):
    rule(board, "progress_report")
    bill = charged(project, board, 1_000_000)
    first = claim(board, (bill, 666_666))
    assert "progress report" not in text(partner.get(url("claims", project)))
    first.shares.update(cents=666_667)
    assert "calls for a progress report" in text(partner.get(url("claims", project)))


def test_after_the_last_claim_nothing_is_held_back_any_more(partner, project, board):
    rule(board, "held_back", basis_points=1000)
    claim(board, (charged(project, board, 20_000), 20_000), is_final=True)
    charged(project, board, 1_000)
    prepare(partner, project, board)
    assert Claim.objects.get(state="draft").held_back_cents == 0


def test_the_room_reads_as_many_rows_at_once_for_many_funds(project, board):
    def queries() -> int:
        with CaptureQueriesContext(connection) as found:
            assert all(row.claimable >= 0 for row in claims_room(project, TODAY).funds)
        return len(found)

    claim(board, (charged(project, board, 500), 500))
    once = queries()
    for name in ("Ward", "Traders", "Town"):
        more = fund(project, name, award_cents=500_000)
        for _ in range(3):
            claim(more, (charged(project, more, 500), 400))
    assert queries() == once
