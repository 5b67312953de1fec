"""The pattern at full size, measured on the page to a tenth of a millimetre."""

import math
import re
from functools import cache
from io import BytesIO
from itertools import pairwise
from xml.etree import ElementTree

import pdfplumber
import pikepdf
import pytest

from worksheets.drawings.pattern.marked import Marked, marked
from worksheets.drawings.pattern.pages import big, tiled
from worksheets.drawings.pattern.tiles import A4, LETTER, OVERLAP, Paper
from worksheets.drawings.pattern.vector import dxf_file, svg_file
from worksheets.engine.sewing import Allowances, patterns
from worksheets.engine.skin import Ring, skin

MM = 72 / 25.4
TENTH = 0.1
SHARES = Allowances(seam=0.016, overlap=0.016, top=0.05, bottom=0.05)
LANTERN = skin(6, [Ring(0.254, 1.524), Ring(0.61, 1.12), Ring(0.61, 0.41), Ring(0.36, 0.0)])
CUTS = patterns(LANTERN, SHARES)
PANELS = [marked(each) for each in CUTS]
PAPERS = pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
WORDS = re.compile(r"Panel (\w+), cut (\d+): row (\d+) of (\d+), column (\d+) of (\d+)")


@cache
def printed(paper: Paper) -> bytes:
    return tiled(PANELS, paper)


def pages_of(data: bytes):
    return pdfplumber.open(BytesIO(data)).pages


def segments(page, thick: float) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Lines of one thickness on a page, in mm from its lower left corner."""
    tall = float(page.height)
    return [
        tuple((x / MM, (tall - y) / MM) for x, y in line["pts"])
        for line in page.lines
        if abs(line["linewidth"] / MM - thick) < 0.01
    ]


@PAPERS
def test_both_check_bars_are_true_on_every_page(paper):
    for page in pages_of(printed(paper)):
        bars = sorted(math.dist(*each) for each in segments(page, 0.4))
        assert bars == pytest.approx([100.0, 101.6], abs=TENTH)
        assert "Print at 100 %, measure this bar" in page.extract_text()


@PAPERS
def test_every_page_has_the_size_of_its_paper(paper):
    for page in pages_of(printed(paper)):
        size = (float(page.width) / MM, float(page.height) / MM)
        assert size == pytest.approx((paper.width, paper.height), abs=0.01)


@PAPERS
def test_nothing_is_drawn_in_the_margin_that_printers_keep_free(paper):
    for page in pages_of(printed(paper)):
        for mark in (*page.lines, *page.rects, *page.chars):
            assert mark["x0"] / MM >= 10 - TENTH
            assert mark["x1"] / MM <= paper.width - 10 + TENTH
            assert mark["top"] / MM >= 10 - TENTH
            assert mark["bottom"] / MM <= paper.height - 10 + TENTH


def put_together(paper: Paper, thick: float):
    """Lines of every sheet, by panel, where they come to lie once the sheets are taped."""
    found: dict[str, list] = {}
    wide, tall = paper.window
    for page in pages_of(printed(paper))[1:]:
        letter, _, row, rows, column, _ = WORDS.search(page.extract_text()).groups()
        x = (int(column) - 1) * (wide - OVERLAP) - paper.corner[0]
        y = (int(rows) - int(row)) * (tall - OVERLAP) - paper.corner[1]
        found.setdefault(letter, []).extend(
            tuple((a + x, b + y) for a, b in each) for each in segments(page, thick)
        )
    return found


def joined(parts) -> list[float]:
    """Lengths of whole lines from pieces that overlap, shortest first."""
    lines: dict[tuple[float, float], list] = {}
    for (x1, y1), (x2, y2) in parts:
        turn = math.atan2(y2 - y1, x2 - x1) % math.pi
        turn = 0.0 if turn > math.pi - 1e-3 else turn
        aside = x1 * math.sin(turn) - y1 * math.cos(turn)
        key = next(
            (k for k in lines if abs(k[0] - turn) < 2e-2 and abs(k[1] - aside) < 3), (turn, aside)
        )
        lines.setdefault(key, []).append([(x1, y1), (x2, y2)])
    found = []
    for each in lines.values():
        points = [point for piece in each for point in piece]
        found.append(max(math.dist(a, b) for a in points for b in points))
    return sorted(found)


@PAPERS
def test_the_taped_sheets_give_every_edge_to_cut_its_true_length(paper):
    taped = put_together(paper, 0.5)
    for each, panel in zip(CUTS, PANELS, strict=True):
        corners = each.cut.points
        ends = [*corners[1:], corners[0]]
        true = sorted(math.dist(a, b) * 1000 for a, b in zip(corners, ends, strict=True))
        assert joined(taped[panel.letter]) == pytest.approx(true, abs=TENTH)


@PAPERS
def test_neighbouring_sheets_draw_the_same_line_and_the_same_cross_in_their_overlap(paper):
    """Every cross of a sheet lies where one of its neighbour lies: none stands alone."""
    for letter, parts in put_together(paper, 0.15).items():
        level = [p for p in parts if abs(p[0][1] - p[1][1]) < 1e-6]
        arms = [p for p in level if abs(math.dist(*p) - 6) < TENTH]
        assert arms, letter
        for one in arms:
            twins = [p for p in arms if math.dist(p[0], one[0]) < TENTH]
            assert len(twins) >= 2


@PAPERS
def test_each_sheet_names_its_panel_its_count_and_the_grain(paper):
    for page in pages_of(printed(paper))[1:]:
        words = page.extract_text()
        assert WORDS.search(words)[2] == "6"
        assert "grain" in words


def test_the_first_page_is_a_map_with_the_way_to_tape_and_a_try_in_cheap_cloth():
    pages = pages_of(printed(LETTER))
    words = pages[0].extract_text()
    assert f"{len(pages) - 1} sheets of letter paper" in words
    for told in ("crosses", "Tape", "cheap cloth", "Panel A, cut 6", "Panel C, cut 6"):
        assert told in words


def test_a_pattern_of_too_many_sheets_sends_to_the_big_one():
    huge = skin(3, [Ring(7.0, 6.0), Ring(7.0, 0.0)])
    pages = pages_of(tiled([marked(each) for each in patterns(huge, SHARES)], A4))
    assert len(pages) == 1
    assert "print the one big sheet instead" in pages[0].extract_text()


def test_a_point_is_tiled_too():
    spire = patterns(skin(12, [Ring(0.0, 2.0), Ring(0.5, 0.0)]), SHARES)
    assert len(pages_of(tiled([marked(each) for each in spire], LETTER))) > 3


def test_the_big_sheet_tells_its_size_and_holds_every_panel_at_full_size():
    page = pages_of(big(PANELS))[0]
    size = f"{float(page.width) / MM:.0f} mm × {float(page.height) / MM:.0f} mm"
    assert size in page.extract_text()
    found = sorted(math.dist(*each) for each in segments(page, 0.5))
    true = sorted(
        math.dist(a, b) for p in PANELS for a, b in zip(p.cut, [*p.cut[1:], p.cut[0]], strict=True)
    )
    assert found == pytest.approx(true, abs=TENTH)
    bars = sorted(math.dist(*each) for each in segments(page, 0.4))
    assert bars == pytest.approx([100.0, 101.6], abs=TENTH)


def test_a_sheet_longer_than_the_format_allows_is_counted_in_larger_units():
    tall = patterns(skin(12, [Ring(1.0, 9.0), Ring(1.0, 0.0)]), SHARES)
    panels = [marked(each) for each in tall]
    with pikepdf.open(BytesIO(big(panels))) as pdf:
        page = pdf.pages[0]
        assert float(page.MediaBox[3]) <= 14400
        assert float(page.MediaBox[3]) * float(page.UserUnit) / MM > 9000


def test_the_file_has_a_title_a_language_no_clock_and_asks_not_to_be_scaled():
    data = printed(LETTER)
    assert data == tiled(PANELS, LETTER)
    assert b"CreationDate" not in data
    with pikepdf.open(BytesIO(data)) as pdf:
        assert str(pdf.docinfo.Title).startswith("Sewn skin")
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.Root.ViewerPreferences.PrintScaling) == "/None"


def test_the_lower_edge_has_two_notches_and_the_others_one():
    for each, panel in zip(CUTS, PANELS, strict=True):
        low = [n for n in panel.notches if abs(n[0][1]) < 1e-9]
        assert len(low) == 2
        assert len(panel.notches) == 5
        assert all(math.dist(*notch) <= 6 + 1e-9 for notch in panel.notches)
        assert each.count == panel.count


def test_a_panel_on_its_side_keeps_its_sizes_and_its_way_round():
    for panel in PANELS:
        turned = panel.on_its_side()
        assert turned.size == pytest.approx(panel.size[::-1])
        assert min(min(point) for point in turned.cut) == pytest.approx(0.0)
        assert area(turned.cut) == pytest.approx(area(panel.cut))


def area(corners) -> float:
    ends = [*corners[1:], corners[0]]
    return sum(a * d - c * b for (a, b), (c, d) in zip(corners, ends, strict=True)) / 2


def read_dxf(data: bytes):
    """A plain reader of the release 12 text form: pairs of a group code and a value."""
    lines = data.decode("ascii").split("\r\n")
    assert lines.pop() == ""
    pairs = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    assert pairs[-1] == (0, "EOF")
    assert [v for c, v in pairs if (c, v) == (0, "SECTION")] == ["SECTION"] * 3
    layers = [value for (code, _), (two, value) in pairwise(pairs)
              if code == 0 and two == 2]  # fmt: skip
    entities: list[dict] = []
    for code, value in pairs[pairs.index((2, "ENTITIES")) + 1 :]:
        if code == 0:
            entities.append({"kind": value, "layer": ""})
        elif code == 8:
            entities[-1]["layer"] = value
        elif code in (10, 20, 11, 21, 70, 40):
            entities[-1][code] = float(value)
        elif code == 1:
            entities[-1]["text"] = value
    return layers, entities


def outlines(entities, layer: str) -> list[list[tuple[float, float]]]:
    found: list[list] = []
    for each in entities:
        if each["kind"] == "POLYLINE" and each["layer"] == layer:
            assert each[70] == 1  # closed
            found.append([])
        elif each["kind"] == "VERTEX" and each["layer"] == layer:
            found[-1].append((each[10], each[20]))
    return found


def test_the_dxf_can_be_read_and_holds_every_outline_in_mm_on_its_layer():
    layers, entities = read_dxf(dxf_file(PANELS))
    assert {"CUT", "SEW", "MARKS"} <= set(layers)
    kinds = [each["kind"] for each in entities]
    assert kinds.count("SEQEND") == kinds.count("POLYLINE") == 2 * len(PANELS)
    for layer, name in (("CUT", "cut"), ("SEW", "sewn")):
        found = outlines(entities, layer)
        assert len(found) == len(PANELS)
        for corners, panel in zip(found, PANELS, strict=True):
            true: tuple = getattr(panel, name)
            assert area(corners) == pytest.approx(area(true), rel=1e-6)
            assert len(corners) == len(true)
    marks = [each for each in entities if each["kind"] == "LINE"]
    assert {each["layer"] for each in marks} == {"MARKS"}
    assert len(marks) == sum(len(panel.notches) + len(panel.grain) for panel in PANELS)
    assert next(e["text"] for e in entities if e["kind"] == "TEXT") == "Panel A, cut 6"


def test_the_svg_counts_in_mm_and_holds_every_outline():
    root = ElementTree.fromstring(svg_file(PANELS))
    wide, tall = (float(root.get(name).removesuffix("mm")) for name in ("width", "height"))
    assert [float(n) for n in root.get("viewBox").split()] == [0, 0, wide, tall]
    space = "{http://www.w3.org/2000/svg}"
    found = [each for each in root.iter(f"{space}polygon") if each.get("class") == "CUT"]
    for each, panel in zip(found, PANELS, strict=True):
        corners = [tuple(map(float, pair.split(","))) for pair in each.get("points").split()]
        assert abs(area(corners)) == pytest.approx(area(panel.cut), rel=1e-5)


def test_panels_on_the_big_sheet_do_not_lie_on_each_other():
    _, entities = read_dxf(dxf_file(PANELS))
    boxes = []
    for corners in outlines(entities, "CUT"):
        xs, ys = zip(*corners, strict=True)
        boxes.append((min(xs), min(ys), max(xs), max(ys)))
    for n, (a, b, c, d) in enumerate(boxes):
        for e, f, g, h in boxes[n + 1 :]:
            assert c <= e or g <= a or d <= f or h <= b


def test_a_panel_without_allowances_has_no_notches():
    bare = patterns(LANTERN, Allowances(seam=0, overlap=0, top=0, bottom=0))
    assert all(isinstance(marked(each), Marked) and not marked(each).notches for each in bare)
