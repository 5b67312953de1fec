"""The drawings of loads are to scale: read back from their own marks."""

from __future__ import annotations

import math
import re

import pytest

from worksheets.sheets.anchors import SHEET as ANCHORS
from worksheets.sheets.lifting import SHEET as LIFTING
from worksheets.sheets.wind import SHEET as WIND

REPORT = {"report": "ESR 12", "report_day": "2030-05-01"}
NUMBER = r"(-?[\d.]+)"
HEAD = 7.0


def svg_of(sheet, **typed: object) -> str:
    return sheet.work(typed).pictures[0].svg


def lines(svg: str, kind: str) -> list[tuple[float, ...]]:
    pattern = rf'<line x1="{NUMBER}" y1="{NUMBER}" x2="{NUMBER}" y2="{NUMBER}" class="{kind}"/>'
    return [tuple(map(float, found)) for found in re.findall(pattern, svg)]


def circles(svg: str, kind: str) -> list[tuple[float, ...]]:
    pattern = rf'<circle cx="{NUMBER}" cy="{NUMBER}" r="{NUMBER}" class="{kind}"/>'
    return [tuple(map(float, found)) for found in re.findall(pattern, svg)]


def test_each_anchors_arrow_is_as_long_as_its_force_is_great() -> None:
    typed = {**REPORT, "load_x": "20 in", "overhang": "0 in", "shear_allowed": "5 kip"}
    found = ANCHORS.work(typed)
    greatest, least = found.figure("shear").value, found.figure("shear_least").value
    anchors = circles(found.pictures[0].svg, "anchor")
    starts = {(x, y) for x, y, _ in anchors}
    shafts = [
        math.hypot(x2 - x1, y2 - y1) + HEAD
        for x1, y1, x2, y2 in lines(found.pictures[0].svg, "load")
        if (x1, y1) in starts
    ]
    assert len(shafts) == 4
    assert max(shafts) / min(shafts) == pytest.approx(greatest / least, rel=0.01)


def test_anchors_stand_in_the_drawing_as_they_stand_in_the_wall() -> None:
    svg = svg_of(ANCHORS, **REPORT)
    (x1, y1, _), (x2, y2, _), (_, y3, _) = circles(svg, "anchor")[:3]
    assert y1 == y2
    assert (x2 - x1) / (y2 - y3) == pytest.approx(8 / 12, rel=1e-3)


def test_only_a_force_over_the_limit_is_drawn_so() -> None:
    assert 'class="load-over"' not in svg_of(ANCHORS, **REPORT)
    assert 'class="load-over"' in svg_of(ANCHORS, **REPORT, shear_allowed="2 lbf")


def test_the_resultant_meets_the_base_where_the_figures_say() -> None:
    typed = {"speed_from": "the map", "mass": "3000 lb"}
    found = WIND.work(typed)
    svg = found.pictures[0].svg
    (at, _, _), *_ = circles(svg, "load-head")
    left, width = base_of(svg)
    share = (at - (left + width / 2)) / width
    off = found.figure("eccentricity").value / (4 * 0.3048)
    assert share == pytest.approx(off, abs=0.002)


def base_of(svg: str) -> tuple[float, float]:
    pattern = rf'<rect x="{NUMBER}" y="{NUMBER}" width="{NUMBER}" height="10" class="wall"/>'
    x, _, width = re.findall(pattern, svg)[0]
    return float(x), float(width)


def test_a_resultant_outside_the_base_is_said_in_the_drawing() -> None:
    typed = {"speed_from": "the map", "mass": "200 lb"}
    assert "outside the base" in svg_of(WIND, **typed)


def test_the_heavier_piece_is_drawn_larger_and_the_centre_lies_between() -> None:
    rows = [
        {"name": "Heavy", "mass": "40 lb", "x": "0 ft", "y": "0 ft", "z": "0 ft"},
        {"name": "Light", "mass": "10 lb", "x": "10 ft", "y": "0 ft", "z": "0 ft"},
    ]
    svg = svg_of(LIFTING, pieces=rows)
    heavy, light = circles(svg, "part")[:2]
    assert heavy[2] / light[2] == pytest.approx(2)
    centre = circles(svg, "within")[0]
    assert (centre[0] - heavy[0]) / (light[0] - heavy[0]) == pytest.approx(0.2, rel=1e-3)


def test_a_name_of_a_piece_is_escaped_in_the_drawing() -> None:
    rows = [{"name": "<b>&", "mass": "40 lb", "x": "0 ft"}]
    svg = svg_of(LIFTING, pieces=rows)
    assert "&lt;b&gt;&amp;" in svg
    assert "<b>" not in svg
