"""A page that only looks reads the plan once; whatever changes it is never shown old rows."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth.models import User

from projects.access import project_for
from projects.hooks import tasks_planned
from schedules.models import PlanState, Task
from schedules.plan import current, key_dates_of, look, recompute
from schedules.services.planning import replanned
from tests.factories import TODAY


@pytest.fixture
def artist(place):
    return User.objects.get(username="ada")


@pytest.fixture
def looking(place, artist):
    return project_for(artist, place.project.pk)


def weld_of(project):
    return next(t for t in look(project, TODAY).rows.tasks if t.name.startswith("Weld"))


def test_who_only_looks_reads_and_solves_once(looking, django_assert_num_queries):
    first = look(looking, TODAY)
    current(looking, TODAY)
    with django_assert_num_queries(0):
        assert look(looking, TODAY) is first
        assert look(looking, TODAY).days is first.days
        current(looking, TODAY)


def test_tasks_and_dates_are_read_once_whoever_asks(looking, django_assert_num_queries):
    rows = look(looking, TODAY).rows
    current(looking, TODAY)
    with django_assert_num_queries(0):
        planned = tasks_planned(looking, TODAY)
        assert key_dates_of(looking) is rows.key_dates
    assert {task.pk for task in planned} == {task.pk for task in rows.tasks}


def test_who_may_change_reads_anew_each_time(place, artist):
    project = project_for(artist, place.project.pk, change=True)
    assert weld_of(project).days == 10
    Task.objects.filter(name__startswith="Weld").update(days=12)
    assert weld_of(project).days == 12


def test_so_does_a_project_that_came_through_no_gate(place):
    assert weld_of(place.project).days == 10
    Task.objects.filter(name__startswith="Weld").update(days=12)
    assert weld_of(place.project).days == 12


def test_each_request_reads_for_itself(place, artist):
    assert weld_of(project_for(artist, place.project.pk)).days == 10
    Task.objects.filter(name__startswith="Weld").update(days=12)
    assert weld_of(project_for(artist, place.project.pk)).days == 12


def test_computing_sees_what_was_written_after_the_page_looked(looking):
    before = look(looking, TODAY).plan.in_hand
    Task.objects.filter(name__startswith="Weld").update(days=20)
    state = recompute(looking, TODAY)
    assert state.in_hand < before
    assert look(looking, TODAY).plan.in_hand == current(looking, TODAY).in_hand == state.in_hand


def test_a_change_that_is_planned_anew_is_seen_at_once(looking):
    held = weld_of(looking).early_finish
    with replanned(looking, TODAY):
        Task.objects.filter(name__startswith="Weld").update(days=20)
    assert weld_of(looking).early_finish > held
    assert weld_of(looking).days == 20


def test_another_day_is_another_plan(looking):
    look(looking, TODAY)
    later = TODAY + timedelta(days=7)
    assert look(looking, later).rows.today == later
    assert current(looking, later).computed_on == later
    assert PlanState.objects.get(project=looking).computed_on == later
