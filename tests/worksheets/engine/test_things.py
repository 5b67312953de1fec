"""What is said of a thing: standing, clause, and the change that would meet the rule."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.dimensions import INCH, System
from worksheets.engine.hanging import Hung, off_the_wall
from worksheets.engine.reach_case import length, short, sized
from worksheets.engine.result import Standing
from worksheets.engine.rules import rule_set
from worksheets.engine.things import Setting, Thing, judge, listed_who


def setting(**more) -> Setting:
    plain = {
        "rules": rule_set("reach", "us-2010"),
        "users": ("adult",),
        "show": lambda value: length(value, System.US),
        "brief": lambda value: short(value, System.US),
    }
    return Setting(**{**plain, **more})


def said(thing: Thing, **more) -> list[tuple[str, str, str]]:
    told = judge([thing], setting(**more))
    words = ((each.standing, each.finding.says, each.finding.rule) for each in told)
    return [(a, b.replace("\u00a0", " "), c) for a, b, c in words]


def test_a_crank_too_high_is_told_how_low_it_must_go() -> None:
    ((standing, says, rule),) = said(Thing(name="Crank", used=54 * INCH))
    assert standing == Standing.OVER
    assert "48 in (1,219 mm) for adults" in says
    assert "Lower it to 48 in (1,219 mm) or less" in says
    assert rule == "2010 ADA Standards 308.2.1"


def test_for_children_the_common_band_is_what_mends_it() -> None:
    ((_, says, rule),) = said(Thing(name="Crank", used=46 * INCH), users=("adult", "3-4", "5-8"))
    assert "36 in (914 mm) for ages 3 to 4, 40 in (1,016 mm) for ages 5 to 8" in says
    assert "for adults" not in says
    assert "Lower it to 36 in (914 mm) or less, but not below 20 in (508 mm)" in says
    assert "Advisory 308.1" in rule


def test_the_advice_serves_everybody_and_not_only_the_first_who_cannot_reach() -> None:
    ((_, says, _),) = said(Thing(name="Crank", used=54 * INCH), users=("adult", "3-4"))
    assert "Lower it to 36 in (914 mm) or less" in says


def test_where_no_height_serves_everybody_it_says_so() -> None:
    deep = Thing(name="Crank", used=1.0, depth=0.7)
    ((_, says, _),) = said(deep)
    assert "25 in (635 mm) that anybody is taken to reach" in says
    assert "nearer" in says


def test_a_low_lever_is_raised_and_not_lowered() -> None:
    ((_, says, _),) = said(Thing(name="Pedal", used=10 * INCH))
    assert "Raise it to 15 in" in says


def test_at_the_very_limit_it_asks_for_a_look() -> None:
    ((standing, says, _),) = said(Thing(name="Crank", used=47.5 * INCH))
    assert standing == Standing.NEAR
    assert "limit of 48 in" in says
    ((standing, says, _),) = said(Thing(name="Crank", used=15.5 * INCH))
    assert standing == Standing.NEAR
    assert "limit of 15 in" in says


def test_a_box_a_cane_misses_may_go_down_up_or_in() -> None:
    ((standing, says, rule),) = said(Thing(name="Box", edge=29 * INCH, out=8 * INCH))
    assert (standing, rule) == (Standing.OVER, "2010 ADA Standards 307.2")
    assert "Lower the edge to 27 in" in says
    assert "raise it above 80 in" in says
    assert "stick out 4 in" in says


def test_what_stands_on_the_ground_is_never_walked_into_unseen() -> None:
    assert said(Thing(name="Trough", mounting="ground", edge=0.0, out=1.2)) == []


def test_a_planted_strip_takes_its_width_off_what_sticks_out() -> None:
    box = Thing(name="Box", edge=1.0, out=0.5)
    assert said(box)[0][0] == Standing.OVER
    assert said(box, walked=False, path_from=0.45)[0][0] == Standing.WITHIN
    assert said(box, walked=False, path_from=0.2)[0][0] == Standing.OVER


def test_a_canopy_without_head_room_is_hung_higher_or_guarded() -> None:
    ((standing, says, rule),) = said(Thing(name="Sail", mounting="hung", edge=1.9, out=1.0))
    assert standing == Standing.OVER
    assert "barrier" in says and "307.4" in rule


def test_what_leaves_too_little_of_the_path_is_told_how_far_back() -> None:
    trough = Thing(name="Trough", mounting="ground", edge=0.0, out=0.8, along=1.5)
    ((standing, says, rule),) = said(trough, path_width=1.5, path_from=0.0)
    assert standing == Standing.OVER
    assert "Bring it back by" in says and "403.5.1" in rule
    assert said(trough, path_width=1.5, path_from=0.8) == []


def test_what_hangs_above_head_room_takes_nothing_from_the_path() -> None:
    lamp = Thing(name="Lamp", edge=2.8, out=1.4, along=1.2)
    ((standing, says, rule),) = said(lamp, path_width=1.5, path_from=0.0)
    assert standing == Standing.WITHIN
    assert "above head room" in says and "307.4" in rule


def test_a_set_without_figures_for_children_says_so_once() -> None:
    europe = rule_set("reach", "iso-21542")
    found = said(Thing(name="Crank", used=1.0), rules=europe, users=("adult", "5-8", "9-12"))
    notes = [says for standing, says, _ in found if standing == Standing.NOTE]
    assert len(notes) == 1
    assert "ages 5 to 8 and ages 9 to 12" in notes[0]


def test_a_force_is_held_against_the_rule_or_said_to_have_none() -> None:
    ((standing, says, _),) = said(Thing(name="Crank", force=30.0))
    assert standing == Standing.OVER and "easier gear" in says
    europe = rule_set("reach", "iso-21542")
    assert said(Thing(name="Crank", force=30.0), rules=europe)[0][0] == Standing.NOTE


def test_a_part_past_the_end_of_the_wall_or_above_its_top_is_found() -> None:
    hung = Hung(name="Frame", left=6.0, width=2.0, bottom=3.0, height=2.0)
    told = [found.says for found in off_the_wall(hung, (7.0, 4.5), "{:g} m".format)]
    assert told[0].startswith("Frame: it ends 1 m past the wall’s right end")
    assert told[1].startswith("Frame: it ends 0.5 m above the top of the wall")
    assert not list(off_the_wall(hung, (8.0, 5.0), "{:g} m".format))


def test_sizes_on_a_drawing_are_short() -> None:
    assert sized([1.22, 1.52], System.US) == "4\u00a0ft × 5\u00a0ft"
    assert short(0.737, System.US) == "29\u00a0in"
    assert listed_who(["adult", "3-4", "5-8"]) == "adults, ages 3 to 4 and ages 5 to 8"


@given(st.floats(0, 4), st.floats(0, 2), st.sampled_from(["wall", "post", "hung", "ground"]))
def test_every_finding_is_a_sentence_with_its_clause(
    edge: float, out: float, mounting: str
) -> None:
    thing = Thing(name="Thing", edge=edge, out=out, used=edge, mounting=mounting, along=1.0)
    for each in judge([thing], setting(path_width=2.0)):
        assert each.finding.says.startswith("Thing: ") and each.finding.says.endswith(".")
        assert each.finding.rule
        assert bool(each.short) or each.standing not in (Standing.OVER,)


@given(st.floats(0.0, 3.0))
def test_following_the_advice_mends_it(height: float) -> None:
    """Where it says to lower or raise to a height, that height is within reach."""
    users = ("adult", "3-4", "9-12")
    told = judge([Thing(name="Crank", used=height)], setting(users=users))
    if told[0].standing == Standing.OVER:
        low, high = 0.508, 0.9144
        for mended in (low, high):
            again = judge([Thing(name="Crank", used=mended)], setting(users=users))
            assert again[0].standing != Standing.OVER
