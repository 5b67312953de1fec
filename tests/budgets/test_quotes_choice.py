"""A quote is chosen with a reason: order, line, task and plan as one change; and taken back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from budgets import fit
from budgets.models import Expense
from projects.models import LogEntry
from schedules import plan
from schedules.models import KeyDate, PlanState, Task
from suppliers.models import Order, OrderState
from tests.budgets.factories import expense, line, url
from tests.budgets.quoting import LOCKSIDE, LOFT, asked_for, quote
from tests.factories import TODAY, planned_project

pytestmark = pytest.mark.django_db

SEW = "Cut and sew skin"
WHY = "The only one that keeps the walk"


@pytest.fixture
def project(db):
    made = planned_project()
    plan.recompute(made, TODAY)
    return made


@pytest.fixture
def request_(project):
    pays = line(project, "Sewn skin", planned_cents=270_000)
    request = asked_for(project, line=pays, task=SEW)
    quote(request, LOFT, 265_000, lead_days=30, deposit_basis_points=5000, net_days=15)
    quote(request, LOCKSIDE, 242_000, lead_days=80)
    quote(request, "Tannery Sheet Metal", None)
    return request


def choose(client, request, supplier: str = LOFT, **changes):
    asked = request.quotes.get(supplier__name=supplier)
    typed = {"reason": WHY, "on": "2031-03-03", "placed": "on", **changes}
    return client.post(url("quote-choose", request.project, request.pk, asked.pk), typed)


def sewing(project) -> Task:
    return Task.objects.get(project=project, name=SEW)


def entry(project) -> LogEntry:
    return LogEntry.objects.filter(project=project).latest("pk")


def test_an_order_comes_of_the_chosen_quote_with_its_terms(owner, project, request_):
    before = LogEntry.objects.count()
    choose(owner, request_, number="HL-02", retainage_basis_points="5")
    made = Order.objects.get()
    assert (made.title, made.cents, made.state) == ("Lantern skin", 265_000, OrderState.PLACED)
    assert (made.deposit_basis_points, made.net_days) == (5000, 15)
    assert (made.retainage_basis_points, made.number, made.placed_on) == (500, "HL-02", TODAY)
    assert made.commitment.line.name == "Sewn skin"
    assert LogEntry.objects.count() == before + 1
    assert entry(project).reason == WHY


def test_the_task_takes_the_lead_time_and_the_plan_moves_with_it(owner, project, request_):
    was = PlanState.objects.get(project=project).in_hand_days
    choose(owner, request_)
    task = sewing(project)
    state = PlanState.objects.get(project=project)
    assert task.days == 30 and task.order == Order.objects.get()
    assert state.in_hand_days == was - 10
    assert f"{was} days in hand before, {was - 10} days in hand now" in entry(project).sentence
    made = Order.objects.get()
    assert (made.window_start, made.window_end) == (TODAY, plan.early_days(task)[1])


def test_who_answered_is_told_apart_from_who_never_did(owner, project, request_):
    choose(owner, request_)
    states = dict(request_.quotes.values_list("supplier__name", "state"))
    assert states == {LOFT: "chosen", LOCKSIDE: "not_chosen", "Tannery Sheet Metal": "asked"}


def test_the_quotes_count_as_evidence_for_the_expenses_of_the_order(owner, project, request_):
    choose(owner, request_)
    paid = expense(project, 132_500, order=Order.objects.get())
    assert fit.read(project).expense_values[paid.pk].quotes == 2


def test_an_order_for_a_later_day_is_planned_and_its_task_waits(owner, project, request_):
    owner.post(
        url("quote-choose", project, request_.pk, request_.quotes.get(supplier__name=LOFT).pk),
        {"reason": WHY, "on": "2031-03-24"},
    )
    made, task = Order.objects.get(), sewing(project)
    assert (made.state, made.placed_on) == (OrderState.PLANNED, None)
    assert task.not_before == date(2031, 3, 24)


@pytest.mark.parametrize(
    ("changes", "right"),
    [
        ({"reason": ""}, "Write why"),
        ({"on": "2031-03-04"}, "has a day up to today"),
        ({"on": "2031-13-04"}, "There is no such day"),
        ({"retainage_basis_points": "101"}, "100 at most"),
    ],
)
def test_a_choice_says_what_is_missing(owner, request_, changes, right):
    answer = choose(owner, request_, **changes)
    assert answer.status_code == 422 and right in answer.content.decode()
    assert not Order.objects.exists()


def test_who_has_not_quoted_cannot_be_chosen(owner, request_):
    answer = choose(owner, request_, "Tannery Sheet Metal")
    assert answer.status_code == 409 and "has not quoted a price" in answer.content.decode()
    assert not Order.objects.exists()


def test_nobody_chooses_twice(owner, request_):
    choose(owner, request_)
    answer = choose(owner, request_, LOCKSIDE)
    assert answer.status_code == 409 and "was chosen already" in answer.content.decode()
    assert Order.objects.count() == 1


def test_an_answer_is_not_changed_under_a_choice(owner, project, request_):
    choose(owner, request_)
    other = request_.quotes.get(supplier__name=LOCKSIDE)
    where = url("quote-answer", project, request_.pk, other.pk)
    answer = owner.post(where, {"cents": "1", "received_on": "2031-03-01"})
    assert answer.status_code == 409 and "Reopen the choice" in answer.content.decode()


def test_a_task_that_has_begun_keeps_its_days(owner, project, request_):
    Task.objects.filter(name=SEW).update(started_on=date(2031, 2, 28), remaining_days=4)
    choose(owner, request_)
    assert sewing(project).days == 20


def test_a_plan_that_cannot_be_computed_changes_nothing(owner, project, request_):
    walk = Task.objects.get(project=project, name="Lantern walk")
    frame = Task.objects.get(project=project, name="Weld lantern frame")
    project.links.create(before=walk, after=frame)
    KeyDate.objects.filter(project=project).update(effect="none")
    answer = choose(owner, request_)
    assert answer.status_code == 409 and "look at the schedule first" in answer.content.decode()
    assert not Order.objects.exists()
    assert request_.quotes.filter(state="chosen").count() == 0


def test_a_choice_is_reopened_and_all_is_as_before(owner, project, request_):
    was = PlanState.objects.get(project=project).in_hand_days
    task = sewing(project)
    task.low_days, task.high_days = Decimal(15), Decimal(25)
    task.save()
    choose(owner, request_)
    owner.post(url("quotes-reopen", project, request_.pk), {"reason": "They cannot after all"})
    task.refresh_from_db()
    assert not Order.objects.exists()
    assert (task.days, task.low_days, task.high_days, task.order) == (20, 15, 25, None)
    assert PlanState.objects.get(project=project).in_hand_days == was
    assert entry(project).reason == "They cannot after all"
    assert request_.quotes.filter(state="received").count() == 2


def test_a_task_that_was_changed_since_stays_as_it_is(owner, project, request_):
    choose(owner, request_)
    Task.objects.filter(name=SEW).update(days=33)
    owner.post(url("quotes-reopen", project, request_.pk), {"reason": "Another look"})
    assert sewing(project).days == 33
    assert "was changed since and stays as it is" in entry(project).sentence


def test_a_choice_that_cost_money_is_not_reopened(owner, project, request_):
    choose(owner, request_)
    expense(project, 132_500, order=Order.objects.get())
    answer = owner.post(url("quotes-reopen", project, request_.pk), {"reason": "Too dear"})
    assert answer.status_code == 409
    assert "Cancel the order first" in answer.content.decode()
    assert Expense.objects.get().order is not None


def test_after_a_cancelled_order_another_quote_can_be_taken(owner, project, request_):
    choose(owner, request_)
    expense(project, 132_500, order=Order.objects.get())
    Order.objects.update(state=OrderState.CANCELLED)
    owner.post(url("quotes-reopen", project, request_.pk), {"reason": "They closed"})
    choose(owner, request_, LOCKSIDE)
    states = sorted(Order.objects.values_list("supplier__name", "state"))
    assert states == [(LOCKSIDE, "placed"), (LOFT, "cancelled")]


def test_a_request_with_an_order_is_not_deleted(owner, project, request_):
    choose(owner, request_)
    answer = owner.post(url("quotes-delete", project, request_.pk))
    assert answer.status_code == 409 and "show a funder" in answer.content.decode()
