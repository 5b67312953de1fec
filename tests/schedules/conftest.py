"""A planned project, and the people who look at it."""

from __future__ import annotations

import pytest
from django.urls import reverse

from schedules.models import Task
from schedules.plan import recompute
from tests import factories
from tests.conftest import logged_in

SALTGLAZE, LOFT = "Saltglaze Metalworks", "Third Bell Canvas Loft"


class Place:
    """A planned project with its addresses and its tasks by name."""

    def __init__(self):
        self.project = factories.planned_project()
        recompute(self.project, factories.TODAY)

    def url(self, name="schedule", *args):
        return reverse(f"schedules:{name}", args=[self.project.pk, *args])

    def task(self, name):
        return Task.objects.get(project=self.project, name__startswith=name)

    @property
    def public(self):
        return self.project.key_dates.get(kind="public")

    @property
    def in_hand(self):
        self.project.plan_state.refresh_from_db()
        return self.project.plan_state.in_hand_days

    @property
    def last_log(self):
        return self.project.log.first()


@pytest.fixture
def place(db):
    return Place()


@pytest.fixture
def ada(place):
    return logged_in("ada")


@pytest.fixture
def cyd(place):
    return logged_in("cyd")


@pytest.fixture
def dee(place):
    return logged_in("dee")


@pytest.fixture
def typed(place):
    """What the task form sends, with one thing or another changed."""

    def with_changes(task=None, **changes):
        lane = place.project.lanes.first()
        base = {"name": "Prime wall", "lane": lane.pk, "days": "4", "phase": ""}
        if task:
            base.update(name=task.name, lane=task.lane_id, days=str(task.days))
        return base | changes

    return with_changes


@pytest.fixture
def makers(place):
    """Saltglaze welds the frame, the loft sews the skin; both are lanes."""
    found = {}
    for name, start in ((SALTGLAZE, "Weld"), (LOFT, "Cut")):
        email = f"{name.split(maxsplit=1)[0].lower()}@shop.example"
        maker = factories.SupplierFactory(project=place.project, name=name, email=email)
        lane = factories.LaneFactory(project=place.project, name=name, supplier=maker)
        Task.objects.filter(name__startswith=start).update(lane=lane)
        found[name] = maker
    return found
