"""What is still to be spent, each cent in one place, on the day that the plan gives."""

from __future__ import annotations

from datetime import date

import pytest

from budgets import fit
from budgets.fit.forecast import forecasts
from budgets.models import Credit, Draw
from schedules import plan
from suppliers.models import OrderChange
from tests.budgets.factories import expense, line, order
from tests.factories import TODAY, KeyDateFactory, TaskFactory

pytestmark = pytest.mark.django_db


def told(project, days=None) -> dict[str, int]:
    return {row.key: row.cents for row in forecasts(fit.read(project), days, TODAY)}


def planned(project):
    plan.recompute(project, TODAY)
    return plan.look(project, TODAY).days


def test_a_line_still_needs_what_its_expenses_leave(project):
    paint = line(project, planned_cents=100_000)
    expense(project, 30_000, line=paint)
    assert told(project) == {f"line-{paint.pk}": 70_000}


def test_a_deposit_is_never_counted_twice(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=700_000)
    placed = order(project, 600_000, paid_from=frame, deposit_basis_points=5000)
    expense(project, 300_000, line=frame, order=placed, is_deposit=True)
    assert told(project) == {f"order-{placed.pk}": 300_000, f"line-{frame.pk}": 100_000}


def test_an_approved_change_of_an_order_takes_from_its_line(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=700_000)
    placed = order(project, 600_000, paid_from=frame)
    OrderChange.objects.create(order=placed, cents=40_000, day=TODAY, reason="A fifth ring")
    assert told(project) == {f"order-{placed.pk}": 640_000, f"line-{frame.pk}": 60_000}


def test_a_bill_booked_on_another_line_is_not_needed_on_the_orders_line(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=600_000)
    site = line(project, "Site", category="site", planned_cents=100_000)
    placed = order(project, 600_000, paid_from=frame)
    expense(project, 80_000, line=site, order=placed)
    found = told(project)
    assert found == {
        f"order-{placed.pk}": 520_000, f"line-{frame.pk}": 80_000, f"line-{site.pk}": 20_000,
    }  # fmt: skip


def test_a_cancelled_order_gives_its_line_back(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=700_000)
    order(project, 600_000, paid_from=frame, state="cancelled")
    assert told(project) == {f"line-{frame.pk}": 700_000}


def test_a_refund_can_be_spent_again(project):
    paint = line(project, planned_cents=100_000)
    bought = expense(project, 100_000, line=paint)
    assert told(project) == {}
    Credit.objects.create(expense=bought, cents=5_000, day=TODAY, what="A tin returned")
    assert told(project) == {f"line-{paint.pk}": 5_000}


def test_the_latest_price_and_what_was_said_win_over_what_is_left(project):
    cloth = line(
        project, "Ripstop", planned_cents=100_000, quantity_hundredths=1_250, unit_cents=3_333
    )
    assert told(project) == {f"line-{cloth.pk}": 41_663}  # 12.5 x 33.33 = 416.625
    cloth.to_come_cents = 0
    cloth.save()
    assert told(project) == {}


def test_contingency_is_no_cost_until_it_is_drawn(project):
    pool = line(project, "Contingency", category="contingency", planned_cents=50_000)
    paint = line(project, planned_cents=10_000)
    assert told(project) == {f"line-{paint.pk}": 10_000}
    Draw.objects.create(
        project=project, source=pool, target=paint, cents=20_000, day=TODAY, reason="A third coat"
    )
    assert told(project) == {f"line-{paint.pk}": 30_000}


def test_the_day_follows_the_task_the_order_and_the_public_date(project):
    sew = TaskFactory(project=project, name="Cut and sew skin", days=10)
    weld = TaskFactory(project=project, name="Weld lantern frame", days=5)
    KeyDateFactory(project=project, on=date(2031, 6, 14))
    line(project, "Ripstop", planned_cents=1_000, task=sew)
    frame = line(project, "Frame", category="fabrication", planned_cents=5_000)
    made = order(project, 5_000, paid_from=frame)
    line(project, planned_cents=1_000)
    weld.order = made
    weld.save()
    found = {row.why: row.day for row in forecasts(fit.read(project), planned(project), TODAY)}
    assert found == {
        "What is left of “Ripstop”, when “Cut and sew skin” ends.": date(2031, 3, 14),
        "The rest of “Lantern frame”, when it comes.": date(2031, 3, 7),
        "What is left of “Primer and paint”, by the public date.": date(2031, 6, 14),
    }


def test_nothing_is_still_to_be_spent_in_the_past(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=5_000)
    order(project, 5_000, paid_from=frame, window_end=date(2031, 2, 1))
    assert [row.day for row in forecasts(fit.read(project), None, TODAY)] == [TODAY]


def test_a_line_of_gifts_is_marked(project):
    line(project, "Volunteer hours", category="community", planned_cents=9_000, in_kind=True)
    assert [row.in_kind for row in forecasts(fit.read(project), None, TODAY)] == [True]
