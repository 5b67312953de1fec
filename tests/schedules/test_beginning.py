"""A new project begins from a starting plan, laid out back from its public date."""

from __future__ import annotations

import json
import re
from datetime import date

import pytest
from django.conf import settings

from projects import hooks
from projects.models import StageName
from schedules.beginning import lay_out_plan
from schedules.models import LagClock
from tests import factories

STARTS = sorted((settings.ROOT / "fixtures" / "starts").glob("*.json"))


def begun(plan, public_on=date(2032, 6, 12)):
    project = factories.ProjectFactory()
    for part in plan["parts"]:
        made = factories.PartFactory(project=project, name=part["name"], kind=part["kind"])
        for n, name in enumerate(StageName.values):
            made.stages.create(name=name, position=n)
    beginning = hooks.Beginning(
        project=project,
        plan=plan,
        public_on=public_on,
        public_name="Mill Lane Lantern Walk",
        weekdays="1111100",
        today=factories.TODAY,
    )
    lay_out_plan(beginning)
    return project


@pytest.fixture(params=STARTS, ids=lambda path: path.stem)
def plan(request):
    return json.loads(request.param.read_text(encoding="utf-8"))


def test_there_are_five_starting_plans():
    assert len(STARTS) == 5


def test_every_task_lane_and_link_of_the_plan_is_there_and_dated(plan, db):
    project = begun(plan)
    assert project.tasks.count() == len(plan["tasks"])
    assert project.lanes.count() == len(plan["lanes"])
    assert project.links.count() == len(plan["links"])
    assert not project.tasks.filter(early_start=None).exists()
    assert [t.name for t in project.tasks.all()] == [row["name"] for row in plan["tasks"]]


def test_the_public_date_is_the_event_of_the_plan(plan, db):
    project = begun(plan)
    public = project.key_dates.get()
    event = next(row["name"] for row in plan["tasks"] if row["key"] == plan["event"])
    assert (public.kind, public.effect, public.task.name) == ("public", "event", event)
    assert project.plan_state.in_hand_days is not None


def test_a_far_date_leaves_days_in_hand_and_a_near_one_is_late(plan, db):
    assert begun(plan, date(2033, 6, 11)).plan_state.in_hand_days > 0
    near = begun(plan, date(2031, 4, 12)).plan_state
    assert near.in_hand_days < 0
    assert near.to_start_now > 0


def test_waits_in_hours_run_on_the_clock_and_keep_their_reason(plan, db):
    project = begun(plan)
    waits = [row for row in plan["links"] if row.get("lag_hours")]
    kept = project.links.filter(lag_clock=LagClock.ELAPSED)
    assert sorted(int(row.lag) for row in kept) == sorted(row["lag_hours"] for row in waits)
    assert {row.reason for row in kept} == {row["reason"] for row in waits}


def test_a_stage_of_a_part_is_tied_to_its_task_once(plan, db):
    project = begun(plan)
    named = {(r["part"], r["stage"]) for r in plan["tasks"] if r.get("stage") and r.get("part")}
    tied = project.tasks.exclude(stage=None)
    found = {(t.stage.part.name, t.stage.name) for t in tied}
    assert found == {(part, re.sub("[ -]", "_", stage)) for part, stage in named}


def test_it_takes_a_constant_number_of_queries(db, django_assert_max_num_queries):
    plan = json.loads(STARTS[0].read_text(encoding="utf-8"))
    with django_assert_max_num_queries(40 + 8 * len(plan["parts"])):
        begun(plan)
