"""Outdoor tasks of the plan as what a worksheet on the weather takes."""

from __future__ import annotations

from datetime import date, time

import pytest

from projects.models import Part, Stage
from schedules.engine import instant
from schedules.models import Task
from tests import factories
from worksheets.facts import facts_of
from worksheets.sheets import sheets

pytestmark = pytest.mark.django_db


def planned(task: Task, first: date, days: int) -> Task:
    task.early_start = instant(first) + 8 * 60
    task.early_finish = task.early_start + (days - 1) * 1440 + 8 * 60
    task.save()
    return task


def outdoor(name: str, **more: object) -> Task:
    return planned(factories.TaskFactory(name=name, outdoor=True, **more), date(2031, 6, 9), 3)


def test_unfinished_outdoor_tasks_are_known_with_their_days() -> None:
    task = outdoor("Paint mural field")
    project = task.project
    outdoor("Finished", project=project, finished_on=date(2031, 6, 1))
    planned(factories.TaskFactory(name="Indoors", project=project), date(2031, 6, 9), 1)
    factories.TaskFactory(name="Not yet planned", project=project, outdoor=True)
    fact = facts_of(project)["outdoor"]
    assert fact.value == (
        {"name": "Paint mural field", "first": date(2031, 6, 9), "last": date(2031, 6, 11)},
    )


def test_a_part_with_outdoor_tasks_takes_its_own_alone() -> None:
    part: Part = factories.PartFactory()
    stage, _ = Stage.objects.get_or_create(part=part, name="make", defaults={"position": 9})
    outdoor("Paint mural field", project=part.project, stage=stage)
    outdoor("Set wall anchors", project=part.project)
    names = [row["name"] for row in facts_of(part.project, part)["outdoor"].value]
    assert names == ["Paint mural field"]
    assert len(facts_of(part.project)["outdoor"].value) == 2


def test_a_project_without_outdoor_tasks_tells_of_none() -> None:
    assert "outdoor" not in facts_of(factories.ProjectFactory())


def test_the_hours_offered_are_those_of_the_tasks_calendar() -> None:
    task = outdoor("Wash and prime the wall")
    factories.CalendarFactory(project=task.project)
    task.calendar = factories.CalendarFactory(
        project=task.project, name="Volunteer weekends", weekdays="0000011", is_default=False,
        opens=time(9, 30), closes=time(15, 30),
    )  # fmt: skip
    task.save()
    facts = facts_of(task.project)
    assert [facts[f"outdoor.{name}"].value for name in ("opens", "closes", "weekdays")] == [
        10.0, 15.0, "end",
    ]  # fmt: skip
    assert facts["outdoor.opens"].says == (
        "the calendar “Volunteer weekends” of “Wash and prime the wall”"
    )
    reading = sheets()["paint-hours"].read({"opens": "", "closes": "", "weekdays": ""}, facts=facts)
    assert (reading.given.count("opens"), reading.given.choice("weekdays")) == (10, "end")


def test_a_task_without_a_calendar_of_its_own_is_worked_at_by_the_projects() -> None:
    task = outdoor("Paint mural field")
    factories.CalendarFactory(project=task.project, opens=time(8), closes=time(16))
    assert facts_of(task.project)["outdoor.closes"].value == 16.0
