"""What ails a plan. Open and dangling ends, leads, lags, hard dates, negative float: DCMA-EA PAM
200.1 (October 2012), section 4, points 1 to 7; names in place of shares, and the limits of 5, 15
and 20 days: common practice, no source."""

from itertools import pairwise
from typing import Any

from schedules.engine import Activity, KeyDate, LagClock, Link, solve
from schedules.engine.health import Ailment, Code, Facts, ailments, examine

from .networks import DAY, MONDAY, at, cure, date_for, link, net, task

WALK = task("walk", 0)


def ails(*parts: Activity | Link | KeyDate, facts: Facts | None = None) -> list[Ailment]:
    """What ails a plan that ends in the walk."""
    network = net(*parts, end="walk")
    plan = solve(network, data_date=MONDAY)
    return list(ailments(network, plan, data_date=MONDAY, facts=facts or Facts()))


def codes(*parts: Any, **more: Any) -> list[tuple[str, str]]:
    return [(a.code.value, a.activity) for a in ails(*parts, **more)]


def chain(*keys: str) -> list[Link]:
    return [link(f"{a} FS {b}") for a, b in pairwise(keys)]


def test_a_plan_in_order_has_nothing_to_mend() -> None:
    assert codes(task("weld"), task("sew"), WALK, *chain("weld", "sew", "walk")) == []


def test_what_comes_after_the_event_has_no_open_end() -> None:
    assert codes(task("weld"), WALK, task("photos"), *chain("weld", "walk", "photos")) == []


def test_a_task_that_nothing_waits_for_is_one_fault_not_two() -> None:
    found = codes(task("weld"), task("troughs"), WALK, *chain("weld", "walk"),
                  link("weld FS troughs"))  # fmt: skip
    assert found == [("no_successor", "troughs")]


def test_a_way_that_ends_beside_the_event_is_named_from_its_beginning() -> None:
    found = codes(task("weld"), task("cut"), task("fold"), WALK,
                  *chain("weld", "walk"), *chain("weld", "cut", "fold"))  # fmt: skip
    assert found == [("no_path_to_end", "cut"), ("no_successor", "fold")]


def test_a_second_beginning_is_named_until_its_first_day_has_a_reason() -> None:
    parts = (task("weld"), task("permit"), WALK, *chain("weld", "walk"), link("permit FS walk"),
             date_for("permit", "no_earlier", "2031-06-18"))  # fmt: skip
    assert [a.explained for a in ails(*parts) if a.activity == "permit"] == [False, False]
    explained = ails(*parts, facts=Facts(dates={"no_earlier"}))
    assert [(a.code, a.activity, a.explained) for a in explained] == [
        (Code.NO_PREDECESSOR, "permit", True)
    ]


def test_a_finish_that_moves_nothing_and_a_start_that_nothing_holds() -> None:
    found = codes(
        task("weld"), task("sew", 3 * DAY), WALK, link("weld SS sew"), link("sew FS walk")
    )
    assert found == [("dangling_finish", "weld")]
    found = codes(task("weld"), task("sew", 3 * DAY), WALK, link("weld FF sew"),
                  link("sew FS walk"))  # fmt: skip
    assert found == [("dangling_start", "sew")]


def test_what_is_done_is_not_mended_any_more() -> None:
    done = task("weld", actual_start=at("2031-06-09T08:00"), actual_finish=at("2031-06-09T17:00"))
    assert codes(done, task("sew"), WALK, link("weld SS sew"), link("sew FS walk")) == []


def test_days_still_to_come_are_not_history() -> None:
    early = task("weld", actual_start=at("2031-06-17T08:00"))
    parts = (early, WALK, *chain("weld", "walk"))
    assert codes(*parts) == [("actual_after_data_date", "weld")]
    assert codes(*parts, facts=Facts(until=at("2031-06-18"))) == []


def test_a_last_day_that_is_missed_tells_by_how_much_and_what_drives_it() -> None:
    parts = (task("weld", 4 * DAY), task("sew", 2 * DAY), WALK, *chain("weld", "sew", "walk"),
             date_for("sew", "no_later", "2031-06-20"))  # fmt: skip
    found = ails(*parts, facts=Facts(dates={"no_later"}))
    assert [(a.code, a.minutes, a.chain) for a in found] == [(Code.SHORT, 2 * DAY, ("weld", "sew"))]


def test_a_date_kept_to_the_minute_is_not_missed() -> None:
    parts = (task("weld", 4 * DAY), WALK, *chain("weld", "walk"),
             date_for("weld", "no_later", "2031-06-19T17:00"))  # fmt: skip
    assert ails(*parts, facts=Facts(dates={"no_later"})) == []


def test_a_hearing_missed_by_two_hours_of_a_saturday_is_missed() -> None:
    parts = (task("weld"), task("hearing", 0, "always"), WALK, *chain("hearing", "walk"),
             cure("weld FS hearing", 115),
             date_for("hearing", "event", "2031-06-21T10:00"))  # fmt: skip
    found = ails(*parts, facts=Facts(links={"weld FS hearing"}, dates={"event"}))
    assert [(a.code, a.minutes) for a in found] == [(Code.SHORT, 1)]


def test_work_begun_too_early_is_named_and_explained_when_it_need_not_wait() -> None:
    begun = {"actual_start": at("2031-06-13T08:00"), "remaining": DAY}
    parts = (task("weld"), WALK, *chain("weld", "sew", "walk"))
    assert codes(*parts, task("sew", **begun)) == [("out_of_sequence", "sew")]
    assert [a.explained for a in ails(*parts, task("sew", ahead=True, **begun))] == [True]


def test_a_given_day_wants_a_reason_until_it_is_past() -> None:
    date = date_for("sew", "no_earlier", "2031-06-18")
    parts = (task("weld"), WALK, *chain("weld", "sew", "walk"), date)
    assert codes(*parts, task("sew")) == [("hard_date", "sew")]
    assert codes(*parts, task("sew"), facts=Facts(dates={"no_earlier"})) == []
    begun = task("sew", actual_start=at("2031-06-13T08:00"), remaining=DAY, ahead=True)
    assert ("hard_date", "sew") not in codes(*parts, begun)


def test_waits_want_a_reason_and_overlaps_are_questions() -> None:
    three = (task("weld", 3 * DAY), task("sew"), WALK, link("sew FS walk"))
    assert codes(*three, link("weld FS sew", DAY)) == [("lag", "sew")]
    known = Facts(links={"weld FS sew"})
    assert codes(*three, link("weld FS sew", DAY), facts=known) == []
    assert codes(*three, link("weld FS sew", -DAY)) == [("lead", "sew")]
    assert [a.explained for a in ails(*three, link("weld FS sew", -DAY), facts=known)] == [True]


def test_a_wait_of_more_than_five_days_or_a_week_on_the_clock_is_a_task() -> None:
    three = (task("weld"), task("sew"), WALK, link("sew FS walk"))
    known = Facts(links={"weld FS sew"})
    assert codes(*three, link("weld FS sew", 5 * DAY), facts=known) == []
    assert codes(*three, cure("weld FS sew", 168), facts=known) == []
    for long in (link("weld FS sew", 5 * DAY + 1), cure("weld FS sew", 169)):
        found = ails(*three, long, facts=known)
        assert [(a.code, a.explained) for a in found] == [(Code.LONG_LAG, True)]


def test_a_long_wait_is_measured_in_days_of_its_own_clock() -> None:
    """Six days of the crew are not four of a guard who works day and night."""
    three = (task("weld"), task("guard", DAY, "always"), WALK, link("guard FS walk"))
    known = Facts(links={"weld FS guard"})
    for clock, long in (("work", True), ("after", False), ("project", True)):
        wait = link("weld FS guard", 6 * DAY, LagClock(clock))
        assert bool(codes(*three, wait, facts=known)) is long


def test_own_work_of_more_than_fifteen_days_is_too_long_but_a_wait_is_not() -> None:
    for days, found in ((15, []), (16, [("long", "weld")])):
        assert codes(task("weld", days * DAY), WALK, *chain("weld", "walk")) == found
    review = Facts(waiting={"weld"})
    assert codes(task("weld", 40 * DAY), WALK, *chain("weld", "walk"), facts=review) == []
    left = task("weld", 40 * DAY, actual_start=at("2031-06-02T08:00"), remaining=9 * DAY)
    assert codes(left, WALK, *chain("weld", "walk")) == []


def test_work_of_nobody_is_named() -> None:
    found = codes(task("weld"), WALK, *chain("weld", "walk"), facts=Facts(unowned={"weld", "walk"}))
    assert found == [("no_owner", "weld")]


def test_room_is_too_much_beyond_twenty_days_or_a_quarter_of_what_is_left() -> None:
    def beside(days: int) -> list[tuple[str, str]]:
        waits = Facts(waiting={"weld"})
        return codes(task("cut"), task("weld", days * DAY), task("box"), WALK,
                     *chain("cut", "weld", "walk"), *chain("cut", "box", "walk"),
                     facts=waits)  # fmt: skip

    assert beside(21) == [] and beside(22) == [("high_float", "box")]
    assert beside(100) == [("high_float", "box")]


def test_a_plan_that_begins_early_has_room_everywhere_and_no_fault() -> None:
    early = date_for("walk", "event", "2031-10-18T18:00")
    assert codes(task("weld"), WALK, *chain("weld", "walk"), early,
                 facts=Facts(dates={"event"})) == []  # fmt: skip


def test_a_loop_is_named_with_its_tasks_and_nothing_else_is_said() -> None:
    network = net(task("weld"), task("sew"), link("weld FS sew"), link("sew FS weld"))
    plan, found = examine(network, data_date=MONDAY, facts=Facts())
    assert plan is None
    assert [(a.code, set(a.chain)) for a in found] == [(Code.LOOP, {"weld", "sew"})]


def test_the_worst_comes_first() -> None:
    found = codes(task("weld", 16 * DAY), task("sew"), WALK, task("box"),
                  link("weld FS sew", DAY), link("sew FS walk"), link("weld FS box"),
                  date_for("sew", "no_later", "2031-06-20"))  # fmt: skip
    assert [code for code, _ in found] == ["short", "no_successor", "hard_date", "lag", "long"]
