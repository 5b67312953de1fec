"""The drawing of a saved project, and its page."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from decimal import Decimal

import pytest
from django.template.loader import render_to_string

from schedules.plan import read, recompute
from schedules.timeline.marks import State
from schedules.timeline.rows import draw, draw_pages
from tests.factories import (
    TODAY,
    KeyDateFactory,
    LaneFactory,
    LinkFactory,
    TaskFactory,
    planned_project,
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


def test_an_empty_plan_says_what_belongs_here(project):
    assert "No task is planned yet." in page(drawn(project))
