"""Working days, or a first possible day, go to a task; the plan follows and says what moves."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from projects.models import Project
from schedules.models import Task
from schedules.plan import recompute
from tests import factories
from tests.worksheets.handing import Place, told
from worksheets.engine.result import ToTask

pytestmark = pytest.mark.django_db
WINDOW = ToTask(
    key="window", label="First day that can be painted", days=12.0,
    not_before=date(2031, 3, 10), reason="Dry from 10 March",
)  # fmt: skip
DAYS = ToTask(key="days", label="Days of painting", days=2.505)


@pytest.fixture
def project(db: Any) -> Project:
    made = factories.planned_project()
    recompute(made, factories.TODAY)
    return made


@pytest.fixture(autouse=True)
def hands(place: Place) -> None:
    place.hands.extend([WINDOW, DAYS])


def frame() -> Task:
    return Task.objects.get(name="Weld lantern frame")


def test_days_and_the_first_day_are_set_and_the_plan_follows(place: Place) -> None:
    place.send("window", task=frame().pk)
    task = frame()
    assert (task.days, task.not_before) == (Decimal(12), date(2031, 3, 10))
    assert task.not_before_reason == "Dry from 10 March"
    fresh = Task.objects.get(name="Cut and sew skin").early_start
    recompute(place.project, factories.TODAY)
    assert Task.objects.get(name="Cut and sew skin").early_start == fresh


def test_it_says_what_moves_and_what_becomes_of_the_public_date(place: Place) -> None:
    page = told(place.look("window", task=frame().pk))
    assert "Working days 10 working days → becomes 12 working days" in page
    assert "Not before any day → becomes Mon 10 Mar 2031" in page
    assert "“Weld lantern frame” moves from Mon 3 – Fri 14 Mar to Mon 10 – Tue 25 Mar." in page
    assert "“Cut and sew skin” moves from Mon 17 Mar – Fri 11 Apr to " in page
    assert "Mill Lane Lantern Walk 45 days in hand → becomes 38 days in hand" in page


def test_what_was_foreseen_is_what_the_plan_then_says(place: Place) -> None:
    page = told(place.look("window", task=frame().pk))
    place.send("window", task=frame().pk)
    after = told(place.look("window", task=frame().pk))
    then = page.split("Mill Lane Lantern Walk")[1].split("becomes ")[1].split(" It ")[0]
    assert f"{then[:16].strip()}" in after
    assert "No task moves." in after


def test_the_least_and_the_most_days_stay_in_proportion(place: Place) -> None:
    Task.objects.filter(name="Weld lantern frame").update(low_days=8, high_days=15)
    assert "If it goes badly 15 working days → becomes 18 working days" in told(
        place.look("window", task=frame().pk)
    )
    place.send("window", task=frame().pk)
    assert (frame().low_days, frame().high_days) == (Decimal("9.6"), Decimal(18))


def test_out_of_proportion_they_stay_and_must_still_be_in_order(place: Place) -> None:
    Task.objects.filter(name="Weld lantern frame").update(low_days=8, high_days=11)
    answer = place.send("window", seen="x", task=frame().pk, keep="")
    assert answer.status_code == 422
    assert "Its days if it goes badly: This is less than the working days above." in (
        answer.content.decode()
    )
    assert place.send("window", task=frame().pk, keep="", days="11").status_code == 302
    assert (frame().days, frame().high_days) == (Decimal(11), Decimal(11))


def test_days_are_rounded_up_to_hundredths(place: Place) -> None:
    assert place.opened("days")["days"] == "2.51"


def test_only_what_the_result_knows_is_asked_for(place: Place) -> None:
    page = place.page("days")
    assert "Working days" in page
    assert "Cannot start before" not in page


def test_days_left_empty_stay_and_only_the_day_is_set(place: Place) -> None:
    place.send("window", task=frame().pk, days="")
    assert (frame().days, frame().not_before) == (Decimal(10), date(2031, 3, 10))


def test_a_task_under_way_is_not_offered(place: Place) -> None:
    Task.objects.filter(name="Weld lantern frame").update(started_on=factories.TODAY)
    answer = place.send("window", seen="x", task=frame().pk)
    assert answer.status_code == 422
    assert frame().not_before is None


def test_a_task_that_started_since_is_said(place: Place) -> None:
    place.send("window", task=frame().pk)
    Task.objects.filter(name="Weld lantern frame").update(started_on=factories.TODAY)
    assert "The task has started since: say on the schedule how far it is." in place.page()


@pytest.mark.parametrize(("typed", "says"), [
    ({"days": "soon"}, "Write a number of days, such as 3 or 1.5."),
    ({"days": "-1"}, "A task cannot take less than no time."),
    ({"not_before": "2031-02-30"}, "There is no such day."),
    ({"not_before": "", "days": "3"}, "Choose the day that this is the reason for."),
    ({"task": ""}, "Choose the task that this is about."),
])  # fmt: skip
def test_wrong_days_are_said_beside_their_field(
    place: Place, typed: dict[str, str], says: str
) -> None:
    answer = place.send("window", seen="x", **{"task": str(frame().pk), **typed})
    assert answer.status_code == 422
    assert says in answer.content.decode()


def test_a_public_date_that_would_be_missed_waits_to_be_seen(place: Place) -> None:
    late = {"task": frame().pk, "not_before": "2031-06-02"}
    answer = place.send("window", seen="x", **late)
    assert answer.status_code == 409
    assert "Mill Lane Lantern Walk would be missed by" in answer.content.decode()
    assert frame().not_before is None
    assert place.send("window", **late).status_code == 302
    assert frame().not_before == date(2031, 6, 2)


def test_the_log_tells_of_the_task_and_of_the_worksheet(place: Place) -> None:
    place.send("window", task=frame().pk)
    assert place.log[0] == (
        "Handed on “First day that can be painted” of “Soil of the troughs”: 12 working days, not "
        "before Mon 10 Mar 2031 to the task “Weld lantern frame”."
    )
    assert place.log[1].startswith("Changed “Weld lantern frame”: days from 10 to 12, not before")


def test_a_plan_that_moved_meanwhile_is_looked_at_again(place: Place) -> None:
    page = place.look("window", task=frame().pk)
    seen = page.split('name="seen" value="')[1].split('"')[0]
    Task.objects.filter(name="Weld lantern frame").update(days=9)
    answer = place.send("window", seen=seen, task=frame().pk)
    assert answer.status_code == 409
    assert frame().days == Decimal(9)


def test_where_no_task_is_left_it_says_what_to_do_first(place: Place) -> None:
    Task.objects.update(started_on=factories.TODAY)
    assert "Every task has started, or none is planned." in place.page("window")
