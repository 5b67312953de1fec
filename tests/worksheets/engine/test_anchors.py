"""How anchors share a load: against least squares, sums of moments, and the printed limits."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from worksheets.engine import anchors
from worksheets.engine.anchors_case import sideways_pulls
from worksheets.engine.example import RULE
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_set
from worksheets.sheets.anchors import SHEET

LINEAR = rule_set("anchors", "linear").values
POWER = rule_set("anchors", "power").values
REPORT = {"report": "ESR 12", "report_day": "2030-05-01"}
PLACE = st.floats(-2, 2)
GROUP = st.lists(st.tuples(PLACE, PLACE), min_size=2, max_size=12)
FORCE = st.floats(-1e4, 1e4)
HEIGHTS = st.lists(st.floats(0.01, 3), min_size=2, max_size=12)


def apart(bolts: list[tuple[float, float]]) -> bool:
    return max(math.dist(bolts[0], other) for other in bolts) > 0.05


@settings(max_examples=80)
@given(GROUP, FORCE, FORCE, PLACE, PLACE)
def test_the_shares_hold_the_load_and_its_turning(
    bolts: list[tuple[float, float]], px: float, py: float, x: float, y: float
) -> None:
    assume(apart(bolts))
    shares = anchors.in_plane(bolts, (px, py), (x, y))
    assert sum(fx for fx, _ in shares) == pytest.approx(px, abs=1e-6)
    assert sum(fy for _, fy in shares) == pytest.approx(py, abs=1e-6)
    turning = sum(bx * fy - by * fx for (bx, by), (fx, fy) in zip(bolts, shares, strict=True))
    assert turning == pytest.approx(x * py - y * px, abs=1e-4)


@settings(max_examples=80)
@given(GROUP, FORCE, FORCE, PLACE, PLACE)
def test_the_shares_are_the_smallest_that_hold_it_as_least_squares_finds(
    bolts: list[tuple[float, float]], px: float, py: float, x: float, y: float
) -> None:
    """Equally stiff anchors on a rigid plate: least sum of squares under three equations."""
    assume(apart(bolts))
    count = len(bolts)
    equations = np.zeros((3, 2 * count))
    for n, (bx, by) in enumerate(bolts):
        equations[0, 2 * n] = equations[1, 2 * n + 1] = 1
        equations[2, 2 * n], equations[2, 2 * n + 1] = -by, bx
    wanted = np.array([px, py, x * py - y * px])
    least, *_ = np.linalg.lstsq(equations, wanted, rcond=None)
    found = np.array(anchors.in_plane(bolts, (px, py), (x, y))).ravel()
    assert found == pytest.approx(least, rel=1e-6, abs=1e-4)


@settings(max_examples=80)
@given(HEIGHTS, st.floats(0, 1e4), st.floats(0, 1e4))
def test_pulls_and_the_pressing_edge_balance_the_pull_and_the_moment(
    heights: list[float], weight_moment: float, pull: float
) -> None:
    middle = sum(heights) / len(heights)
    moment = weight_moment + pull * middle
    assume(moment > 0)
    pulls = anchors.tension(heights, moment, pull)
    pressing = sum(pulls) - pull  # the wall pushes back at the edge, where it has no lever
    assert pressing >= -1e-6 * max(1, pull)
    turned = sum(t * height for t, height in zip(pulls, heights, strict=True))
    spread = sum((height - middle) ** 2 for height in heights)
    if spread > 1e-6 or pressing > 1e-6:
        assert turned == pytest.approx(moment, rel=1e-6)


def test_tipping_passes_into_drawing_off_without_a_jump() -> None:
    heights = [0.1, 0.1, 0.5, 0.5]
    squares, count = sum(h * h for h in heights), sum(heights)
    pull = 1000.0
    moment = pull * squares / count  # the edge just stops pressing
    before = anchors.tension(heights, moment * (1 + 1e-9), pull)
    after = anchors.tension(heights, moment * (1 - 1e-9), pull)
    assert before == pytest.approx(after, rel=1e-6)


def test_the_edge_must_lie_below_every_anchor() -> None:
    with pytest.raises(Impossible, match="below every anchor") as wrong:
        SHEET.work({**REPORT, "edge": "2 in"})
    assert wrong.value.name == "edge"


@pytest.mark.parametrize("name", ["report", "report_day", "pull_allowed", "shear_allowed"])
def test_without_the_anchors_own_report_there_is_no_result(name: str) -> None:
    assert "needed" in SHEET.read({name: ""}).problems[name]


def test_allowables_for_concrete_are_void_in_brick() -> None:
    with pytest.raises(Impossible, match="void there") as wrong:
        SHEET.work({**REPORT, "wall": "brick", "report_for": "concrete"})
    assert wrong.value.name == "report_for"


def test_no_printed_report_holds_for_an_old_wall_only_tests_on_it() -> None:
    for report in ("concrete", "brick", "block", "timber"):
        with pytest.raises(Impossible, match="test anchors on it"):
            SHEET.work({**REPORT, "wall": "old", "report_for": report})
    found = SHEET.work({**REPORT, "wall": "old", "report_for": "tested"})
    assert any("tests bind" in f.says for f in found.findings)


def test_one_anchor_alone_can_turn() -> None:
    with pytest.raises(Impossible, match="at least two"):
        SHEET.work({**REPORT, "bolts": [{"x": "0 in", "y": "0 in"}]})


def test_more_than_twenty_anchors_are_refused_with_the_number() -> None:
    rows = [{"x": f"{n} in", "y": "0 in"} for n in range(21)]
    assert "At most 20" in SHEET.read({"bolts": rows}).problems["bolts"]


def test_two_anchors_in_one_place_are_refused_in_their_row() -> None:
    rows = [{"x": "0 in", "y": "0 in"}, {"x": "8 in", "y": "0 in"}, {"x": "0 in", "y": "0 in"}]
    with pytest.raises(Impossible) as wrong:
        SHEET.work({**REPORT, "bolts": rows})
    assert wrong.value.at == "bolts-2-x"


def test_no_load_is_no_result() -> None:
    with pytest.raises(Impossible, match="no load"):
        SHEET.work({**REPORT, "mass": "0 lb"})


@pytest.mark.parametrize(
    ("pull", "shear", "within"),
    [
        (0.6, 0.6, True),
        (0.61, 0.6, False),
        (0.2, 1.0, True),
        (0.21, 1.0, False),
        (0.1, 1.01, False),
    ],
)
def test_in_a_straight_line_a_fifth_or_less_may_be_left_out(
    pull: float, shear: float, within: bool
) -> None:
    assert anchors.interaction(pull, shear, LINEAR).within is within


def test_a_small_share_that_is_left_out_leaves_all_of_the_other() -> None:
    assert anchors.interaction(0.15, 0.95, LINEAR).used == 0.95
    assert anchors.interaction(0.3, 0.6, LINEAR).used == pytest.approx(0.75)


def test_a_sideways_force_may_come_from_either_side() -> None:
    assert sideways_pulls([0.0, 0.2, 0.2], 100.0) == pytest.approx([500.0, 250.0, 250.0])


@settings(max_examples=60)
@given(st.floats(0, 2), st.floats(0, 2))
def test_neither_share_alone_may_pass_one_by_any_rule(pull: float, shear: float) -> None:
    for rule in (LINEAR, POWER):
        if max(pull, shear) > 1 + 1e-9:
            assert not anchors.interaction(pull, shear, rule).within


def test_the_worst_anchor_is_named_and_the_limit_decides_its_word() -> None:
    typed = {**REPORT, "load_x": "20 in", "overhang": "0 in", "mass": "400 lb"}
    found = SHEET.work({**typed, "shear_allowed": "1000 lbf"})
    assert "anchor 2 of 4" in found.says or "anchor 3 of 4" in found.says
    assert found.figure("used").standing == Standing.WITHIN
    tight = SHEET.work({**typed, "shear_allowed": "200 lbf"})
    assert tight.figure("used").standing == Standing.OVER
    assert "over the entered limit" in tight.says


def test_a_pull_from_the_wind_and_a_sideways_force_add_to_the_weights() -> None:
    still = SHEET.work(REPORT).figure("pull").value
    windy = SHEET.work({**REPORT, "pull": "400 lbf"}).figure("pull").value
    aside = SHEET.work({**REPORT, "sideways": "50 lbf"}).figure("pull").value
    assert windy > still
    assert aside > still


def test_a_sideways_force_off_the_wall_needs_anchors_side_by_side() -> None:
    rows = [{"x": "0 in", "y": "0 in"}, {"x": "0 in", "y": "12 in"}]
    with pytest.raises(Impossible, match="one upright line"):
        SHEET.work({**REPORT, "bolts": rows, "sideways": "50 lbf"})


def test_the_loads_are_multiplied_as_asked() -> None:
    one, two = SHEET.work(REPORT), SHEET.work({**REPORT, "times": "2"})
    for key in ("pull", "shear"):
        assert two.figure(key).value == pytest.approx(2 * one.figure(key).value)


def test_an_example_is_marked_as_one() -> None:
    assert any(f.rule == RULE for f in SHEET.work({}).findings)
    assert not any(f.rule == RULE for f in SHEET.work(REPORT).findings)


def test_the_engineer_is_asked_and_not_told() -> None:
    request = next(hand for hand in SHEET.work(REPORT).hands if hand.key == "question")
    assert any("Please check" in item for item in request.items)
    assert any("ESR 12 of 2030-05-01" in item for item in request.items)
