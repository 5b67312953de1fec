"""The worksheet of a sewn skin: what it says, refuses, warns of and hands on."""

import pytest

from worksheets.engine.dimensions import System
from worksheets.engine.given import Fact
from worksheets.engine.result import Impossible, Standing, ToLine, ToPart, ToRequest
from worksheets.sheets.skin import SHEET

ROWS = [{"radius": "18 in", "height": "36 in"}, {"radius": "30 in", "height": "0 in"}]
PLAIN = {"seam": "0 in", "overlap": "0 in", "top_hem": "0 in", "bottom_hem": "0 in",
         "selvage": "0 in", "spare": "0 %"}  # fmt: skip


def says(result) -> str:
    return " ".join(finding.says for finding in result.findings)


def refused(typed) -> Impossible:
    with pytest.raises(Impossible) as caught:
        SHEET.work(typed)
    assert str(caught.value).endswith(".")
    return caught.value


def test_the_ring_that_is_out_of_order_is_told_beside_its_field():
    rows = [{"radius": "1 ft", "height": "5 ft"}, {"radius": "", "height": ""},
            {"radius": "2 ft", "height": "6 ft"}]  # fmt: skip
    assert refused({"rings": rows}).at == "rings-2-height"


def test_two_points_in_a_row_are_told_beside_the_radius():
    rows = [{"radius": "0 ft", "height": "5 ft"}, {"radius": "0 ft", "height": "4 ft"}]
    assert refused({"rings": rows}).at == "rings-1-radius"


def test_one_ring_alone_is_told_beside_the_rings():
    assert refused({"rings": ROWS[:1]}).name == "rings"


def test_a_panel_wider_than_the_bolt_is_refused_with_what_would_do():
    found = refused({"rings": ROWS, "columns": "3", "bolt": "48 in"})
    assert found.at == "bolt"
    for words in ("Panel A", "cloth at least", "columns", "pieced of two halves"):
        assert words in str(found)


def test_the_columns_it_names_would_indeed_fit():
    words = str(refused({"rings": ROWS, "columns": "3", "bolt": "48 in"}))
    count = words.split(" columns")[0].split()[-1]
    assert SHEET.work({"rings": ROWS, "columns": count, "bolt": "48 in"}).says


@pytest.mark.parametrize(
    ("hem", "radii"), [("top_hem", ("2 in", "20 in")), ("bottom_hem", ("20 in", "2 in"))]
)
def test_a_hem_too_deep_is_refused_beside_it(hem, radii):
    heights = ("6 in", "0 in")
    steep = [{"radius": r, "height": h} for r, h in zip(radii, heights, strict=True)]
    assert refused({"rings": steep, hem: "15 in"}).at == hem


def test_two_selvages_wider_than_the_bolt_are_refused():
    assert refused({"bolt": "12 in", "selvage": "6 in"}).at == "selvage"


def test_the_rows_of_the_published_row_come_out_of_the_sheet_too():
    """Eight flat panels 18 and 30 in wide and 36 in high on a bolt of 54 in: 4 yards."""
    rows = [{"radius": "23.5187 in", "height": "35.17 in"},
            {"radius": "39.1979 in", "height": "0 in"}]  # fmt: skip
    result = SHEET.work({**PLAIN, "columns": "8", "rings": rows, "bolt": "56 in"})
    laid = result.figure("laid").value
    assert laid == pytest.approx(4 * result.figure("slant").value)
    assert result.hands[0].quantity * 0.9144 >= laid


def test_cloth_with_a_nap_is_not_laid_head_to_tail():
    typed = {**PLAIN, "rings": ROWS, "bolt": "54 in"}
    either, one = (SHEET.work({**typed, "direction": way}).figure("laid") for way in ("any", "one"))
    assert one.value == pytest.approx(2 * either.value)


def test_shrinking_narrows_the_bolt_and_lengthens_the_cloth():
    """Two panels fill 54 in side by side; of a bolt that shrinks only one remains in a row."""
    typed = {**PLAIN, "rings": ROWS, "bolt": "54 in"}
    plain, shrunk = (SHEET.work({**typed, "shrink": share}) for share in ("0 %", "10 %"))
    assert shrunk.figure("laid").value == pytest.approx(2 * plain.figure("laid").value)
    assert shrunk.figure("bought").value == pytest.approx(shrunk.figure("laid").value / 0.9)


def test_the_cost_is_that_of_what_is_bought_by_the_yard_or_the_metre():
    by_yard = SHEET.work({"price": "10.00"})
    by_metre = SHEET.work({"price": "10.00", "sold": "m"})
    assert by_yard.figure("cost").value == round(1000 * by_yard.hands[0].quantity)
    assert by_metre.hands[0].unit == "m"
    assert by_metre.hands[0].quantity * 10 == pytest.approx(round(by_metre.hands[0].quantity * 10))


def test_without_a_price_no_cost_is_told():
    assert SHEET.work({}).hands[0].cents is None
    assert "cost" not in {figure.key for figure in SHEET.work({}).figures}


def test_it_hands_on_cloth_a_purchase_list_and_a_mass():
    line, request, part = SHEET.work({"overhead": "yes"}).hands
    assert isinstance(line, ToLine) and line.unit == "yd"
    assert isinstance(request, ToRequest) and any("thread" in item for item in request.items)
    assert any("Flame" in item for item in request.items)
    assert isinstance(part, ToPart) and part.mass == SHEET.work({}).figure("mass").value


def test_cloth_over_people_is_a_screening_that_an_engineer_must_sign():
    found = SHEET.work({"overhead": "yes"})
    assert "screening estimate" in says(found) and "licensed engineer" in says(found)
    assert "flame resistance papers" in says(found)
    assert found.worst == Standing.NEAR
    assert "engineer" not in says(SHEET.work({}))


def test_an_exact_fit_on_the_bolt_is_warned_of():
    rows = [{"radius": "24 in", "height": "30 in"}, {"radius": "24 in", "height": "0 in"}]
    typed = {**PLAIN, "rings": rows, "bolt": "48 in"}
    assert "selvage" in says(SHEET.work(typed))
    assert "selvage" not in says(SHEET.work({**typed, "bolt": "49 in"}))


def test_a_long_tip_that_is_cut_off_is_told():
    rows = [{"radius": "0 in", "height": "80 in"}, {"radius": "20 in", "height": "0 in"}]
    assert "cut off square" in says(SHEET.work({"columns": "12", "rings": rows}))


def test_a_hem_beyond_slanting_sides_is_told_to_come_out_narrower_or_wider():
    assert "narrower than the cloth it lies on" in says(SHEET.work({}))
    upright = [{"radius": "24 in", "height": "30 in"}, {"radius": "24 in", "height": "0 in"}]
    assert "lies on" not in says(SHEET.work({"rings": upright}))


def test_a_skin_that_does_not_fit_its_part_is_told_and_follows_the_part():
    facts = {"part.width": Fact(1.22, "the part’s width"), "part.height": Fact(1.9, "its height")}
    found = SHEET.work({"part_across": "", "part_tall": ""}, facts=facts)
    assert "tall; the part is" in says(found)
    assert "across" not in says(found)


def test_a_longer_look_is_kept_and_proven():
    given = SHEET.read({}).given
    told = []
    found = SHEET.improve(given, lambda share, result: told.append(share) or True)
    again = SHEET.compute(SHEET.read({}, kept=found.kept).given)
    assert told
    assert again.figure("laid").value == pytest.approx(found.figure("laid").value)
    assert not again.can_improve
    assert "Proven" in says(again)


def test_metric_people_read_metres_first():
    assert "m (" in SHEET.work({}, system=System.METRIC).figure("bought").text


def test_every_file_can_be_made_and_is_the_same_twice():
    given = SHEET.read({}).given
    for file in SHEET.files:
        assert file.make(given) == file.make(given)
