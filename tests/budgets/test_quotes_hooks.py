"""What a slip does to quotes, and what the overview says of those that wait."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.overview import quotes_panel
from budgets.ripples import quotes_that_end
from projects.hooks import Level
from schedules import plan
from schedules.models import Task
from tests.budgets.quoting import LOCKSIDE, LOFT, asked_for, quote
from tests.factories import TODAY, planned_project

pytestmark = pytest.mark.django_db


@pytest.fixture
def project(db):
    return planned_project()


def days(project, frame_days: int):
    """The skin begins the day after the frame is welded."""
    Task.objects.filter(project=project, name="Weld lantern frame").update(days=frame_days)
    rows = plan.read(project, TODAY)
    return plan.plan_days(rows, plan.solve(rows))


def test_a_price_that_ends_before_its_work_would_begin_is_told_of(project):
    request = asked_for(project, task="Cut and sew skin")
    quote(request, LOFT, valid_until=date(2031, 3, 19))
    quote(request, LOCKSIDE, valid_until=date(2031, 3, 25))
    quote(request, "Tannery Sheet Metal", valid_until=date(2031, 4, 25))
    quote(request, "Saltglaze Metalworks")
    before, after = days(project, 10), days(project, 15)
    found = {ripple.subject: ripple for ripple in quotes_that_end(project, before, after)}
    assert {name: ripple.level for name, ripple in found.items()} == {
        "Third Bell Canvas Loft's quote": Level.BROKEN,
        "Lockside Upholstery's quote": Level.NEAR,
        "Tannery Sheet Metal's quote": Level.HOLDS,
    }
    assert found["Third Bell Canvas Loft's quote"].says == (
        "for “Lantern skin” holds until Wed 19 Mar; its work would begin Mon 24 Mar, "
        "5 days after that."
    )


def test_a_slip_that_leaves_the_task_alone_says_nothing_of_quotes(project):
    request = asked_for(project, task="Cut and sew skin")
    quote(request, LOFT, valid_until=date(2031, 3, 4))
    same = days(project, 10)
    assert quotes_that_end(project, same, same) == []


def test_the_overview_names_answers_due_and_prices_that_end(project):
    assert quotes_panel(project, TODAY) is None
    request = asked_for(project, answer_by=date(2031, 3, 1))
    quote(request, LOFT, valid_until=date(2031, 3, 5))
    quote(request, LOCKSIDE, None)
    row = quotes_panel(project, TODAY).rows[0]
    assert row.level == Level.NEAR
    assert row.detail == ("1 of 2 answers, the rest was due Sat 1 Mar, a price ends Wed 5 Mar")
    request.is_closed = True
    request.save()
    assert quotes_panel(project, TODAY) is None
