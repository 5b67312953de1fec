"""What a slip breaks among orders and papers. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from projects.hooks import Level, PlanDays, TaskDays
from projects.models import Project
from suppliers.models import Document, Order, Supplier
from suppliers.ripples import order_ripple, order_windows, paper_ends, paper_ripple
from tests import factories

BEFORE, AFTER = (date(2031, 10, 13), date(2031, 10, 15)), (date(2031, 10, 20), date(2031, 10, 26))


def task(first: date, last: date, **fields) -> TaskDays:
    known = {"order_id": 7, "supplier_id": 3, "to_end": True, "finished": False}
    return TaskDays(
        pk=1, name="Lift on site", start=first, finish=last, late_finish=last, **{**known, **fields}
    )


def plan(*tasks: TaskDays) -> PlanDays:
    return PlanDays(
        tasks={found.pk: found for found in tasks},
        key_dates={},
        public_on=date(2031, 10, 25),
        public_name="Mill Lane Lantern Walk",
        work_done_on=None,
        finish_on=None,
        in_hand_days=3,
        today=date(2031, 8, 27),
    )


@pytest.fixture
def hire() -> Order:
    lift = Supplier(pk=3, project=Project(pk=1), name="Millrace Lift Hire")
    first, last = date(2031, 10, 12), date(2031, 10, 17)
    return Order(pk=7, supplier=lift, title="Lift hire", window_start=first, window_end=last)


def moved(order: Order, first: date, last: date):
    return order_ripple(order, plan(task(*BEFORE)), plan(task(first, last)))


def test_a_hire_breaks_when_the_lift_is_needed_after_its_last_day(hire):
    found = moved(hire, *AFTER)
    assert found.level == Level.BROKEN
    assert f"{found.subject} {found.says}" == (
        "Lift hire order is booked 12 to 17 Oct; it would be needed 20 to 26 Oct."
    )


def test_a_hire_breaks_when_the_lift_is_needed_before_its_first_day(hire):
    assert moved(hire, date(2031, 10, 10), date(2031, 10, 14)).level == Level.BROKEN


@pytest.mark.parametrize(
    ("last", "level", "end"),
    [
        (14, Level.HOLDS, ": still inside."),
        (15, Level.HOLDS, ": still inside."),
        (16, Level.NEAR, ": only 1 day to spare."),
        (17, Level.NEAR, ", to its last day: no room."),
        (18, Level.BROKEN, "needed 14 to 18 Oct."),
    ],
)
def test_a_hire_is_near_with_less_than_two_days_to_spare(hire, last, level, end):
    found = moved(hire, date(2031, 10, 14), date(2031, 10, last))
    assert found.level == level
    assert found.says.endswith(end)


def test_a_hire_whose_task_stays_is_not_worth_a_word(hire):
    assert moved(hire, *BEFORE) is None


def test_a_hire_without_days_is_not_worth_a_word(hire):
    hire.window_start = hire.window_end = None
    assert moved(hire, *AFTER) is None


def test_a_finished_task_needs_no_lift(hire):
    after = plan(task(*AFTER, finished=True))
    assert order_ripple(hire, plan(task(*BEFORE)), after) is None


def test_an_order_called_an_order_is_not_said_twice(hire):
    hire.title = "Frame order"
    assert moved(hire, *AFTER).says.startswith("is booked 12 to 17 Oct;")


def insurance(hire: Order, expires: date) -> Document:
    return Document(
        supplier=hire.supplier, kind="insurance", title="General liability", expires_on=expires
    )


@pytest.mark.parametrize(
    ("expires", "level", "says"),
    [
        (20, Level.BROKEN, "expires Mon 20 Oct, 6 days before its last task would end, Sun 26 Oct"),
        (26, Level.NEAR, "expires Sun 26 Oct, the day its last task would end: no room"),
        (27, Level.NEAR, "expires Mon 27 Oct, one day after its last task would end: little room"),
        (30, Level.HOLDS, "expires Thu 30 Oct, after its last task would end, Sun 26 Oct"),
    ],
)
def test_insurance_must_outlast_the_last_task(hire, expires, level, says):
    paper = insurance(hire, date(2031, 10, expires))
    found = paper_ripple(paper, plan(task(*BEFORE)), plan(task(*AFTER)))
    assert (found.level, found.subject) == (level, "Millrace Lift Hire's insurance")
    assert says in found.says


def test_insurance_is_not_worth_a_word_when_the_last_task_ends_as_before(hire):
    both = plan(task(*BEFORE))
    assert paper_ripple(insurance(hire, date(2031, 10, 14)), both, both) is None


def test_the_hooks_read_the_projects_own_orders_and_papers(project):
    lift = factories.SupplierFactory(project=project, name="Millrace Lift Hire")
    order = factories.OrderFactory(supplier=lift, window_end=date(2031, 10, 17))
    elsewhere = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    for supplier in (lift, elsewhere):
        supplier.documents.create(title="Cover", kind="insurance", expires_on=date(2031, 10, 20))
    first = task(*BEFORE, order_id=order.pk, supplier_id=lift.pk)
    before, after = plan(first), plan(replace(first, start=AFTER[0], finish=AFTER[1]))
    assert [r.level for r in order_windows(project, before, after)] == [Level.BROKEN]
    assert [r.subject for r in paper_ends(project, before, after)] == [
        "Millrace Lift Hire's insurance"
    ]


def test_a_cancelled_order_breaks_nothing(project):
    lift = factories.SupplierFactory(project=project)
    order = factories.OrderFactory(supplier=lift, state="cancelled", window_end=date(2031, 10, 17))
    first = task(*BEFORE, order_id=order.pk)
    after = plan(replace(first, start=AFTER[0], finish=AFTER[1]))
    assert order_windows(project, plan(first), after) == []


def test_a_maker_that_works_by_an_order_alone_must_be_covered_too(project):
    lift = factories.SupplierFactory(project=project, name="Millrace Lift Hire")
    lift.documents.create(title="Cover", kind="insurance", expires_on=date(2031, 10, 20))
    order = factories.OrderFactory(supplier=lift)
    first = task(*BEFORE, order_id=order.pk, supplier_id=None)
    after = plan(replace(first, start=AFTER[0], finish=AFTER[1]))
    [found] = paper_ends(project, plan(first), after)
    assert (found.level, found.subject) == (Level.BROKEN, "Millrace Lift Hire's insurance")
