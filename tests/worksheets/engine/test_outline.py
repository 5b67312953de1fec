"""From the line to sew to the line to cut, against closed forms."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from worksheets.engine.outline import OutlineError, cut_line, signed_area

SQUARE = [(0, 0), (4, 0), (4, 3), (0, 3)]
HOLLOW = [(0, 0), (4, 0), (4, 4), (2, 1), (0, 4)]
BOW = [(0, 0), (4, 3), (4, 0), (0, 3)]


@st.composite
def convex(draw) -> list[tuple[float, float]]:
    """Corners on an ellipse, so that every corner turns the same way."""
    count = draw(st.integers(3, 8))
    gaps = draw(st.lists(st.floats(0.4, 1.0), min_size=count, max_size=count))
    turn, corners = draw(st.floats(0, 6)), []
    wide, tall = draw(st.floats(1, 5)), draw(st.floats(1, 5))
    for gap in gaps:
        turn += gap / sum(gaps) * math.tau
        corners.append((wide * math.cos(turn), tall * math.sin(turn)))
    return corners


def exterior(corners) -> list[float]:
    found = []
    for at in range(len(corners)):
        before, here, after = corners[at - 1], corners[at], corners[(at + 1) % len(corners)]
        one = math.atan2(here[1] - before[1], here[0] - before[0])
        two = math.atan2(after[1] - here[1], after[0] - here[0])
        found.append((two - one + math.pi) % math.tau - math.pi)
    return found


def perimeter(corners) -> float:
    return sum(math.dist(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))


def distance(point, start, end) -> float:
    """To the line through two points, above 0 at the right of the way from start to end."""
    across = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (
        point[0] - start[0]
    )
    return -across / math.dist(start, end)


@given(convex(), st.floats(0, 1))
def test_one_allowance_all_round_gives_the_closed_form(corners, share):
    found = cut_line(corners, [share] * len(corners), sharpest=0)
    tangents = sum(math.tan(turn / 2) for turn in exterior(corners))
    area = signed_area(corners) + perimeter(corners) * share + share**2 * tangents
    assert found.area == pytest.approx(area, rel=1e-9)
    assert found.bevelled == ()


@given(convex(), st.data())
def test_every_edge_lies_its_own_allowance_outside(corners, data):
    count = len(corners)
    shares = [data.draw(st.floats(0, 0.2)) for _ in corners]
    try:
        found = cut_line(corners, shares, sharpest=0).points
    except OutlineError:
        assume(False)
    for edge in range(count):
        start, end = corners[edge], corners[(edge + 1) % count]
        for point in (found[edge], found[(edge + 1) % count]):
            assert distance(point, start, end) == pytest.approx(shares[edge], abs=1e-9)


@given(convex(), st.data())
def test_the_cut_never_comes_nearer_than_the_allowance_even_where_a_tip_is_cut_off(corners, data):
    shares = [data.draw(st.floats(0, 0.2)) for _ in corners]
    try:
        found = cut_line(corners, shares, sharpest=60)
    except OutlineError:
        assume(False)
    for start, end in zip(found.points, [*found.points[1:], found.points[0]], strict=True):
        for corner in corners:
            assert distance(corner, start, end) < 1e-9
    assert found.area <= cut_line(corners, shares, sharpest=0).area + 1e-9


@given(convex(), st.data())
def test_the_way_round_does_not_matter(corners, data):
    shares = [data.draw(st.floats(0, 0.2)) for _ in corners]
    back = [*shares[-2::-1], shares[-1]]
    try:
        one, other = cut_line(corners, shares), cut_line(corners[::-1], back)
    except OutlineError:
        assume(False)
    assert one.area == pytest.approx(other.area)
    assert len(one.bevelled) == len(other.bevelled)
    assert signed_area(other.points) < 0


def spike(angle: float, tall: float = 10.0) -> list[tuple[float, float]]:
    half = tall * math.tan(math.radians(angle) / 2)
    return [(-half, 0.0), (half, 0.0), (0.0, tall)]


@pytest.mark.parametrize("angle", [8.0, 20.0, 29.9])
def test_a_sharp_tip_is_cut_off_square_and_said(angle):
    share = 0.5
    full = cut_line(spike(angle), [share] * 3, sharpest=0)
    found = cut_line(spike(angle), [share] * 3)
    assert found.bevelled == (2,)
    past = share / math.sin(math.radians(angle) / 2) - share
    lost = past**2 * math.tan(math.radians(angle) / 2)
    assert full.area - found.area == pytest.approx(lost)
    assert max(y for _, y in found.points) == pytest.approx(10.0 + share)


def test_a_tip_between_two_allowances_keeps_the_wider_one():
    found = cut_line(spike(20), [0.1, 0.3, 0.5])
    assert max(y for _, y in found.points) == pytest.approx(10.5)


def test_a_corner_of_thirty_degrees_keeps_its_mitre():
    assert cut_line(spike(30.001), [0.5] * 3).bevelled == ()


def test_no_allowance_leaves_the_outline_as_it_is():
    assert cut_line(SQUARE, [0] * 4).points == tuple((float(x), float(y)) for x, y in SQUARE)
    assert cut_line(spike(10), [0] * 3).bevelled == ()


@pytest.mark.parametrize(
    ("corners", "word"),
    [(HOLLOW, "hollow"), (BOW, "crosses"), (SQUARE[:2], "three corners"),
     ([(0, 0), (2, 0), (4, 0), (4, 3)], "straight line"), ([(0, 0), (0, 0), (4, 3)], "each other"),
     ([(0, 0), (4, 0), (float("nan"), 3)], "two numbers")],
)  # fmt: skip
def test_an_outline_that_cannot_be_is_refused_with_a_sentence(corners, word):
    with pytest.raises(OutlineError, match=word) as caught:
        cut_line(corners, [0.5] * len(corners))
    assert str(caught.value).endswith(".")


def test_an_allowance_below_nothing_is_refused_at_its_edge():
    with pytest.raises(OutlineError) as caught:
        cut_line(SQUARE, [0.5, -0.1, 0.5, 0.5])
    assert caught.value.edge == 1


def test_a_hem_deeper_than_its_narrowing_panel_is_refused_at_its_edge():
    trapezoid = [(-5, 0), (5, 0), (1, 5), (-1, 5)]
    with pytest.raises(OutlineError, match="deep") as caught:
        cut_line(trapezoid, [0, 0, 3, 0])
    assert caught.value.edge == 2


def test_one_allowance_for_each_edge():
    with pytest.raises(OutlineError):
        cut_line(SQUARE, [0.5] * 3)
