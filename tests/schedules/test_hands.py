"""One pair of hands: who is booked twice, the order that parts them, and the way back."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from schedules import plan
from schedules.models import Lane, Link, LinkKind
from schedules.plan import recompute
from schedules.plan.hands import hands_of, overloads
from tests import factories
from tests.factories import TODAY

HTMX = {"HX-Request": "true"}


@pytest.fixture
def twice(place):
    """The artist paints and builds a light at the same time; the walk waits for both."""
    project, walk = place.project, place.task("Lantern walk")
    for name, days in (("Paint mural field", 8), ("Build crank light", 5)):
        task = factories.TaskFactory(project=project, name=name, days=days)
        factories.LinkFactory(before=task, after=walk)
    lanes = {name: lane(project, name) for name in ("Saltglaze", "Third Bell", "Arts board")}
    for name, whose in (("Weld", "Saltglaze"), ("Cut", "Third Bell"), ("Encroach", "Arts board")):
        task = place.task(name)
        task.lane = lanes[whose]
        task.save()
    recompute(project, TODAY)
    return place


def lane(project, name, capacity=1):
    return factories.LaneFactory(project=project, name=name, capacity=capacity)


def page_of(client, place, query="", **kwargs):
    return client.get(f"{place.url('hands')}{query}", **kwargs).content.decode()


def apply(client, place, seen=None):
    page = page_of(client, place, "?level=first")
    seen = seen or re.search(r'name="seen" value="([^"]+)"', page)[1]
    return client.post(place.url("hands-apply"), {"seen": seen})


def overbooked(place):
    rows = plan.read(place.project, TODAY)
    return overloads(rows, hands_of(rows), plan.solve(rows))


def test_an_artist_who_paints_and_builds_at_once_is_named(twice, ada):
    page = page_of(ada, twice)
    assert "Artist is booked for more than they can do at once." in page
    assert "Paint mural field" in page and "Build crank light" in page
    assert "Mon 3 – Fri 7 Mar" in page


def test_the_schedule_names_who_is_booked_twice_in_a_line(twice, ada):
    def line():
        return "Artist is booked twice." in ada.get(twice.url()).content.decode()

    assert line()
    apply(ada, twice)
    assert not line()


def test_nobody_booked_twice_is_said_and_taught(place, ada):
    place.project.lanes.update(capacity=None)
    page = page_of(ada, place)
    assert "Nobody is booked twice." in page and "Level the plan" not in page


def test_levelling_shows_what_moves_by_how_much_and_why(twice, ada):
    page = page_of(ada, twice, "?level=first")
    assert "Artist does “Build crank light” first" in page
    assert "+5 days" in page and "Mon 10 – Wed 19 Mar" in page
    assert "45 days in hand" in page
    assert not Link.objects.filter(same_hands=True)


def test_applied_order_links_leave_nobody_booked_twice(twice, ada):
    assert overbooked(twice)
    apply(ada, twice)
    made = Link.objects.get(same_hands=True)
    assert (made.before.name, made.after.name) == ("Build crank light", "Paint mural field")
    assert (made.kind, made.reason) == (LinkKind.FS, "Same hands")
    assert not overbooked(twice)
    assert "Levelled the plan with 1 order link" in twice.last_log.sentence


def test_all_order_links_go_with_one_press(twice, ada):
    apply(ada, twice)
    ada.post(twice.url("hands-undo"))
    assert not Link.objects.filter(same_hands=True)
    assert overbooked(twice) and twice.project.log.count() == 2
    assert "Took out 1 order link" in twice.last_log.sentence


def test_one_order_link_can_be_taken_out_on_its_task(twice, ada):
    apply(ada, twice)
    link = Link.objects.get(same_hands=True)
    page = ada.get(twice.url("task-edit", link.after_id)).content.decode()
    assert "Same hands" in page
    ada.post(twice.url("link-delete", link.pk))
    assert not Link.objects.filter(same_hands=True)


def test_levelling_anew_drops_the_old_order_links_first(twice, ada):
    light, mural = twice.task("Build"), twice.task("Paint")
    Link.objects.create(project=twice.project, before=mural, after=light, same_hands=True)
    recompute(twice.project, TODAY)
    apply(ada, twice)
    made = Link.objects.get(same_hands=True)
    assert (made.before, made.after) == (light, mural)


def test_a_wait_takes_nobodys_hands(twice, ada):
    twice.project.tasks.filter(name__startswith="Paint").update(waits=True)
    assert "Nobody is booked twice." in page_of(ada, twice)


def test_a_crew_of_two_does_two_tasks_at_once(twice, ada):
    Lane.objects.filter(name="Artist").update(capacity=2)
    assert "Nobody is booked twice." in page_of(ada, twice)


def test_a_task_takes_the_hands_of_the_lift_as_well(twice, ada):
    lift = lane(twice.project, "Millrace Lift Hire")
    Lane.objects.filter(name="Artist").update(capacity=None)
    for name in ("Paint", "Build"):
        twice.task(name).also.add(lift)
    assert "Millrace Lift Hire is booked for more" in page_of(ada, twice)


def test_work_that_has_started_stays_where_it_is(twice, ada):
    twice.project.tasks.filter(name__startswith="Paint").update(started_on=TODAY)
    recompute(twice.project, TODAY)
    apply(ada, twice)
    assert Link.objects.get(same_hands=True).before.name == "Paint mural field"


def test_what_is_started_on_both_sides_is_told_and_not_parted(twice, ada):
    twice.project.tasks.filter(lane__name="Artist", days__gt=0).update(started_on=TODAY)
    recompute(twice.project, TODAY)
    page = page_of(ada, twice, "?level=first")
    assert "What no order can part" in page and "Apply" not in page


def test_a_preview_that_went_stale_is_answered_with_the_new_one(twice, ada):
    page = page_of(ada, twice, "?level=first")
    seen = re.search(r'name="seen" value="([^"]+)"', page)[1]
    twice.project.tasks.filter(name__startswith="Paint").update(days=3)
    answer = apply(ada, twice, seen)
    assert answer.status_code == 409
    assert "Nothing was applied" in answer.content.decode()
    assert not Link.objects.filter(same_hands=True)


@pytest.mark.parametrize("seen", ["", "nonsense", "a:b:c"])
def test_an_order_that_was_not_shown_is_not_applied(twice, ada, seen):
    answer = ada.post(twice.url("hands-apply"), {"seen": seen})
    assert answer.status_code == 409 and not Link.objects.filter(same_hands=True)


def test_a_longer_search_says_that_it_is_proven(twice, ada):
    page = page_of(ada, twice, "?level=better", headers=HTMX)
    assert "No order of this work is ready earlier: that is proven." in page
    assert "<html" not in page


def test_a_lane_of_no_hands_is_told_and_nothing_breaks(twice, ada):
    Lane.objects.filter(name="Artist").update(capacity=0)
    page = page_of(ada, twice, "?level=first")
    assert "needs Artist, whose limit is 0 at once" in page


def test_a_reader_looks_but_does_not_level(twice, cyd):
    page = page_of(cyd, twice, "?level=first")
    assert "+5 days" in page and 'name="seen"' not in page
    assert cyd.post(twice.url("hands-apply"), {"seen": ""}).status_code == 403
    assert cyd.post(twice.url("hands-undo")).status_code == 403


def test_the_page_asks_as_often_for_many_tasks_as_for_few(twice, ada):
    def queries():
        with CaptureQueriesContext(
            connection,
        ) as asked:
            page_of(ada, twice, "?level=first")
        return len(asked)

    queries()
    few = queries()
    for n in range(12):
        factories.TaskFactory(project=twice.project, name=f"Panel {n}", days=2)
    recompute(twice.project, TODAY)
    assert queries() == few


def test_the_chance_is_told_before_the_order_is_applied(twice, ada):
    page = page_of(ada, twice, "?level=first")
    assert len(re.findall(r"<small>chance about [\w ]+ %</small>", page)) == 2


def test_an_order_that_stands_is_not_offered_again(twice, ada):
    apply(ada, twice)
    page = page_of(ada, twice, "?level=first")
    assert "nothing to change" in page and "Apply " not in page
