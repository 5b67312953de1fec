"""Panels in rows, rectangles in a strip, and the plan on the bolt."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine.outline import signed_area
from worksheets.engine.packing import laying
from worksheets.engine.packing.exact import shortest
from worksheets.engine.packing.laying import (
    Block,
    Shape,
    corners,
    gathered,
    improve,
    kept_plan,
    lay,
)
from worksheets.engine.packing.pieces import (
    Layout,
    Placed,
    Rectangle,
    TooWide,
    faults,
    shortest_thinkable,
)
from worksheets.engine.packing.rows import in_rows, most_in_a_row, row_width
from worksheets.engine.packing.skyline import fill_gaps

ROWS = json.loads(
    (Path(__file__).parents[3] / "fixtures" / "published" / "trade-cloth.json").read_text()
)
PACKING = [row for row in ROWS if row["computation"] == "strip_packing"]
sizes = st.floats(0.1, 1.0)
shapes = st.lists(
    st.builds(Shape, sizes, sizes, sizes, st.integers(1, 9)), min_size=1, max_size=4
)  # fmt: skip
whole = st.builds(Rectangle, st.integers(1, 8), st.integers(1, 8))


def pieces_of(row) -> list[Rectangle]:
    return [Rectangle(*size) for size in row["inputs"]["rectangles"]]


def overlap(one, other) -> bool:
    """Two convex outlines share some inside: no edge of either parts them."""
    for a, b in ((one, other), (other, one)):
        for (x1, y1), (x2, y2) in zip(a, [*a[1:], a[0]], strict=True):
            if all((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) <= 1e-9 for x, y in b):
                return False
    return True


@given(sizes, sizes, st.integers(1, 9))
def test_a_row_head_to_tail_is_as_wide_as_its_outermost_corners(top, bottom, count):
    shape = Shape(top, bottom, 1.0, count)
    step = (top + bottom) / 2
    xs = [x for n in range(count) for x, _ in corners(shape, n * step, 0, turned=n % 2 == 1)]
    assert max(xs) == pytest.approx(row_width(top, bottom, count, turned=True))
    assert min(xs) == pytest.approx(0.0)


@given(sizes, sizes, st.floats(1.0, 6.0), st.booleans())
def test_a_row_holds_as_many_as_fit_and_not_one_more(top, bottom, strip, turned):
    count = most_in_a_row(top, bottom, strip, turned=turned)
    assert row_width(top, bottom, count, turned=turned) <= strip * (1 + 1e-6)
    assert row_width(top, bottom, count + 1, turned=turned) > strip * (1 - 1e-6)


def test_cloth_with_a_nap_forbids_head_to_tail():
    assert in_rows(18, 30, 36, 8, 54, turned=False).per_row == 1
    plan = lay([Shape(18, 30, 36, 8)], 54, turned=False)
    assert not any(laid.turned for laid in plan.panels())
    assert plan.length == 8 * 36


def test_an_exact_fit_leaves_no_selvage():
    assert in_rows(18, 30, 36, 8, 54, turned=True).spare == 0
    assert lay([Shape(18, 30, 36, 8)], 54, turned=True).spare == pytest.approx(0)


@settings(deadline=None, max_examples=60)
@given(shapes, st.floats(1.0, 4.0), st.booleans())
def test_a_plan_lays_every_panel_once_on_the_cloth_and_none_on_another(found, strip, turned):
    plan = lay(found, strip, turned=turned)
    laid = list(plan.panels())
    counts = [sum(each.shape == n for each in laid) for n in range(len(found))]
    assert counts == [shape.count for shape in found]
    for each in laid:
        assert all(-1e-9 <= x <= strip + 1e-9 for x, _ in each.corners)
        assert all(-1e-9 <= y <= plan.length + 1e-9 for _, y in each.corners)
        assert signed_area(each.corners) == pytest.approx(found[each.shape].area)
    for n, one in enumerate(laid):
        assert not any(overlap(one.corners, other.corners) for other in laid[n + 1 :])
    assert plan.length >= plan.bound - 1e-9


@given(shapes, st.floats(1.0, 4.0), st.booleans())
def test_gathering_keeps_the_count_of_every_panel(found, strip, turned):
    for way in gathered(found, strip, turned=turned):
        for n, shape in enumerate(found):
            assert sum(block.count for block in way if block.shape == n) == shape.count


@settings(deadline=None)
@given(st.lists(whole, max_size=14), st.integers(8, 20))
def test_filling_gaps_never_overlaps_and_never_beats_the_bound(pieces, strip):
    found = fill_gaps(pieces, strip)
    assert list(faults(found, pieces)) == []
    assert found.length >= found.bound - 1e-9
    assert found.bound == shortest_thinkable(pieces, strip)


@settings(deadline=None, max_examples=15)
@given(st.lists(whole, min_size=1, max_size=6), st.integers(8, 12))
def test_the_exact_layout_is_never_longer_and_its_bound_holds(pieces, strip):
    quick, found = fill_gaps(pieces, strip), shortest(pieces, strip, seconds=5)
    assert list(faults(found, pieces)) == []
    assert quick.bound - 1e-9 <= found.bound <= found.length + 1e-9 <= quick.length + 2e-9
    assert found.proven == (found.length <= found.bound + 1e-9)


@pytest.mark.parametrize("row", PACKING, ids=lambda row: row["id"])
def test_a_published_instance_is_met_and_proven(row):
    pieces = pieces_of(row)
    found = shortest(pieces, row["inputs"]["strip_width"])
    assert list(faults(found, pieces)) == []
    assert (found.length, found.proven) == (row["expected"]["optimum_height"], True)


def test_the_search_itself_finds_what_filling_gaps_does_not():
    """The quick layout of this instance is 16 long; 15 is proven."""
    row = next(row for row in PACKING if row["id"] == "C03-18")
    assert fill_gaps(pieces_of(row), 40).length == 16
    assert shortest(pieces_of(row), 40).length == 15


def test_packing_instances_are_known_by_their_sizes_because_labels_are_swapped():
    """The 40 × 15 group is C3 in the collection and C2 in the paper; its sizes tell it."""
    forty = [row for row in PACKING if row["inputs"]["strip_width"] == 40]
    labelled = [row for row in forty if "40x15" in row["source"]]
    assert len(labelled) == 2
    for row in labelled:
        area = sum(piece.width * piece.height for piece in pieces_of(row))
        assert (area, row["expected"]["optimum_height"]) == (40 * 15, 15)


def test_pieces_wider_than_half_the_strip_cannot_lie_side_by_side():
    assert shortest_thinkable([Rectangle(6, 1)] * 3, 10) == 3


def test_a_piece_wider_than_the_strip_is_named():
    with pytest.raises(TooWide) as caught:
        fill_gaps([Rectangle(1, 1), Rectangle(5, 1)], 4)
    assert caught.value.piece == 1


@pytest.mark.parametrize(
    ("placed", "word"),
    [([(0, 0, 0), (1, 1, 1)], "overlap"), ([(0, 0, 0), (1, 3, 0)], "outside"),
     ([(0, 0, 0), (0, 2, 0)], "once"), ([(0, 0, 0), (1, 2, 3)], "outside"),
     ([(0, -1, 0), (1, 2, 0)], "outside"), ([(0, 0, -1), (1, 2, 0)], "outside")],
)  # fmt: skip
def test_the_checker_sees_what_cannot_be_cut(placed, word):
    found = Layout(strip=4, placed=tuple(Placed(*each) for each in placed), length=4, bound=0,
                   proven=False)  # fmt: skip
    assert any(word in said for said in faults(found, [Rectangle(2, 2), Rectangle(2, 2)]))


def test_panels_that_only_touch_do_not_overlap():
    found = Layout(strip=4, placed=(Placed(0, 0, 0), Placed(1, 2, 0)), length=2, bound=0,
                   proven=True)  # fmt: skip
    assert list(faults(found, [Rectangle(2, 2), Rectangle(2, 2)])) == []


LANTERN = [Shape(0.2, 0.65, 0.58, 6), Shape(0.64, 0.64, 0.74, 5), Shape(0.65, 0.36, 0.53, 6)]


def test_looking_longer_never_makes_it_longer_and_tells_how_far_it_is():
    plan, told = lay(LANTERN, 1.4, turned=True), []
    found = improve(
        plan, seconds=6, tell=lambda share, best: told.append((share, best.length)) or True
    )
    assert found.length <= plan.length + 1e-9
    assert told and all(0 <= share <= 1 for share, _ in told)
    assert [length for _, length in told] == sorted((length for _, length in told), reverse=True)


def test_a_search_that_is_told_to_stop_stops():
    plan, told = lay(LANTERN, 1.4, turned=True), []
    improve(plan, seconds=6, tell=lambda share, best: bool(told.append(share)))
    assert len(told) <= 1


def test_stop_is_passed_on_to_the_search_that_is_under_way(monkeypatch):
    plan, heard = lay(LANTERN, 1.4, turned=True), []

    def search(pieces, strip, *, unit, seconds, tell) -> Layout:
        layout = fill_gaps(pieces, strip)
        heard.append(tell(0.5, layout))
        return layout

    monkeypatch.setattr(laying, "shortest", search)
    improve(plan, tell=lambda share, best: False)
    assert heard == [False]


def test_a_kept_plan_comes_back_whole():
    plan = lay(LANTERN, 1.4, turned=True)
    found = kept_plan(json.loads(json.dumps(plan.keep())), LANTERN, 1.4, turned=True)
    assert found is not None
    assert found.length == pytest.approx(plan.length)
    assert list(found.panels()) == list(plan.panels())


@pytest.mark.parametrize(
    "kept",
    [{}, {"blocks": [[0, 1]], "at": [[0, 0]], "proven": True}, {"blocks": [[9, 1]], "at": []},
     {"blocks": "no", "at": [], "proven": True}, {"blocks": [[0, 1]], "at": [["a", 0]]}],
)  # fmt: skip
def test_a_kept_plan_of_other_panels_is_left(kept):
    assert kept_plan(kept, LANTERN, 1.4, turned=True) is None


def test_a_kept_plan_that_would_overlap_on_narrower_cloth_is_left():
    kept = lay(LANTERN, 1.4, turned=True).keep()
    assert kept_plan(kept, LANTERN, 1.2, turned=True) is None
    assert isinstance(lay(LANTERN, 1.4, turned=True).blocks[0], Block)
