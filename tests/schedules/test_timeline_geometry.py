"""Where things stand in the drawing. The rules are the project's own; no outside source."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from schedules.timeline.drawing import Timeline
from schedules.timeline.layout import lay_out, lay_out_pages
from schedules.timeline.marks import Chart, Flag, State, Zoom
from schedules.timeline.shapes import Box
from schedules.timeline.text import width
from tests.schedules.timeline_charts import FIRST, at, bar, charts, kept, lantern_walk, many

quick = settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def shrunk(box: Box, by: float = 0.2) -> Box:
    return Box(box.x0 + by, box.y0 + by, box.x1 - by, box.y1 - by)


def marks(drawing: Timeline) -> list[tuple[object, Box]]:
    shapes = [*drawing.bars, *drawing.waits, *drawing.others]
    found = [(shape, shrunk(shape.box)) for shape in shapes]
    return found + [(bar, shrunk(bar.kept)) for bar in drawing.bars if bar.kept]


def labels(drawing: Timeline) -> list[tuple[object, Box]]:
    shapes = [*drawing.bars, *drawing.waits, *drawing.others]
    body = [(shape, shrunk(shape.label.box)) for shape in shapes]
    head = [(flag, shrunk(flag.label.box)) for flag in drawing.flags]
    return body + head + [(date, shrunk(date.box)) for date in drawing.scale]


def meeting(boxes: list[tuple[object, Box]]) -> list[tuple[object, object]]:
    """Pairs that meet, from the top of the drawing down."""
    found, near = [], []
    for owner, box in sorted(boxes, key=lambda pair: pair[1].y0):
        near = [(other, b) for other, b in near if b.y1 > box.y0]
        found += [(other, owner) for other, b in near if b.meets(box)]
        near.append((owner, box))
    return found


def assert_clean(drawing: Timeline) -> None:
    written, drawn = labels(drawing), marks(drawing)
    assert not meeting(written)
    assert not meeting(drawn)
    assert not [(a, b) for a, b in meeting(written + drawn) if a is not b]
    for box in (box for _, box in written + drawn):
        assert box.x0 >= 0 and box.x1 <= drawing.width
        assert box.y0 >= 0 and box.y1 <= drawing.height
    for shape in (*drawing.bars, *drawing.waits, *drawing.others):
        room = shape.label.box.x1 - shape.label.box.x0
        assert width(shape.label.text, drawing.metrics.text) <= room + 0.1


@pytest.mark.parametrize("zoom", list(Zoom))
def test_nothing_collides_or_clips_in_the_lantern_walk(zoom):
    assert_clean(lay_out(lantern_walk(), zoom=zoom))


def test_nothing_collides_on_paper():
    assert_clean(lay_out(lantern_walk(), for_print=True))


@given(charts(), st.sampled_from(list(Zoom)), st.booleans())
@quick
def test_nothing_collides_or_clips_in_any_plan(chart, zoom, for_print):
    assert_clean(lay_out(chart, zoom=zoom, for_print=for_print))


@given(charts(), st.integers(200, 700))
@quick
def test_nothing_collides_or_clips_on_any_page(chart, tall):
    for page in lay_out_pages(chart, tall=tall):
        assert_clean(page)


@given(st.integers(1, 500), st.integers(0, 9999), st.sampled_from(list(Zoom)))
@settings(max_examples=15, deadline=None)
def test_one_to_five_hundred_tasks_stay_clean(count, seed, zoom):
    assert_clean(lay_out(many(count, seed), zoom=zoom))


@given(charts())
@quick
def test_the_thread_joins_each_pair_of_the_chain(chart):
    drawing = lay_out(chart)
    boxes = {shape.key: shape.box for shape in drawing.bars}
    assert [(t.before, t.after) for t in drawing.threads] == [
        (j.before, j.after) for j in chart.joins
    ]
    for thread in drawing.threads:
        assert holds(boxes[thread.before], thread.corners[0])
        assert holds(boxes[thread.after], thread.corners[-1])
        for (x0, y0), (x1, y1) in pairwise(thread.corners):
            assert x0 == x1 or y0 == y1


def holds(box: Box, point: tuple[float, float]) -> bool:
    x, y = point
    return box.x0 - 2 <= x <= box.x1 + 2 and box.y0 <= y <= box.y1


def test_the_thread_of_the_lantern_walk_runs_through_no_label():
    drawing = lay_out(lantern_walk())
    assert all(thread.path.count("M") == 1 for thread in drawing.threads)


def test_today_and_the_public_date_stand_on_their_days():
    drawing = lay_out(lantern_walk(), zoom=Zoom.WEEKS)
    today = next(flag for flag in drawing.flags if flag.kind == "today")
    public = next(flag for flag in drawing.flags if flag.kind == "public")
    assert today.x == pytest.approx(12 * 13.4)
    assert public.x == pytest.approx(80 * 13.4)
    assert public.pole.startswith(f"M{public.x:g} ")
    assert public.pole.endswith(f"V{drawing.height:g}")


def test_a_date_far_outside_the_plan_is_named_at_the_edge():
    far = Flag(key="w", name="Warranty ends", at=at(900))
    drawing = lay_out(lantern_walk(flags=(*lantern_walk().flags, far)))
    shown = next(flag for flag in drawing.flags if flag.kind == "beyond")
    assert shown.label.text == "Warranty ends, 19 Aug 2033 →"
    assert not shown.pole


def test_the_whole_plan_fits_the_sheet_and_days_do_not():
    assert lay_out(lantern_walk()).width == 1180
    assert lay_out(lantern_walk(), zoom=Zoom.DAYS).width > 3000


def test_a_plan_of_two_years_is_drawn_in_months():
    drawing = lay_out(lantern_walk(bars=(bar("Permit"), bar("Walk", start=720))))
    assert "Oct" in {date.text for date in drawing.scale}
    assert "2032" in {date.text for date in drawing.scale}
    assert drawing.bands == ()


def test_a_long_name_keeps_all_its_letters():
    name = "Weld the lantern frame " * 5
    drawing = lay_out(lantern_walk(bars=(bar(name, start=40),)))
    assert drawing.bars[0].label.text == name


def test_only_a_name_wider_than_the_sheet_is_cut_and_its_title_is_whole():
    name = "W" * 120
    drawing = lay_out(lantern_walk(bars=(bar(name),)))
    assert drawing.bars[0].label.text.endswith("W…")
    assert drawing.bars[0].title.startswith(name)


def test_days_in_hand_are_a_tail_to_the_latest_finish():
    drawing = lay_out(lantern_walk(bars=(bar("Prime wall", hand=20),)), zoom=Zoom.WEEKS)
    shape = drawing.bars[0]
    assert shape.cap.startswith(f"M{25 * 13.4:g} ")
    assert shape.tail.endswith(f"H{25 * 13.4:g}")


def test_placed_late_the_tail_leads_back_to_the_earliest_start():
    chart = lantern_walk(bars=(bar("Prime wall", start=20, before=15),))
    shape = lay_out(chart, zoom=Zoom.WEEKS).bars[0]
    assert shape.cap.startswith(f"M{5 * 13.4:g} ")


def test_a_task_of_no_length_is_a_diamond():
    shapes = {shape.key: shape for shape in lay_out(lantern_walk()).bars}
    assert shapes["Mill Lane Lantern Walk"].diamond
    assert not shapes["Prime wall"].diamond


def test_what_is_done_has_a_tick_and_what_is_near_an_edge():
    shapes = {shape.state: shape for shape in lay_out(lantern_walk()).bars}
    assert shapes[State.DONE].label.tick
    assert shapes[State.NEAR].edge
    assert not shapes[State.PLAIN].edge


def test_the_waiting_stands_at_the_foot_without_a_lane_holder():
    drawing = lay_out(lantern_walk())
    assert [lane.name for lane in drawing.lanes][-1] == "Waiting"
    assert drawing.waits[0].height < drawing.metrics.bar
    assert drawing.waits[0].title.startswith("Anchor mortar cures: waiting 4 days")


def test_the_plan_of_record_stands_thin_under_its_bar():
    bars = (bar("Prime wall", start=20, kept=kept(13, 5)),)
    drawing = lay_out(lantern_walk(bars=bars, joins=(), against=True), zoom=Zoom.WEEKS)
    shape = drawing.bars[0]
    first = (FIRST + timedelta(13) - drawing.first).days
    assert (shape.kept.x0, shape.kept.x1) == pytest.approx((first * 13.4, (first + 5) * 13.4))
    assert shape.box.y1 < shape.kept.y0 < shape.kept.y1 < shape.box.y1 + 10


def test_no_other_bar_stands_over_a_kept_one():
    bars = (bar("Prime wall", start=20, kept=kept(0, 5)), bar("Paint", start=8, days=4))
    drawing = lay_out(lantern_walk(bars=bars, joins=(), against=True))
    assert len({shape.box.y0 for shape in drawing.bars}) == 2


def test_a_plan_of_record_widens_the_drawing_to_where_it_began():
    bars = (bar("Prime wall", start=20, kept=kept(-30, 5)),)
    drawing = lay_out(lantern_walk(bars=bars, joins=(), against=True))
    assert drawing.bars[0].kept.x0 >= 0


def test_each_calendar_tells_the_days_it_works():
    chart = lantern_walk(works={"5": lambda day: day.weekday() < 5})
    [(key, days)] = lay_out(chart, zoom=Zoom.DAYS).worked
    assert (key, days[:8]) == ("5", "11111001")


def test_closer_and_farther_lead_one_zoom_on():
    ways = {view.way: view.name for view in lay_out(lantern_walk(), zoom=Zoom.WEEKS).zooms}
    assert (ways["closer"], ways["farther"]) == ("Days", "Whole plan")
    assert not lay_out(lantern_walk(), zoom=Zoom.PAPER).ways


def test_an_empty_plan_still_has_its_dates():
    drawing = lay_out(Chart(today=FIRST))
    assert drawing.empty
    assert drawing.scale


def test_all_tasks_on_one_day_stand_below_each_other():
    bars = tuple(bar(f"Task {n}", days=1) for n in range(40))
    drawing = lay_out(lantern_walk(bars=bars, joins=()))
    assert_clean(drawing)
    assert len({shape.box.y0 for shape in drawing.bars}) > 20


def test_five_hundred_tasks_in_twelve_lanes_stay_clean():
    bars = tuple(
        bar(f"Weld lantern frame {n}", "abcdefghijkl"[n % 12], (n * 37) % 700, n % 9, n % 20)
        for n in range(500)
    )
    assert_clean(lay_out(replace(lantern_walk(), bars=bars, joins=())))


def test_paper_takes_whole_lanes_to_a_page_and_the_thread_runs_on():
    pages = lay_out_pages(lantern_walk(), tall=200)
    assert len(pages) > 1
    assert all(page.height <= 200 for page in pages)
    assert sum(len(page.bars) for page in pages) == len(lantern_walk().bars)
    ends = [thread.corners for page in pages for thread in page.threads]
    assert any(corners[-1][1] == pages[0].height for corners in ends)
