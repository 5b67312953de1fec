"""The balance of a project: what flows on which day, and how the page tells it."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import flow
from budgets.models import CashBook, Claim, ClaimShare, Credit, Income, Milestone
from budgets.ripples import lowest_cash
from schedules import plan
from tests.budgets.factories import HTMX, claim, expense, fund, line, order, rule, share, url
from tests.factories import TODAY, KeyDateFactory, TaskFactory

pytestmark = pytest.mark.django_db


def told(project) -> list[tuple[str, int, str]]:
    """Day, cents and who, of what is still to come and to go."""
    plan.recompute(project, TODAY)
    found = flow.cash_of(flow.read(project, TODAY))
    return [(f.day.isoformat(), f.cents, f.what) for f in found.flows if f.day > TODAY]


def cash(project) -> flow.Cash:
    plan.recompute(project, TODAY)
    return flow.cash_of(flow.read(project, TODAY))


def board(project, **fields):
    """A grant that pays back every three months after 45 days and holds a tenth."""
    made = fund(project, "Wexcombe Arts Board small works grant", **fields)
    rule(made, "paid_back", months=3, lag_days=45)
    rule(made, "held_back", basis_points=1000, lag_days=30)
    return made


def test_a_deposit_goes_with_the_order_and_the_balance_after_the_delivery(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    made = order(
        project, 600_000, paid_from=frame, deposit_basis_points=5000, net_days=15, state="placed"
    )
    weld = TaskFactory(project=project, name="Weld lantern frame", days=10, order=made)
    assert weld.order_id == made.pk
    assert told(project) == [
        ("2031-03-04", -300_000, "Lantern frame, Saltglaze Metalworks"),
        ("2031-03-29", -300_000, "Lantern frame, Saltglaze Metalworks"),
    ]


def test_a_deposit_that_is_paid_is_never_counted_twice(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    made = order(project, 600_000, paid_from=frame, deposit_basis_points=5000, window_end=TODAY)
    expense(project, 300_000, line=frame, order=made, is_deposit=True, paid_on=TODAY, day=TODAY)
    assert [cents for _, cents, _ in told(project)] == [-300_000]
    assert cash(project).now == -300_000


def test_a_claim_to_come_asks_for_its_overhead(project):
    """2 CFR 200.414(f): a tenth of 1,000 beside it, and a tenth held of 1,100."""
    grant = board(project, award_cents=1_000_000)
    rule(grant, "indirect_rate", basis_points=1000)
    paid = expense(project, 100_000, paid_on=date(2031, 3, 1))
    share(paid, grant, 100_000)
    paid.line.to_come_cents = 0
    paid.line.save()
    assert [cents for _, cents, _ in told(project)] == [99_000, 11_000]


def test_overhead_that_was_claimed_is_not_asked_for_again(project):
    """1,000 claimed with its 100; 500 more brings 50, not 150."""
    grant = fund(project, "Wexcombe Arts Board", award_cents=1_000_000)
    rule(grant, "paid_back", months=3, lag_days=45)
    rule(grant, "indirect_rate", basis_points=1000)
    first = expense(project, 100_000, paid_on=date(2031, 2, 1))
    share(first, grant, 100_000)
    made = claim(grant, (first, 100_000), state="paid", indirect_cents=10_000)
    Income.objects.create(fund=grant, claim=made, day=TODAY, cents=110_000)
    later = expense(project, 50_000, paid_on=date(2031, 3, 1), line=first.line)
    share(later, grant, 50_000)
    first.line.to_come_cents = 0
    first.line.save()
    assert [cents for _, cents, _ in told(project)] == [55_000]


def test_a_claim_takes_what_is_paid_by_its_day_and_comes_after_its_lag(project):
    grant = board(project, award_cents=1_000_000)
    paid = expense(project, 100_000, paid_on=date(2031, 3, 1))
    share(paid, grant, 100_000)
    paid.line.to_come_cents = 0
    paid.line.save()
    assert told(project) == [
        ("2031-05-16", 90_000, grant.name),  # claimed on 1 April
        ("2031-08-13", 10_000, grant.name),  # thirty days after the period
    ]


def test_a_filed_claim_is_awaited_on_its_day_less_what_came(project):
    grant = board(project)
    paid = expense(project, 100_000, paid_on=date(2031, 2, 1))
    share(paid, grant, 100_000)
    paid.line.to_come_cents = 0
    paid.line.save()
    claim = Claim.objects.create(
        fund=grant, number=1, state="filed", to_day=date(2031, 2, 10), filed_on=date(2031, 2, 11),
        expected_on=date(2031, 3, 28), held_back_cents=10_000,
    )  # fmt: skip
    ClaimShare.objects.create(claim=claim, expense=paid, cents=100_000)
    Income.objects.create(fund=grant, claim=claim, day=date(2031, 3, 1), cents=40_000)
    assert told(project)[0] == ("2031-03-28", 50_000, grant.name)
    assert [cents for _, cents, _ in told(project)] == [50_000, 10_000]


def test_money_that_is_late_comes_later_still(project):
    grant = board(project)
    claim = Claim.objects.create(
        fund=grant, number=1, state="filed", to_day=date(2031, 1, 10), expected_on=date(2031, 2, 25)
    )
    paid = expense(project, 50_000, paid_on=date(2031, 1, 5))
    paid.line.to_come_cents = 0
    paid.line.save()
    ClaimShare.objects.create(claim=claim, expense=paid, cents=50_000)
    assert told(project)[0][0] == "2031-04-17"


def test_an_advance_is_netted_against_the_first_claims(project):
    ward = fund(project, award_cents=200_000)
    rule(ward, "paid_back", lag_days=30)
    rule(ward, "paid_ahead", basis_points=5000, lag_days=20)
    Income.objects.create(fund=ward, day=date(2031, 2, 1), cents=100_000)
    paid = expense(project, 150_000, paid_on=date(2031, 3, 1))
    share(paid, ward, 150_000)
    paid.line.to_come_cents = 0
    paid.line.save()
    assert [cents for _, cents, _ in told(project)] == [50_000]


def test_a_slip_moves_the_milestone_and_the_rest_of_a_line(project):
    fee = fund(project, "Commission fee", kind="fee", award_cents=100_000)
    sew = TaskFactory(project=project, name="Cut and sew skin", days=5)
    Milestone.objects.create(fund=fee, title="Skin sewn", cents=100_000, task=sew, pay_days=10)
    line(project, "Ripstop", planned_cents=20_000, task=sew)
    before = told(project)
    assert before == [("2031-03-07", -20_000, "Ripstop"), ("2031-03-17", 100_000, "Commission fee")]
    sew.days = 10
    sew.save()
    assert [day for day, *_ in told(project)] == ["2031-03-14", "2031-03-24"]


def test_gifts_and_what_others_pay_move_no_cash(project):
    expense(project, 50_000, in_kind=True, day=TODAY)
    expense(project, 60_000, payer="sponsor", paid_on=TODAY, day=TODAY)
    line(project, "Volunteer hours", category="community", planned_cents=9_000, in_kind=True)
    assert cash(project).now == 0


def test_a_refund_comes_back_on_its_day(project):
    CashBook.objects.create(project=project, opening_cents=0, opening_on=date(2031, 1, 1))
    paid = expense(project, 50_000, paid_on=date(2031, 2, 1), day=date(2031, 2, 1))
    Credit.objects.create(expense=paid, cents=5_000, day=date(2031, 2, 20), what="A tin returned")
    assert cash(project).now == -45_000


def test_the_balance_starts_from_what_was_said(project):
    CashBook.objects.create(project=project, opening_cents=80_000, opening_on=date(2031, 2, 1))
    expense(project, 10_000, paid_on=date(2031, 1, 31), day=date(2031, 1, 31))
    expense(project, 30_000, paid_on=date(2031, 2, 1), day=date(2031, 2, 1))
    assert cash(project).now == 50_000


def test_an_unsigned_fund_brings_nothing(project):
    hoped = fund(project, status="offered", award_cents=100_000)
    rule(hoped, "paid_ahead", basis_points=10_000, lag_days=5)
    assert told(project) == []


def test_a_cost_that_is_paid_after_the_last_claim_is_told(partner, project):
    grant = board(project, period_end=date(2031, 4, 30))
    KeyDateFactory(project=project, on=date(2031, 6, 14))
    late = expense(project, 90_000, day=date(2031, 3, 1), paid_on=None, due_on=date(2031, 5, 15))
    share(late, grant, 90_000)
    page = partner.get(url("cash", project)).content.decode()
    assert "Paid after the last claim and so never paid back: $900 from Wexcombe" in page


def test_the_page_tells_the_lowest_day_and_what_helps_most(partner, project):
    traders = fund(project, "Mill Lane Traders sponsorship", kind="sponsor", award_cents=600_000)
    rule(traders, "paid_ahead", basis_points=10_000, lag_days=20)
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    order(project, 600_000, paid_from=frame, window_end=date(2031, 3, 20))
    page = partner.get(url("cash", project)).content.decode()
    assert "Cash is lowest on Thu 20 Mar: $6,000 must be bridged." in page
    assert "Pay Saltglaze Metalworks 30 days after the delivery" in page


def test_what_the_account_holds_is_said_and_logged(partner, project):
    typed = {
        "opening_cents": "1,500", "opening_on": "2031-03-01", "floor_cents": "200", "rate": "9",
        "loan_basis": "365", "step_cents": "",
    }  # fmt: skip
    answer = partner.post(url("cash-settings", project), typed)
    assert answer.url == url("cash", project)
    book = CashBook.objects.get()
    assert (book.opening_cents, book.floor_cents, book.loan_basis_points) == (150_000, 20_000, 900)
    assert book.step_cents == 1


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"opening_on": "2031-03-04"}, "is still to come"),
        ({"opening_cents": "1.500,00"}, "1.500,00"),
        ({"rate": "90"}, "More than 60 percent a year"),
        ({"rate": "9 %"}, "Write a percent, such as 9 or 8.5."),
    ],
)
def test_a_wrong_start_is_answered_beside_its_field(partner, project, wrong, says):
    typed = {"opening_cents": "1500", "opening_on": "2031-03-01", "loan_basis": "365"}
    answer = partner.post(url("cash-settings", project), {**typed, **wrong}, headers=HTMX)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not CashBook.objects.exists()


def test_an_empty_project_says_so(reader, project):
    page = reader.get(url("cash", project)).content.decode()
    assert "nothing is known to come or to go" in page


def slipped(project, task, days: int) -> list[str]:
    """What the ripples say of the cash when a task takes that long."""
    plan.recompute(project, TODAY)
    before = plan.look(project, TODAY).days
    task.days = days
    task.save()
    after = plan.look(project, TODAY).days
    return [f"{r.level.value}: {r.says}" for r in lowest_cash(project, before, after)]


def test_a_late_delivery_moves_the_lowest_day_in_the_slip_preview(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    made = order(project, 600_000, paid_from=frame)
    weld = TaskFactory(project=project, name="Weld lantern frame", days=5, order=made)
    assert slipped(project, weld, 10) == [
        "near: would be lowest on Fri 14 Mar, −$6,000 instead of −$6,000: $6,000 to bridge."
    ]


def test_a_slip_that_pays_the_maker_after_the_money_comes_helps(project):
    traders = fund(project, "Mill Lane Traders sponsorship", kind="sponsor", award_cents=600_000)
    rule(traders, "paid_ahead", basis_points=10_000, lag_days=7)
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    made = order(project, 600_000, paid_from=frame)
    weld = TaskFactory(project=project, name="Weld lantern frame", days=3, order=made)
    assert slipped(project, weld, 10) == [
        "holds: would be lowest on Mon 10 Mar, $0 instead of −$6,000."
    ]


def test_a_slip_that_moves_no_money_says_nothing_of_cash(project):
    weld = TaskFactory(project=project, name="Weld lantern frame", days=3)
    assert slipped(project, weld, 10) == []
