"""What could be asked for, and that asking moves only what hangs on it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from budgets import flow
from budgets.flow.asked import Asked
from budgets.flow.coming import came, fund_flows, part
from budgets.flow.going import bills, order_flows, refunds, rests
from budgets.models import CashBook, Milestone
from budgets.overview import cash_panel
from schedules import plan
from tests.budgets.factories import expense, fund, line, order, rule, share, url
from tests.factories import TODAY, KeyDateFactory, TaskFactory

pytestmark = pytest.mark.django_db


def laid(project) -> flow.Ground:
    plan.recompute(project, TODAY)
    return flow.read(project, TODAY)


def a_grant(project, **fields):
    made = fund(project, "Arts board grant", award_cents=900_000, **fields)
    rule(made, "paid_back", months=3, lag_days=45)
    rule(made, "held_back", basis_points=1000)
    return made


@pytest.fixture
def job(project):
    """A frame at half and half, a fee by a milestone, a grant that pays back by the quarter."""
    CashBook.objects.create(project=project, opening_cents=100_000, opening_on=TODAY)
    grant = a_grant(project)
    fee = fund(project, "Town fee", kind="fee", award_cents=300_000)
    rule(fee, "paid_by_milestone")
    weld = TaskFactory(project=project, name="Weld lantern frame", days=20)
    Milestone.objects.create(fund=fee, title="Frame welded", cents=300_000, task=weld, pay_days=20)
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    made = order(project, 600_000, paid_from=frame, deposit_basis_points=5000, state="planned")
    weld.order = made
    weld.save()
    KeyDateFactory(project=project, on=date(2031, 6, 14))
    paid = expense(project, 20_000, paid_on=TODAY)
    share(paid, grant, 20_000)
    return project


def anew(ground: flow.Ground, asked: Asked):
    """All the flows made anew under the terms."""
    found = [*bills(ground), *refunds(ground), *rests(ground), *came(ground)]
    for row in ground.orders:
        found += order_flows(ground, row, asked)
    for row in ground.books.funds:
        found += fund_flows(ground, row, asked) if row.status == "signed" else ()
    for row in ground.milestones:
        found += part(ground, row, asked)
    return found


def key(row):
    return row.day, row.cents, row.what, row.why


def test_moving_only_what_hangs_on_the_terms_gives_the_same_as_making_all_anew(job):
    ground = laid(job)
    found = flow.cash_of(ground)
    grant, _ = ground.books.funds
    asks = [
        Asked(),
        Asked(fund=grant.pk, months=1),
        Asked(fund=grant.pk, ahead=5000),
        Asked(order=ground.orders[0].pk, deposit=3000),
        Asked(order=ground.orders[0].pk, net_days=60),
        Asked(milestone=ground.milestones[0].pk, sooner_days=14),
    ]
    for asked in asks:
        mine = sorted(found.pieces.flows(asked), key=key)
        assert mine == sorted(anew(ground, asked), key=key), asked


def test_no_ask_makes_or_loses_a_cent_of_what_goes_out(job):
    ground = laid(job)
    found = flow.cash_of(ground)
    spent = sum(f.cents for f in found.flows if f.cents < 0)
    for effect in found.effects:
        assert sum(f.cents for f in effect.lever.flows if f.cents < 0) == spent + 20_000


def test_every_kind_of_ask_is_tried(job):
    kinds = {effect.lever.key.partition("-")[0] for effect in flow.cash_of(laid(job)).effects}
    assert kinds >= {"months", "ahead", "milestone", "deposit", "net"}


def test_what_helps_most_comes_first_with_what_is_still_to_bridge(job):
    found = flow.cash_of(laid(job))
    gains = [effect.gain for effect in found.effects]
    assert gains == sorted(gains, reverse=True)
    assert gains[0] > 0
    assert all(e.bridge == found.bridge - e.gain for e in found.effects)


def test_the_balance_of_an_order_is_claimed_once_it_is_paid_not_when_it_is_there(project):
    """A quarter ends between the delivery and the payment: the claim of that day is too early."""
    grant = a_grant(project)
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    order(project, 600_000, paid_from=frame, net_days=30, window_end=date(2031, 3, 20))
    claims = [f for f in flow.cash_of(laid(project)).flows if f.what == grant.name]
    assert sorted((f.day, f.cents) for f in claims) == [
        (date(2031, 8, 13), 60_000),
        (date(2031, 8, 15), 540_000),  # paid on 19 April, claimed on 1 July
    ]


def test_a_deposit_is_claimed_before_the_balance(project):
    grant = a_grant(project)
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    order(
        project, 600_000, paid_from=frame, deposit_basis_points=5000, net_days=30,
        window_start=date(2031, 3, 10), window_end=date(2031, 4, 20),
    )  # fmt: skip
    claims = [f for f in flow.cash_of(laid(project)).flows if f.what == grant.name]
    assert (date(2031, 5, 16), 270_000) in [(f.day, f.cents) for f in claims]


def test_what_is_paid_on_the_last_day_of_claims_is_still_paid_back(project):
    grant = a_grant(project, period_end=date(2031, 6, 30))
    for cents, day in ((30_000, date(2031, 6, 30)), (7_000, date(2031, 7, 1))):
        due = expense(project, cents, category=f"care{cents}", due_on=day)
        share(due, grant, cents)
    assert flow.cash_of(laid(project)).too_late == ((grant, 7_000),)


def test_until_the_account_is_said_the_balance_counts_from_nothing_today(owner, project):
    expense(project, 50_000, paid_on=date(2031, 2, 1))
    due = expense(project, 30_000, category="care", due_on=date(2031, 4, 1))
    for row in project.budget_lines.all():
        row.to_come_cents = 0
        row.save()
    page = owner.get(url("cash", project)).content.decode()
    assert "as the account is not said yet" in page
    assert "$300 must be bridged" in page
    assert due.pk
    panel = cash_panel(project, TODAY)
    assert [row.text for row in panel.rows] == [
        "Say what is in the account, and this tells how low it gets"
    ]
    CashBook.objects.create(project=project, opening_cents=10_000, opening_on=TODAY)
    found = cash_panel(project, TODAY).rows[0]
    assert (found.text, found.detail) == (
        "Cash is lowest on Tue 1 Apr: −$200", "$200 must be bridged",
    )  # fmt: skip


def test_signed_money_that_does_not_say_how_it_pays_is_named(owner, project):
    fund(project, "Town fee", kind="fee", award_cents=300_000)
    a_grant(project)
    page = owner.get(url("cash", project)).content.decode()
    told = page[page.index("Nothing is counted yet from") :][:300]
    assert "Town fee" in told
    assert "Arts board grant" not in told


def test_on_another_plan_the_rest_of_a_line_goes_when_its_task_then_ends(project):
    sew = TaskFactory(project=project, name="Cut and sew skin", days=10)
    line(project, "Ripstop", planned_cents=10_000, task=sew)
    ground = laid(project)
    late = replace(ground.days.tasks[sew.pk], finish=date(2031, 4, 25))
    days = replace(ground.days, tasks={sew.pk: late})
    assert [f.day for f in flow.cash_of(ground).flows] == [date(2031, 3, 14)]
    assert [f.day for f in flow.cash_of(ground.on(days)).flows] == [date(2031, 4, 25)]
    assert ground.on(days) is ground.on(days)


def test_the_cash_budget_has_a_row_for_months_in_which_nothing_moves(project):
    CashBook.objects.create(
        project=project, opening_cents=0, opening_on=date(2031, 1, 1), loan_basis_points=1200,
        loan_basis=360, step_cents=50_000,
    )  # fmt: skip
    for day in (date(2031, 1, 10), date(2031, 3, 2)):
        paid = expense(project, 30_000, category=f"care{day.month}", paid_on=day)
        paid.line.to_come_cents = 0
        paid.line.save()
    rows = flow.cash_of(laid(project)).months
    assert [row.first.month for row in rows] == [1, 2, 3]
    assert [row.period.borrow for row in rows] == [50_000, 0, 50_000]
    assert [row.interest for row in rows] == [517, 466, 1034]  # 2,016.67 in all, rounded once
