"""Elevation and section: to scale, nothing clipped or colliding, and said in words too."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.drawings.elevation import NARROW, WIDE, elevation
from worksheets.drawings.labels import Box, Placer, text_width, wrapped
from worksheets.drawings.legend import letter_of
from worksheets.drawings.scene import (
    CSS_PIXEL,
    Mark,
    Piece,
    Reach,
    Scene,
    Zone,
    placed,
    scale_that_fits,
)
from worksheets.drawings.section import section
from worksheets.drawings.svg import Canvas

NS = "{http://www.w3.org/2000/svg}"
PEOPLE = (
    Reach("standing", "Standing adult", 1.7, "5 ft 7 in"),
    Reach("seated", "Seated adult", 1.32, "reach 15 in to 48 in", 0.381, 1.2192),
    Reach("child", "Child", 1.0, "reach 20 in to 36 in", 0.508, 0.9144),
)
OVER = Mark("over", "edge", "edge at 29 in, out 8 in: a cane misses it")
PIECES = (
    Piece(name="Mural field", kind="mural", mounting="painted", left=0.15, bottom=0.6,
          width=7.3, height=3.6),
    Piece(name="Lantern frame", kind="frame", left=1.9, bottom=2.8, width=1.22, height=1.52,
          out=1.22, size="4 ft × 5 ft"),
    Piece(name="Crank light", kind="light", left=4.6, bottom=0.737, width=0.3, height=0.4, out=0.2,
          used=0.914, marks=(OVER,)),
    Piece(name="Trough", kind="planter", mounting="ground", left=0.9, width=1.5, height=0.45,
          out=0.4),
)  # fmt: skip


def scene(**more) -> Scene:
    plain = {
        "title": "Hearthlight", "show": "{:.2f} m".format, "pieces": PIECES, "people": PEOPLE,
        "wall": (7.62, 6.4), "path_from": 1.219, "path_width": 2.743,
        "zone": Zone(above=0.6858, to=2.032, wall=0.1016), "shared": (0.508, 0.9144),
    }  # fmt: skip
    return Scene(**{**plain, **more})


def shapes(svg: str, tag: str, kind: str = "") -> list[ET.Element]:
    found = ET.fromstring(svg).iter(NS + tag)
    return [each for each in found if kind in each.get("class", "").split() or not kind]


def size(svg: str) -> tuple[float, float]:
    root = ET.fromstring(svg)
    return float(root.get("width", 0)), float(root.get("height", 0))


def words(svg: str) -> str:
    return " ".join(each.text or "" for each in shapes(svg, "text"))


def spans(svg: str) -> list[tuple[Box, str]]:
    """Where each level text lies, as wide as the layout takes it to be."""
    found = []
    for each in shapes(svg, "text"):
        if each.get("transform"):
            continue
        x, y, text = float(each.get("x", 0)), float(each.get("y", 0)), each.text or ""
        small = "small" in each.get("class", "") or each.get("class") == "dim-label"
        wide = text_width(text, 10 if small else 12) * 0.85
        left = {"middle": x - wide / 2, "end": x - wide}.get(each.get("text-anchor", ""), x)
        found.append((Box(left, y - 8, left + wide, y), text))
    return found


def test_the_wall_is_drawn_at_the_scale_that_is_named() -> None:
    svg = elevation(scene())
    named = int(re.search(r"Scale 1 : (\d+)", words(svg))[1])  # type: ignore[index]
    wall = shapes(svg, "rect", "wall")[0]
    assert float(wall.get("width")) * CSS_PIXEL * named == pytest.approx(7.62, abs=0.002)
    assert float(wall.get("height")) * CSS_PIXEL * named == pytest.approx(6.4, abs=0.002)


def test_a_metric_project_is_drawn_to_a_metric_scale() -> None:
    assert "Scale 1 : 100" in words(elevation(scene(feet=False)))


def test_a_wall_that_fits_no_usual_scale_says_so() -> None:
    _, said = scale_that_fits(9000, 9000, (800, 500), feet=True)
    assert said == "not to a usual scale"


def test_parts_hang_where_they_are_written() -> None:
    svg = elevation(scene())
    wall = shapes(svg, "rect", "wall")[0]
    frame = shapes(svg, "rect", "part")[0]
    scale = float(wall.get("width")) / 7.62
    ground = float(wall.get("y")) + float(wall.get("height"))
    assert (float(frame.get("x")) - float(wall.get("x"))) / scale == pytest.approx(1.9, abs=0.01)
    lowest = ground - float(frame.get("y")) - float(frame.get("height"))
    assert lowest / scale == pytest.approx(2.8, abs=0.01)


def test_people_and_wall_stand_on_one_ground() -> None:
    svg = elevation(scene())
    wall = shapes(svg, "rect", "wall")[0]
    foot = float(wall.get("y", 0)) + float(wall.get("height", 0))
    adult = shapes(svg, "polygon", "person")[0].get("points", "").split()
    assert max(float(point.split(",")[1]) for point in adult) == pytest.approx(foot, abs=0.01)


def test_a_finding_has_a_mark_and_words_on_both_drawings() -> None:
    for draw in (elevation, section):
        for layout in (WIDE, NARROW):
            svg = draw(scene(), layout)
            assert shapes(svg, "polygon", "over")
            assert "a cane misses it" in words(svg)


def test_over_and_near_have_marks_of_different_shape() -> None:
    near = Mark("near", "used", "at the limit")
    pieces = (PIECES[2], Piece(name="Other", left=1.0, bottom=1.0, used=1.1, marks=(near,)))
    svg = elevation(scene(pieces=pieces))
    over, close = shapes(svg, "polygon", "over")[0], shapes(svg, "polygon", "near")[0]
    assert len(over.get("points", "").split()) == 3
    assert len(close.get("points", "").split()) == 4


def test_the_drawing_is_named_with_its_findings_for_whoever_cannot_see_it() -> None:
    title = ET.fromstring(elevation(scene())).find(NS + "title")
    assert title is not None and "a cane misses it" in (title.text or "")


def test_a_part_without_a_place_stands_free_and_says_so() -> None:
    lost = Piece(name="Lost", width=1.0, height=1.0)
    assert "place not written" in words(elevation(scene(pieces=(*PIECES, lost))))
    found = placed((lost, lost), 7.0)
    assert found[1].left - found[0].left >= 1.0  # type: ignore[operator]


def test_a_phone_gets_letters_and_a_list_no_wider_than_its_screen() -> None:
    for draw in (elevation, section):
        svg = draw(scene(), NARROW)
        assert size(svg)[0] <= 350
        assert "Lantern frame" in words(svg)


def test_a_free_standing_piece_has_no_wall_behind_it() -> None:
    sculpture = Piece(name="Herons", kind="sculpture", mounting="ground", left=0.5, width=2.0,
                      height=3.8, out=1.2)  # fmt: skip
    free = scene(pieces=(sculpture,), wall=None, stands_free=True, path_from=None, path_width=None)
    for draw in (elevation, section):
        assert not shapes(draw(free), "rect", "wall")


def test_the_path_and_its_kerb_are_measured_in_the_section() -> None:
    svg = section(scene(kerb=0.15))
    assert "Path 2.74 m" in words(svg)
    assert "Kerb 0.15 m" in words(svg)


def test_a_name_cannot_break_the_drawing() -> None:
    evil = Piece(name='<script>"&', left=1.0, width=2.0, height=1.0, marks=(
        Mark("over", "edge", "</svg><b>"),))  # fmt: skip
    svg = elevation(scene(pieces=(evil,)))
    assert "<script" not in svg and ET.fromstring(svg) is not None


def test_words_take_the_first_free_place_and_never_one_that_is_taken() -> None:
    placer = Placer(Canvas(200, 100, "Test"), Box(0, 0, 200, 100))
    first = placer.words(["one"], [(10, 10)], "label")
    second = placer.words(["two"], [(12, 12), (10, 60)], "label")
    assert first and second and not first.meets(second)
    assert placer.words(["far out"], [(190, 10)], "label") is None


def test_an_amount_is_not_broken_between_lines() -> None:
    assert wrapped("edge at 29\u00a0in", 60)[-1] == "29\u00a0in"
    assert letter_of(28) == "AB"


parts = st.builds(
    Piece,
    name=st.sampled_from(["Lantern frame", "Crank", "A very long name of a part that is made"]),
    kind=st.sampled_from(["frame", "skin", "planter", "light", "tile", "sculpture", "footing"]),
    mounting=st.sampled_from(["wall", "ground", "post", "hung"]),
    left=st.none() | st.floats(0, 6),
    bottom=st.floats(0, 4),
    width=st.floats(0.05, 3),
    height=st.floats(0.05, 3),
    out=st.floats(0, 2),
    used=st.none() | st.floats(0, 3),
    marks=st.sampled_from([(), (OVER,), (OVER, Mark("near", "used", "at the limit for adults"))]),
)


@settings(max_examples=40, deadline=None)
@given(st.lists(parts, max_size=7), st.booleans(), st.sampled_from([WIDE, NARROW]))
def test_nothing_is_clipped_whatever_hangs_on_the_wall(pieces, known, layout) -> None:
    whole = scene(pieces=tuple(pieces), wall=(7.62, 7.5) if known else None)
    for draw in (elevation, section):
        svg = draw(whole, layout)
        wide, tall = size(svg)
        for box, text in spans(svg):
            assert box.left >= -2 and box.right <= wide + 12, text
            assert box.bottom <= tall, text


@settings(max_examples=30, deadline=None)
@given(st.lists(parts, max_size=4))
def test_names_and_findings_do_not_lie_on_each_other(pieces) -> None:
    """Signs of one or two letters may have to; words may not."""
    found = [(box, text) for box, text in spans(elevation(scene(pieces=tuple(pieces)))) if
             len(text) > 4]  # fmt: skip
    for (one, text), (other, more) in combinations(found, 2):
        assert not one.meets(other), (text, more)
