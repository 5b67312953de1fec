"""The drawing of a saved project, and its page."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.template.loader import render_to_string

from schedules.models import Hammock, Link
from schedules.plan import read, recompute
from schedules.services.records import keep_plan
from schedules.timeline.marks import State
from schedules.timeline.rows import draw, draw_pages
from schedules.timeline.ties import lag_words
from tests.factories import (
    PUBLIC,
    TODAY,
    KeyDateFactory,
    LaneFactory,
    LinkFactory,
    TaskFactory,
    planned_project,
    user,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def planned():
    return planned_project()


def drawn(project, **how):
    recompute(project, TODAY)
    return draw(read(project, TODAY), **how)


def shapes(project, **how):
    by_pk = {task.pk: task.name for task in project.tasks.all()}
    return {by_pk[int(shape.key)]: shape for shape in drawn(project, **how).bars}


def page(drawing, template="_timeline.html", **more):
    return render_to_string(f"schedules/{template}", {"timeline": drawing, **more})


def test_the_frame_and_the_skin_carry_the_walk(planned):
    found = shapes(planned)
    assert found["Weld lantern frame"].state is State.CHAIN
    assert found["Cut and sew skin"].state is State.CHAIN
    assert found["Encroachment permit review"].state is State.PLAIN


def test_a_bar_says_its_days_and_that_it_carries_the_date(planned):
    title = shapes(planned)["Weld lantern frame"].title
    assert title == "Weld lantern frame: Mon 3 Mar to Fri 14 Mar, carries the date"


def test_a_working_day_fills_its_day(planned):
    found = shapes(planned, zoom="weeks")["Weld lantern frame"]
    assert found.width == pytest.approx(12 * 13.4, abs=0.1)  # Monday to the second Friday


def test_placed_late_the_chain_ends_at_the_walk(planned):
    early, late = shapes(planned), shapes(planned, placed="latest")
    assert late["Cut and sew skin"].box.x0 > early["Cut and sew skin"].box.x0
    assert late["Lantern walk"].box.x0 == early["Lantern walk"].box.x0


def test_placed_late_what_is_under_way_still_begins_where_it_began(planned):
    planned.tasks.filter(name="Weld lantern frame").update(started_on=date(2031, 2, 24))
    early, late = shapes(planned), shapes(planned, placed="latest")
    name = "Weld lantern frame"
    assert late[name].box.x0 == early[name].box.x0
    assert late[name].box.x1 > early[name].box.x1


def test_a_done_task_is_done_and_keeps_no_tail(planned):
    planned.tasks.filter(name="Weld lantern frame").update(
        started_on=TODAY.replace(month=2, day=3), finished_on=TODAY.replace(month=2, day=14)
    )
    found = shapes(planned)["Weld lantern frame"]
    assert found.state is State.DONE
    assert not found.tail


def test_a_cure_waits_at_the_foot_with_its_reason(planned):
    frame = planned.tasks.get(name="Weld lantern frame")
    crew = LaneFactory(project=planned, name="Volunteer crew", position=2)
    fit = TaskFactory(project=planned, name="Fit lights", lane=crew)
    LinkFactory(
        before=frame, after=fit, lag=Decimal(72), lag_clock="elapsed", reason="Powder coat cures"
    )
    wait = drawn(planned).waits[0]
    assert wait.title == "Powder coat cures: waiting 3 days, Fri 14 Mar to Mon 17 Mar"
    assert not wait.carries


def test_two_tasks_that_wait_for_one_cure_share_its_mark(planned):
    frame = planned.tasks.get(name="Weld lantern frame")
    for name in ("Fit lights", "Hang lantern"):
        after = TaskFactory(project=planned, name=name, lane=frame.lane)
        LinkFactory(before=frame, after=after, lag=Decimal(24), lag_clock="elapsed", reason="Cure")
    assert len(drawn(planned).waits) == 1


def test_an_expiry_is_a_flag_and_the_walk_is_the_public_date(planned):
    KeyDateFactory(
        project=planned, name="Permit expires", kind="expiry", effect="none", on="2031-06-20"
    )
    kinds = {flag.label.text: flag.kind for flag in drawn(planned).flags}
    assert kinds["Permit expires, 20 Jun"] == "key"
    assert kinds["Mill Lane Lantern Walk, 14 Jun"] == "public"


def test_an_unknown_zoom_means_the_whole_plan(planned):
    assert drawn(planned, zoom="<b>", placed="sideways").zoom == "fit"


def test_a_task_without_a_plan_is_left_out(planned):
    recompute(planned, TODAY)
    TaskFactory(project=planned, name="Not yet placed")
    assert len(draw(read(planned, TODAY)).bars) == 4


@pytest.mark.parametrize("name", ["<b>&\"'", "🎨 fern trough", "W" * 120])
def test_any_name_gives_a_drawing_that_parses(planned, name):
    planned.tasks.filter(name="Weld lantern frame").update(name=name)
    drawing = drawn(planned)
    root = ET.fromstring(page(drawing, "_timeline_svg.html").strip())
    titles = [title.text for title in root.iter("{http://www.w3.org/2000/svg}title")]
    assert any(title.startswith(f"{name}: ") for title in titles if title)


def test_the_page_has_no_inline_style_or_script(planned):
    html = page(drawn(planned))
    assert "style=" not in html
    assert "<style" not in html
    assert "<script" not in html


def test_the_drawing_holds_links_on_screen_and_is_a_picture_on_paper(planned):
    screen = page(drawn(planned, url=lambda task: f"/tasks/{task.pk}"), "_timeline_svg.html")
    assert 'role="group"' in screen
    assert screen.count('<a href="/tasks/') == 4
    paper = page(draw_pages(read(planned, TODAY))[0], "_timeline_svg.html")
    assert 'role="img"' in paper
    assert "<a " not in paper
    assert "var(" not in paper


def test_the_list_by_week_names_every_task_once(planned):
    drawing = drawn(planned)
    rows = [row.name for week in drawing.weeks for row in week.rows]
    assert sorted(set(rows)) == sorted(rows)
    assert drawing.weeks[0].title == "This week, 3 to 9 Mar"


def kept_then(project, **moved):
    record = keep_plan(project=project, user=user("ada"), today=TODAY, reason="As agreed")
    project.tasks.filter(name="Weld lantern frame").update(**moved)
    return record


def against(project, record):
    recompute(project, TODAY)
    return draw(read(project, TODAY), record=record, against="record")


def test_held_against_the_plan_of_record_a_late_frame_tells_by_how_much(planned):
    drawing = against(planned, kept_then(planned, days=13))
    frame = next(bar for bar in drawing.bars if bar.title.startswith("Weld lantern frame"))
    words = "ends 3 working days later than in Rev A (Mon 3 Mar to Fri 14 Mar)"
    assert frame.title.endswith(words)
    assert frame.kept.x1 < frame.box.x1


def test_what_ends_as_it_was_kept_says_so(planned):
    drawing = against(planned, kept_then(planned, days=13))
    review = next(bar for bar in drawing.bars if bar.title.startswith("Encroachment"))
    assert review.title.endswith("ends as in Rev A")


def test_a_task_dropped_since_is_drawn_where_it_was_kept(planned):
    record = kept_then(planned)
    planned.tasks.filter(name="Encroachment permit review").delete()
    [gone] = against(planned, record).others
    said = "Encroachment permit review: Mon 3 Mar to Fri 21 Mar in Rev A, dropped since"
    assert (gone.kind, gone.title) == ("dropped", said)


def test_a_moved_public_date_keeps_a_flag_where_it_was(planned):
    record = kept_then(planned)
    planned.key_dates.update(on=PUBLIC + timedelta(days=7))
    words = {flag.label.text for flag in against(planned, record).flags}
    assert "Mill Lane Lantern Walk in Rev A, 14 Jun" in words


def test_the_choice_to_hold_it_against_a_record_comes_with_the_first_record(planned):
    assert not drawn(planned).againsts
    drawing = drawn(planned, record=kept_then(planned))
    assert [view.name for view in drawing.againsts] == ["Nothing", "Rev A"]
    assert not any(bar.kept for bar in drawing.bars)


def test_a_record_with_a_torn_row_still_draws_the_rest(planned):
    record = kept_then(planned)
    record.rows["tasks"][0] = {"pk": 1, "start": "soon"}
    assert sum(bar.kept is not None for bar in against(planned, record).bars) == 3


def test_each_bar_carries_the_keys_of_what_it_waits_for(planned):
    frame, skin = (planned.tasks.get(name=n) for n in ("Weld lantern frame", "Cut and sew skin"))
    planned.links.filter(after=skin).update(kind="SS", lag=2, reason="first panel dry")
    found = {bar.key: bar.links for bar in drawn(planned).bars}
    said = [[str(frame.pk), "SS", "start to start, 2 working days: first panel dry"]]
    assert json.loads(found[str(skin.pk)]) == said
    assert not found[str(frame.pk)]


@pytest.mark.parametrize(
    ("lag", "clock", "words"),
    [
        (Decimal(72), "elapsed", "3 days"),
        (Decimal(30), "elapsed", "30 hours"),
        (Decimal("1.5"), "work", "1.5 working days"),
        (Decimal(-1), "work", "1 working day before that"),
        (Decimal(1), "project", "1 working day of the project"),
        (Decimal(2), "after", "2 working days of the task that waits"),
        (Decimal(0), "work", ""),
    ],
)
def test_a_lag_is_told_on_its_own_clock(lag, clock, words):
    assert lag_words(Link(lag=lag, lag_clock=clock)) == words


def test_the_end_of_what_is_finished_or_a_moment_cannot_be_drawn_out(planned):
    planned.tasks.filter(name="Encroachment permit review").update(
        started_on=date(2031, 2, 3), finished_on=date(2031, 2, 14)
    )
    free = {bar.title.split(":")[0] for bar in drawn(planned).bars if bar.calendar}
    assert free == {"Weld lantern frame", "Cut and sew skin"}


def test_the_days_of_a_bar_are_counted_on_its_own_calendar(planned):
    drawing = drawn(planned)
    frame = next(bar for bar in drawing.bars if bar.title.startswith("Weld"))
    first, last = (int(day) for day in frame.span.split())
    worked = dict(drawing.worked)[frame.calendar]
    assert worked[first : last + 1].count("1") == 10


def test_a_lift_hire_spans_the_tasks_that_need_it(planned):
    lift = LaneFactory(project=planned, name="Millrace Lift Hire", position=9)
    hire = Hammock.objects.create(project=planned, name="Lift hire", lane=lift)
    hire.from_tasks.set(planned.tasks.filter(name="Weld lantern frame"))
    hire.to_tasks.set(planned.tasks.filter(name="Cut and sew skin"))
    drawing = drawn(planned)
    [shape] = drawing.others
    bars = {bar.title.split(":")[0]: bar.box for bar in drawing.bars}
    assert shape.box.x0 == bars["Weld lantern frame"].x0
    assert shape.box.x1 == bars["Cut and sew skin"].x1
    assert "Millrace Lift Hire" in {lane.name for lane in drawing.lanes}


def test_on_paper_the_screen_shows_the_pages_without_a_style(planned):
    html = page(drawn(planned, zoom="paper"))
    assert "timeline-page" in html
    assert "<style" not in html
    assert html.count('id="hatch-done"') == 1


def test_the_list_by_week_says_what_a_link_of_the_chain_comes_after(planned):
    rows = {row.name: row.note for week in drawn(planned).weeks for row in week.rows}
    assert rows["Cut and sew skin"] == "after “Weld lantern frame”"


def test_an_empty_plan_says_what_belongs_here(project):
    assert "No task is planned yet." in page(drawn(project))
