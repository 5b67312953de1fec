"""Mass, centre of mass, and the lifting equation with its tables."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine import lifting
from worksheets.engine.dimensions import INCH, POUND
from worksheets.engine.given import Fact
from worksheets.engine.lifting import Piece
from worksheets.engine.lifting_case import RULES
from worksheets.engine.result import Impossible, Standing
from worksheets.sheets.lifting import SHEET

TABLE = RULES.values
PLACE = st.floats(-50, 50)
PIECES = st.lists(
    st.builds(
        Piece, name=st.just("piece"), count=st.integers(1, 9), each=st.floats(0.1, 500),
        at=st.tuples(PLACE, PLACE, PLACE),
    ),
    min_size=1, max_size=12,
)  # fmt: skip


def share(rate: float, hours: str, height: float) -> float:
    return lifting.frequency_share(rate, hours, height * INCH, TABLE)[1]


def limit(**more: float) -> lifting.Limit:
    lengths = {"reach": 10.0, "height": 30.0, "travel": 10.0, **more}
    turn = lengths.pop("turn", 0.0)
    in_metres = {name: inches * INCH for name, inches in lengths.items()}
    return lifting.limit(**in_metres, turn=turn, frequency=1.0, grip="good", rules=TABLE)


@settings(max_examples=60)
@given(PIECES)
def test_about_the_centre_of_mass_the_pieces_have_no_moment(pieces: list[Piece]) -> None:
    centre = lifting.centre(pieces)
    total = lifting.total_mass(pieces)
    for axis in range(3):
        moment = sum(p.mass * ((p.at or (0, 0, 0))[axis] - centre[axis]) for p in pieces)
        assert moment == pytest.approx(0, abs=1e-7 * total * 50)


@settings(max_examples=60)
@given(PIECES)
def test_the_centre_lies_among_the_pieces(pieces: list[Piece]) -> None:
    centre = lifting.centre(pieces)
    for axis in range(3):
        places = [(p.at or (0, 0, 0))[axis] for p in pieces]
        assert min(places) - 1e-9 <= centre[axis] <= max(places) + 1e-9


def test_at_its_best_a_lift_is_of_51_pounds() -> None:
    assert limit().mass / POUND == pytest.approx(51)


@pytest.mark.parametrize(
    ("more", "what"),
    [({"reach": 25.1}, "reach"), ({"height": 70.1}, "height"), ({"travel": 70.1}, "travel"),
     ({"turn": 135.1}, "turn")],
)  # fmt: skip
def test_outside_its_range_a_multiplier_is_nothing_and_there_is_no_index(
    more: dict[str, float], what: str
) -> None:
    found = limit(**more)
    assert found.nothing == (what,)
    assert lifting.index(5.0, found.mass) is None


def test_at_the_ends_of_its_range_the_equation_still_holds() -> None:
    assert limit(reach=25, height=70, travel=70, turn=135).nothing == ()


def test_a_reach_under_ten_inches_is_refused_and_not_taken_as_ten() -> None:
    with pytest.raises(ValueError, match="count from 10 in"):
        limit(reach=9.9)
    assert "out of range" in SHEET.read({"reach": "8 in"}).problems["reach"]


@settings(max_examples=60)
@given(st.floats(0.05, 20), st.floats(0.05, 20), st.sampled_from(["1", "2", "8"]))
def test_lifting_more_often_never_allows_more(one: float, other: float, hours: str) -> None:
    low, high = sorted((one, other))
    for height in (10.0, 40.0):
        assert share(low, hours, height) >= share(high, hours, height)


def test_lifting_for_longer_never_allows_more_and_low_hands_never_more_than_high() -> None:
    for rate, _ in TABLE["frequencies"]:
        low = [share(rate, hours, 10) for hours in ("1", "2", "8")]
        high = [share(rate, hours, 40) for hours in ("1", "2", "8")]
        assert low == sorted(low, reverse=True)
        assert high == sorted(high, reverse=True)
        assert all(a <= b for a, b in zip(low, high, strict=True))


def test_the_first_row_is_up_to_a_fifth_of_a_lift_a_minute() -> None:
    """The manual’s reprint of the table says 2 there."""
    assert share(0.2, "8", 30) == 0.85
    assert share(0.21, "8", 30) == 0.81
    assert share(2, "8", 30) == 0.65
    assert share(15.1, "1", 40) == 0


def test_between_two_rows_the_slower_to_forgive_counts() -> None:
    assert lifting.frequency_share(2.5, "1", 0.5, TABLE) == (3.0, 0.88)


def test_limits_of_two_people_are_not_added() -> None:
    found = SHEET.work({"people": "2"})
    assert not any(figure.key in ("limit", "index") for figure in found.figures)
    assert any("does not apply" in f.says and "not added" in f.says for f in found.findings)


def test_a_hoist_is_planned_above_the_mass_that_was_set() -> None:
    over = [f for f in SHEET.work({"hoist": "90 lb"}).findings if "plan a hoist" in f.says]
    assert [f.says.split(" is ")[0] for f in over] == ["The whole"]
    assert not [f for f in SHEET.work({"hoist": "200 lb"}).findings if "plan a hoist" in f.says]


@pytest.mark.parametrize(
    ("load", "standing", "words"),
    [("20 lb", Standing.WITHIN, "Up to 1"), ("60 lb", Standing.OVER, "raised for some"),
     ("150 lb", Standing.OVER, "nearly everybody")],
)  # fmt: skip
def test_the_index_says_for_whom_the_risk_is_raised(
    load: str, standing: Standing, words: str
) -> None:
    found = SHEET.work({"load": load, "hoist": "500 lb"})
    assert found.findings[0].standing == standing
    assert words in found.findings[0].says


def test_parts_of_the_project_stand_in_and_those_without_a_mass_are_named() -> None:
    rows = (
        {"name": "Frame", "count": 1, "mass": 38.5, "width": 1.2, "height": 1.5, "depth": 1.2,
         "left": 3.0, "bottom": 2.8, "used": None},
        {"name": "Mural", "count": 1, "mass": None, "width": 7.0, "height": 3.6, "depth": None,
         "left": 0.0, "bottom": 0.0, "used": None},
        {"name": "Skin", "count": 1, "mass": 2.4, "width": 1.2, "height": 1.5, "depth": 1.2,
         "left": None, "bottom": None, "used": None},
    )  # fmt: skip
    found = SHEET.work({"allowance": "0 %"}, facts={"parts": Fact(rows, "the parts")})
    assert found.figure("total").value == pytest.approx(40.9)
    assert found.figure("centre_x").value == pytest.approx(3.6)
    assert found.figure("centre_z").value == pytest.approx(3.55)
    said = " ".join(f.says for f in found.findings)
    assert "Without a mass, and so left out: Mural." in said
    assert "not in the centre of mass: Skin." in said


def test_no_mass_at_all_is_no_result() -> None:
    with pytest.raises(Impossible, match="No piece has a mass"):
        SHEET.work({"pieces": [{"name": "Frame", "mass": "0 lb"}]})


def test_the_whole_is_handed_to_the_part_with_its_allowance() -> None:
    found = SHEET.work({"pieces": [{"name": "A", "count": "3", "mass": "10 kg"}]})
    assert found.hands[0].mass == pytest.approx(31.2)
    assert found.pictures == ()
