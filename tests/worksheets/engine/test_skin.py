"""Panels of a sewn skin against the corners of the solid in space."""

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.skin import Panel, Ring, RingError, chord, edge_names, flat, skin

radii = st.floats(0.05, 10)
drops = st.floats(0.01, 5)
columns = st.integers(3, 48)


@st.composite
def profiles(draw) -> list[Ring]:
    height, found = 50.0, []
    for _ in range(draw(st.integers(2, 6))):
        found.append(Ring(draw(radii), height))
        height -= draw(drops)
    return found


def corner(ring: Ring, number: int, count: int) -> np.ndarray:
    turn = 2 * math.pi * number / count
    return np.array([ring.radius * math.cos(turn), ring.radius * math.sin(turn), ring.height])


def in_space(count: int, upper: Ring, lower: Ring) -> list[np.ndarray]:
    """Two corners of the upper ring and two of the lower, around the panel."""
    return [corner(lower, 0, count), corner(lower, 1, count),
            corner(upper, 1, count), corner(upper, 0, count)]  # fmt: skip


@given(columns, profiles())
def test_every_size_of_a_panel_is_the_distance_of_its_corners_in_space(count, rings):
    for number, panel in enumerate(skin(count, rings).panels):
        a, b, c, d = in_space(count, rings[number], rings[number + 1])
        assert panel.bottom == pytest.approx(np.linalg.norm(b - a))
        assert panel.top == pytest.approx(np.linalg.norm(d - c))
        assert panel.edge == pytest.approx(np.linalg.norm(d - a))
        assert panel.diagonal == pytest.approx(np.linalg.norm(c - a))
        assert panel.slant == pytest.approx(np.linalg.norm((a + b) / 2 - (c + d) / 2))


@given(columns, profiles())
def test_every_panel_is_flat_and_has_the_area_of_its_two_triangles(count, rings):
    for number, panel in enumerate(skin(count, rings).panels):
        a, b, c, d = in_space(count, rings[number], rings[number + 1])
        normal = np.cross(b - a, c - a)
        assert abs(np.dot(normal, d - a)) < 1e-9 * max(1.0, np.linalg.norm(normal))
        halves = np.linalg.norm(normal) / 2 + np.linalg.norm(np.cross(c - a, d - a)) / 2
        assert panel.area == pytest.approx(halves)


@given(columns, profiles())
def test_the_flat_corners_keep_every_length(count, rings):
    for panel in skin(count, rings).panels:
        low_left, low_right, high_right, high_left = flat(panel)
        assert math.dist(low_left, low_right) == pytest.approx(panel.bottom)
        assert math.dist(low_right, high_right) == pytest.approx(panel.edge)
        assert math.dist(low_left, high_right) == pytest.approx(panel.diagonal)
        assert math.dist(high_left, high_right) == pytest.approx(panel.top)


@given(columns, profiles())
def test_totals_are_the_sum_over_all_columns(count, rings):
    found = skin(count, rings)
    assert found.count == count * (len(rings) - 1)
    assert found.area == pytest.approx(sum(count * panel.area for panel in found.panels))
    between = sum(count * chord(ring.radius, count) for ring in rings[1:-1])
    ends = count * (chord(rings[0].radius, count) + chord(rings[-1].radius, count))
    assert found.ring_seams == pytest.approx(between)
    assert found.hems == pytest.approx(ends)


def test_many_columns_come_near_the_cone_from_below():
    rings = [Ring(0.5, 0.75), Ring(1.5, 0.0)]
    cone = math.pi * 2.0 * math.hypot(1.0, 0.75)
    areas = [skin(count, rings).area for count in (6, 12, 48, 5000)]
    assert areas == sorted(areas)
    assert all(area < cone for area in areas)
    assert areas[-1] == pytest.approx(cone, rel=1e-5)


def test_the_column_is_longer_than_the_middle_of_the_panel():
    panel = skin(8, [Ring(1.0, 0.4), Ring(1.5, 0.0)]).panels[0]
    assert panel.edge > panel.slant


@pytest.mark.parametrize(
    ("heights", "row", "word"),
    [((2.8, 2.9, 2.1), 1, "higher than ring 1"), ((2.8, 2.1, 2.1), 2, "as high as ring 2"),
     ((2.8, 2.5, 2.7), 2, "higher than ring 2")],
)  # fmt: skip
def test_the_ring_that_is_out_of_order_is_named(heights, row, word):
    with pytest.raises(RingError) as caught:
        skin(8, [Ring(1.0, height) for height in heights])
    assert (caught.value.row, caught.value.column) == (row, "height")
    assert word in str(caught.value)


def test_two_points_have_no_cloth_between_them():
    with pytest.raises(RingError) as caught:
        skin(8, [Ring(0.0, 2.0), Ring(0.0, 1.0)])
    assert (caught.value.row, caught.value.column) == (1, "radius")


def test_one_ring_alone_makes_no_skin():
    with pytest.raises(RingError):
        skin(8, [Ring(1.0, 2.0)])


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_columns_are_refused(count):
    with pytest.raises(ValueError):
        chord(1.0, count)


def test_a_panel_that_ends_in_a_point_is_a_triangle_with_three_named_edges():
    point = Panel(top=0.0, bottom=2.0, slant=3.0, edge=math.hypot(3.0, 1.0))
    assert len(flat(point)) == len(edge_names(point)) == 3
    below = Panel(top=2.0, bottom=0.0, slant=3.0, edge=math.hypot(3.0, 1.0))
    assert edge_names(below) == ("side", "top", "side")


def test_a_regular_ring_closes():
    """Chords around a ring come back to the start, whatever the number of columns."""
    for count in random.Random(3).sample(range(3, 49), 10):
        whole = sum((corner(Ring(1, 0), n + 1, count) - corner(Ring(1, 0), n, count))
                    for n in range(count))  # fmt: skip
        assert np.allclose(whole, 0)
