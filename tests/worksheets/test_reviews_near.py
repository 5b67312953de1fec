"""The installation comes near while somebody has still to check."""

from __future__ import annotations

import pytest

from projects.hooks import Level
from projects.models import Stage
from schedules import plan
from tests import factories
from tests.factories import TODAY
from worksheets.ripples import missing_reviews


@pytest.fixture
def hung(project):
    """A frame that hangs, whose installation waits for the weld."""
    part = factories.PartFactory(project=project, mounting="wall")
    stage = Stage.objects.create(part=part, name="install", position=1)
    weld = factories.TaskFactory(project=project, name="Weld", days=5)
    lift = factories.TaskFactory(project=project, name="Hang the frame", days=2, stage=stage)
    factories.LinkFactory(before=weld, after=lift)
    return weld


def days(project, weld, count: int, *, today=TODAY):
    weld.days = count
    weld.save()
    rows = plan.read(project, today)
    return plan.plan_days(rows, plan.solve(rows))


def test_two_weeks_before_the_installation_missing_reviews_are_told(project, hung):
    far, near = days(project, hung, 15), days(project, hung, 8)
    assert missing_reviews(project, near, far) == []
    found = missing_reviews(project, far, near)
    assert [ripple.level for ripple in found] == [Level.NEAR]
    assert found[0].says == (
        "are missing: 1 thing still open, and “Hang the frame” begins Thu 13 Mar, in 10 days."
    )
    assert found[0].url.endswith("/worksheets/ready/")


def test_an_installation_that_has_begun_without_reviews_is_broken(project, hung):
    same = days(project, hung, 0)
    assert [r.level for r in missing_reviews(project, same, same)] == [Level.BROKEN]


def test_where_nothing_asks_for_a_review_nothing_is_told(project, hung):
    project.parts.update(mounting="ground", kind="planter")
    same = days(project, hung, 5)
    assert missing_reviews(project, same, same) == []


def test_a_project_without_an_installation_is_told_nothing(project):
    weld = factories.TaskFactory(project=project, name="Weld", days=5)
    factories.PartFactory(project=project, mounting="wall")
    same = days(project, weld, 1)
    assert missing_reviews(project, same, same) == []
