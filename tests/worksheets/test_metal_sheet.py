"""A metal frame: its mass, what to buy, the cut list, and what is wrong said beside its field."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from worksheets.engine.dimensions import FOOT, INCH, POUND, System
from worksheets.engine.frame import frame_of
from worksheets.engine.frame_cuts import cut_lists, kept, marked
from worksheets.engine.result import Impossible, ToLine, ToPart, ToRequest
from worksheets.sheets import sheets

SHEET = sheets()["metal"]
TUBE = {"name": "Tube", "shape": "tube", "width": "1 in", "wall": "0.1 in", "metal": "steel"}
BAR = {"name": "Pin", "shape": "round_bar", "width": "1/2 in", "metal": "aluminium"}
PLAIN = {
    "sections": [TUBE],
    "stock": [{"length": "10 ft", "price": "20"}, {"length": "20 ft", "price": "30"}],
    "pieces": [{"count": "4", "length": "59 in", "mark": "P1"}],
    "kerf": "1/8 in", "trim": "0 in", "useful": "12 in", "allowance": "0 %",
}  # fmt: skip
FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "demo"


def work(**typed):
    return SHEET.work({**PLAIN, **typed})


def refused(**typed) -> Impossible:
    with pytest.raises(Impossible) as wrong:
        work(**typed)
    return wrong.value


def grid(result, title):
    return next(each for each in result.grids if each.title == title)


def test_mass_is_length_times_the_mass_per_foot_of_the_supplier_table():
    """1 in × 0.1 in tube: 1.14 lb per foot (steel supplier’s table)."""
    result = work()
    feet = 4 * 59 / 12
    assert result.figure("bare").value / POUND == pytest.approx(1.14 * feet, rel=0.005)
    assert result.figure("metres").value == pytest.approx(feet * FOOT)


def test_weld_and_zinc_are_a_share_on_top_of_the_pieces():
    bare, more = work().figure("mass").value, work(allowance="5 %").figure("mass").value
    assert more == pytest.approx(bare * 1.05)


def test_the_cheapest_bars_are_bought_and_the_purchase_is_the_plan():
    """Four pieces of 59 in: one bar of 20 ft is cheaper than two of 10 ft."""
    result = work()
    assert (result.figure("bars").value, result.figure("cost").value) == (1, 3000)
    line, request, part = result.hands
    assert isinstance(line, ToLine) and (line.quantity, line.unit, line.cents) == (1, "bar", 3000)
    assert isinstance(request, ToRequest) and request.items == (
        "1 bar of 20 ft: Square tube 1 in × 1 in × 0.1 in, steel",
    )
    assert isinstance(part, ToPart) and part.mass == result.figure("mass").value


def test_a_fifth_cut_is_not_made_after_the_last_piece():
    """Four of 59 in and three saw cuts are 236 3/8 in; the fourth cut leaves 3 1/2 in."""
    row = grid(work(), "Cut list").rows[0]
    assert row == ("1 × 20 ft", "4 × P1 59 in", "3 1/2 in, waste")


def test_waste_is_what_is_neither_piece_nor_off_cut_worth_keeping():
    assert work().figure("waste").value == pytest.approx(4 / 240)
    kept_one = work(useful="3 in")
    assert kept_one.figure("waste").value == pytest.approx(0.5 / 240)
    assert kept_one.figure("offcuts").value == 1


def test_fewest_bars_looks_past_the_price():
    dear = [{"length": "10 ft", "price": "20"}, {"length": "20 ft", "price": "90"}]
    assert work(stock=dear).figure("bars").value == 2
    assert work(stock=dear, aim="bars").figure("bars").value == 1


def test_without_prices_the_least_length_is_bought_and_that_is_said():
    bare = [{"length": "10 ft"}, {"length": "21 ft"}]
    result = work(stock=bare)
    assert result.figure("bars").value == 2
    assert any("least length" in said for said in result.assumptions)
    assert [hand.cents for hand in result.hands if isinstance(hand, ToLine)] == [None]
    assert result.figure("proof").text == "Proven: no plan buys less metal."


def test_each_section_has_its_own_bars_and_its_own_metal():
    result = work(
        sections=[TUBE, BAR],
        stock=[{"length": "20 ft", "price": "30", "section": "tube"},
               {"length": "6 ft", "price": "9", "section": "PIN"}],
        pieces=[{"count": "4", "length": "59 in", "section": "Tube"},
                {"count": "10", "length": "6 in", "section": "Pin"}],
    )  # fmt: skip
    assert [row[:4] for row in grid(result, "Bars to buy").rows] == [
        ("Tube", "Square tube 1 in × 1 in × 0.1 in, steel", "20 ft", "1"),
        ("Pin", "Round bar 1/2 in, aluminium", "6 ft", "1"),
    ]
    pins = 10 * 0.5 * FOOT * 0.668 * 170 / 490 * POUND / FOOT
    tubes = work().figure("bare").value
    assert result.figure("bare").value == pytest.approx(tubes + pins, rel=0.002)
    assert len(result.pictures) == 2


def test_a_pasted_list_counts_like_typed_rows():
    lines = "Quantity\tLength\tMark\tSection\tEnd cuts\n3\t59 in\tP1\tTube\tsquare\n1; 59 in; P2"
    result = work(pieces=[], pasted=lines)
    assert result.figure("bars").value == 1
    assert [row[:5] for row in grid(result, "Pieces and their mass").rows] == [
        ("P1", "Tube", "3", "59 in", "square"),
        ("P2", "Tube", "1", "59 in", ""),
    ]


def test_every_mark_is_cut_as_often_as_wanted():
    given = SHEET.read({
        **PLAIN,
        "pieces": [{"count": "5", "length": "20 in", "mark": "A", "ends": "mitre"},
                   {"count": "7", "length": "20 in", "mark": "B"},
                   {"count": "6", "length": "33 1/3 in", "mark": "C"}],
    }).given  # fmt: skip
    (cuts,) = cut_lists(given, frame_of(given))
    counts: dict[str, int] = {}
    for bar in marked(cuts):
        for _, mark, ends in bar.pieces:
            counts[mark] = counts.get(mark, 0) + bar.times
            assert (ends == "mitre") == (mark == "A")
    assert counts == {"A": 5, "B": 7, "C": 6}


def test_a_length_between_the_sixteenths_is_written_to_a_thousandth():
    row = grid(work(pieces=[{"count": "1", "length": "43.337 in"}]), "Cut list").rows[0]
    assert row[1] == "43.337 in"


def test_metres_are_written_in_millimetres_on_a_cut_list():
    typed = {**PLAIN, "stock": [{"length": "6 m"}], "pieces": [{"count": "2", "length": "1942 mm"}]}
    row = grid(SHEET.work(typed, system=System.METRIC), "Cut list").rows[0]
    assert row[:2] == ("1 × 6,000 mm", "2 × 1,942 mm")


def test_the_drawing_shows_every_bar_to_scale_and_bars_alike_once():
    many = [{"count": "8", "length": "59 in", "mark": "P1"}]
    svg = work(pieces=many).pictures[0].svg
    assert "2 ×" in svg
    found = re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"[^>]*class="part"', svg)
    wide = {round(float(width), 2) for _, width in found}
    assert len(found) == 4
    assert wide == {round(59 / 240 * 588, 2)}
    starts = sorted(float(x) for x, _ in found)
    assert starts[1] - starts[0] == pytest.approx((59 + 0.125) / 240 * 588, abs=0.01)


def test_what_the_search_found_is_kept_for_the_same_inputs_and_for_no_others():
    reading = SHEET.read({})
    found = SHEET.improve(reading.given, lambda share, result: True)
    again = SHEET.work({}, kept=found.kept)
    assert again.figure("different").value == found.figure("different").value == 2
    assert again.figure("different").note == "no plan as good has fewer"
    assert not again.can_improve
    other = SHEET.work({"kerf": "1/16 in"}, kept=found.kept)
    assert set(other.kept) != set(found.kept)


def test_a_kept_plan_that_does_not_hold_is_not_believed():
    given = SHEET.read(PLAIN).given
    (mark, known) = next(iter(kept(cut_lists(given, frame_of(given))).items()))
    broken = {mark: {**known, "plan": [[1, [0, 0, 0], 1], [0, [0, 0], 1]]}}
    assert SHEET.work(PLAIN, kept=broken).figure("bars").value == 1


def test_a_search_that_is_told_to_stop_stops_and_still_answers():
    heard = []

    def tell(share, result):
        heard.append(share)
        return False

    result = SHEET.improve(SHEET.read({}).given, tell)
    assert len(heard) == 1
    assert result.figure("bars").value == 4


@pytest.mark.parametrize(
    ("typed", "at", "says"),
    [
        ({"pieces": [{"count": "1", "length": "21 ft"}]}, "pieces-0-length", "gives 240 in"),
        ({"pasted": "1, 21 ft, P9"}, "pasted", "P9 is 252 in long"),
        ({"pasted": "1, 3 kg"}, "pasted", "Line 1: “3 kg” is a mass"),
        ({"pasted": "1, 3 in\n0, 3 in"}, "pasted", "Line 2: 0 is out of range"),
        ({"pasted": "1, 3 in, A, Rod"}, "pasted", "no section “Rod”"),
        ({"pieces": [], "pasted": ""}, "pieces", "at least one piece"),
        ({"sections": [{**TUBE, "wall": "0.6 in"}]}, "sections-0-wall", "hollow"),
        ({"sections": [{**TUBE, "wall": ""}]}, "sections-0-wall", "Write the wall"),
        ({"sections": [{**TUBE, "radius": "0.7 in"}]}, "sections-0-radius", "corners meet"),
        ({"sections": [TUBE, TUBE]}, "sections-1-name", "Two sections"),
        ({"stock": [{"length": "10 ft", "section": "Rod"}]}, "stock-0-section", "no section “Rod”"),
        ({"stock": [{"length": "10 ft"}, {"length": "120 in"}]}, "stock-1-length", "twice"),
        ({"sections": [TUBE, BAR]}, "pieces-0-section", "Write its section: Tube, Pin"),
        ({"pasted": "\n".join(["900, 3 in"] * 3)}, "pieces", "At most 2,000"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(typed, at, says):
    wrong = refused(**typed)
    assert wrong.at == at
    assert says in str(wrong)


def test_a_section_without_bars_is_asked_for_them():
    only = [{"length": "10 ft", "section": "Pin"}]
    wrong = refused(
        sections=[TUBE, BAR], stock=only,
        pieces=[{"count": "1", "length": "20 in", "section": "Tube"}],
    )  # fmt: skip
    assert (wrong.at, "“Tube” is sold in" in str(wrong)) == ("stock", True)


def test_it_says_that_a_cut_list_is_no_strength_check_and_that_mitres_are_not_nested():
    result = work()
    assert any("no strength check" in finding.says for finding in result.findings)
    assert any("mitres" in said for said in result.assumptions)


def test_the_demo_frame_weighs_what_the_part_says():
    (row,) = json.loads((FOLDER / "hearthlight-worksheets-metal.json").read_text("utf-8"))
    parts = json.loads((FOLDER / "hearthlight.json").read_text("utf-8"))["parts"]
    part = next(each for each in parts if each["key"] == row["part"])
    result = SHEET.work(row["typed"])
    assert result.figure("mass").value == pytest.approx(part["mass_g"] / 1000, rel=0.02)


def test_inches_are_exact_where_the_saw_cuts_in_sixty_fourths():
    """Sixteen pieces of 15 in less a 64th, with saw cuts of a 64th, are 240 in less a 64th."""
    bar = [{"length": "240 in"}]
    piece = [{"count": "16", "length": f"{15 * 64 - 1}/64 in"}]
    assert work(stock=bar, pieces=piece, kerf="1/64 in").figure("bars").value == 1
    assert INCH / 64 == 0.000396875
