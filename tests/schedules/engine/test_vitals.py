"""Numbers of a plan's health. The seven tasks are our own arithmetic, after the definitions of
DCMA-EA PAM 200.1 (October 2012), section 4, and GAO-16-89G (December 2015): data date at the
end of day 10, the event at the end of day 30."""

from dataclasses import replace
from fractions import Fraction

import pytest

from schedules.engine import Calendar, Link, Network, solve
from schedules.engine.health import Code, Facts, ailments
from schedules.engine.vitals import delay_test, due_work, length_index, lengthened, vitals

from .networks import ALWAYS, DAY, MONDAY, at, cure, date_for, link, net, task

D = ALWAYS.day_minutes
KEPT = {"A": 5, "B": 9, "C": 19, "D": 24, "E": 31, "F": 7}
NOW = 10 * D


def seven() -> Network:
    """A and B finished late; C, D, E lead to the event G by a cure; F stands aside."""
    from schedules.engine import Activity, KeyDate, KeyDateRole

    def piece(key: str, days: int, first: int | None = None, last: int | None = None) -> Activity:
        start, end = (None if n is None else n * D for n in (first, last))
        return Activity(
            key=key, duration=days * D, calendar="always", actual_start=start, actual_finish=end
        )

    pairs = ("AB", "BC", "CD", "DE", "AF", "EG", "FG")
    return Network(
        activities=(
            piece("A", 5, 0, 6), piece("B", 4, 6, 10), piece("C", 10), piece("D", 3),
            piece("E", 7), piece("F", 2), piece("G", 0),
        ),
        links=tuple(
            Link(key=p, before=p[0], after=p[1], lag=2 * D if p == "CD" else 0) for p in pairs
        ),
        calendars={"always": Calendar.always("always")},
        key_dates=(KeyDate(key="event", activity="G", at=30 * D, role=KeyDateRole.EVENT),),
        end="G",
        project_calendar="always",
    )  # fmt: skip


def test_the_seven_tasks_stand_where_the_table_has_them() -> None:
    plan = solve(seven(), data_date=NOW)
    early = {key: plan.dates[key].early_finish // D for key in "CDEFG"}
    assert early == {"C": 20, "D": 25, "E": 32, "F": 12, "G": 32}
    late = {key: (plan.dates[key].late_finish // D, plan.dates[key].total_float // D)
            for key in "CDEF"}  # fmt: skip
    assert late == {"C": (18, -2), "D": (23, -2), "E": (30, -2), "F": (30, 18)}


def test_the_event_is_two_days_short_and_the_way_there_is_named() -> None:
    found = ailments(
        seven(), solve(seven(), data_date=NOW), data_date=NOW,
        facts=Facts(links={"CD"}, dates={"event"}),
    )  # fmt: skip
    assert [(a.code, a.minutes, a.chain) for a in found] == [
        (Code.SHORT, 2 * D, ("B", "C", "D", "E", "G"))
    ]


def test_a_cure_without_a_reason_is_the_one_unexplained_wait() -> None:
    facts = Facts(dates={"event"})
    plan = solve(seven(), data_date=NOW)
    found = ailments(seven(), plan, data_date=NOW, facts=facts)
    assert [(a.code, a.link) for a in found if a.link] == [(Code.LAG, "CD")]


def test_all_three_due_tasks_were_missed_and_two_are_done() -> None:
    plan = solve(seven(), data_date=NOW)
    due = due_work({k: n * D for k, n in KEPT.items()}, plan, data_date=NOW)
    assert (due.due, due.done, due.hit, due.missed) == (
        ("A", "B", "F"), ("A", "B"), (), ("A", "B", "F"),
    )  # fmt: skip


def test_twenty_two_days_of_work_have_twenty_to_go_in() -> None:
    seen = vitals(seven(), solve(seven(), data_date=NOW), data_date=NOW)
    assert (seen.length, seen.in_hand, seen.index) == (22 * D, -2 * D, Fraction(20, 22))


def test_six_hundred_days_more_move_the_event_by_as_many() -> None:
    plan = solve(seven(), data_date=NOW)
    found = delay_test(seven(), plan, data_date=NOW)
    assert found and found.held
    assert (found.activity, found.moved) == ("C", 600 * D)
    longer = lengthened(seven(), next(a for a in seven().activities if a.key == "C"))
    assert solve(longer, data_date=NOW).dates["G"].early_finish == 632 * D


def test_delay_moves_the_end_by_itself_less_the_float() -> None:
    """F has 18 days to the date and 20 to the work: the work ends 580 days later."""
    longer = lengthened(seven(), next(a for a in seven().activities if a.key == "F"))
    ready = solve(longer, data_date=NOW).ready_at
    assert ready == (32 + 600 - 20) * D


def test_a_broken_way_fails_the_test_of_600_days() -> None:
    """Skin waits for the start of the frame alone: however long the frame, the end stays."""
    broken = net(
        task("frame", 2 * DAY), task("skin", 9 * DAY), task("walk", 0),
        link("frame SS skin"), link("skin FS walk"), end="walk",
    )  # fmt: skip
    found = delay_test(broken, solve(broken, data_date=MONDAY), data_date=MONDAY)
    assert found and not found.held and found.activity == "frame"


@pytest.mark.parametrize("calendar", ["crew", "weekend"])
def test_the_test_holds_over_several_calendars_and_a_cure(calendar: str) -> None:
    mixed = net(
        task("weld", 3 * DAY), task("prime", 2 * DAY, calendar), task("walk", 0),
        cure("weld FS prime", 72), link("prime FS walk"),
        date_for("walk", "event", "2031-08-16T18:00"), end="walk",
    )  # fmt: skip
    found = delay_test(mixed, solve(mixed, data_date=MONDAY), data_date=MONDAY)
    assert found and found.held and found.moved > 590 * DAY


def test_a_first_day_in_two_weeks_does_not_fail_the_test() -> None:
    held = net(
        task("weld", 3 * DAY), task("walk", 0), link("weld FS walk"),
        date_for("weld", "no_earlier", "2031-06-30"), end="walk",
    )  # fmt: skip
    found = delay_test(held, solve(held, data_date=MONDAY), data_date=MONDAY)
    assert found and found.held and found.moved == 600 * DAY


def test_what_was_kept_for_today_is_not_due_this_morning() -> None:
    bare = net(task("weld"), task("sew"))
    plan = solve(bare, data_date=MONDAY)
    kept = {"weld": MONDAY, "sew": at("2031-06-16T17:00")}
    assert due_work(kept, plan, data_date=MONDAY).due == ("weld",)


def test_nothing_left_to_do_is_not_tested() -> None:
    done = net(
        task("weld", actual_start=at("2031-06-09T08:00"), actual_finish=at("2031-06-10T17:00"))
    )
    assert delay_test(done, solve(done, data_date=MONDAY), data_date=MONDAY) is None


def test_a_calendar_that_runs_out_is_not_tested() -> None:
    closed = Calendar(key="crew", week=((),) * 7)
    bare = net(task("weld", DAY))
    plan = solve(bare, data_date=MONDAY)
    assert delay_test(replace(bare, calendars={"crew": closed}), plan, data_date=MONDAY) is None


def test_near_is_counted_from_the_least_float_and_not_from_none() -> None:
    """The band is three working days while 5 % of what remains is less; five days late here."""
    short = net(
        task("weld", 10 * DAY), task("sew", 8 * DAY), task("paint", 6 * DAY), task("walk", 0),
        link("weld FS walk"), link("sew FS walk"), link("paint FS walk"),
        date_for("walk", "event", "2031-06-20T17:00"), end="walk",
    )  # fmt: skip
    seen = vitals(short, solve(short, data_date=MONDAY), data_date=MONDAY)
    assert (seen.near, seen.band, seen.merges) == (("sew",), 3 * DAY, ("walk",))


def test_the_band_grows_with_what_is_left() -> None:
    long = net(task("weld", 100 * DAY), task("walk", 0), link("weld FS walk"), end="walk")
    assert vitals(long, solve(long, data_date=MONDAY), data_date=MONDAY).band == 5 * DAY


def test_the_index_of_a_plan_with_nothing_left_is_no_number() -> None:
    assert length_index(0, 5) is None


def test_an_event_of_an_hour_is_not_what_comes_close_to_its_own_date() -> None:
    evening = net(
        task("weld", 2 * DAY), task("sew", DAY), task("walk", 60, "always"),
        link("weld FS walk"), link("sew FS walk"),
        date_for("walk", "event", "2031-06-18T18:00"), end="walk",
    )  # fmt: skip
    plan = solve(evening, data_date=MONDAY)
    assert vitals(evening, plan, data_date=MONDAY).near == ("sew",)
