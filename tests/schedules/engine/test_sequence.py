"""Work that went ahead of its predecessors."""

from schedules.engine import Activity, LagClock, Link, SequenceRule, out_of_sequence

from .networks import DAY, MONDAY, at, link, net, task

THURSDAY, FRIDAY = at("2031-06-12T08:00"), at("2031-06-13T17:00")
BEGUN = {"actual_start": THURSDAY, "remaining": DAY}
OVER = {"actual_start": THURSDAY, "actual_finish": FRIDAY}


def found(*parts: Activity | Link) -> list[tuple[str, str, str, str]]:
    every = out_of_sequence(net(*parts), data_date=MONDAY)
    return [(each.activity, each.before, each.link, each.rule.value) for each in every]


def test_work_begun_before_its_predecessor_ends_is_named_with_its_rule() -> None:
    parts = (task("frame", **BEGUN), task("skin", **BEGUN), task("seal", **BEGUN, ahead=True))
    assert found(*parts, link("frame FS skin"), link("frame FS seal")) == [
        ("skin", "frame", "frame FS skin", "retained"),
        ("seal", "frame", "frame FS seal", "override"),
    ]


def test_work_finished_before_its_predecessor_is_named_though_nothing_waits() -> None:
    parts = (task("frame"), task("skin", **OVER))
    for kind in ("FS", "SS", "FF", "SF"):
        name = f"frame {kind} skin"
        assert found(*parts, link(name)) == [("skin", "frame", name, SequenceRule.ACTUAL)]


def test_what_is_in_order_is_not_named() -> None:
    assert found(task("frame", **OVER), task("skin"), link("frame FS skin")) == []
    assert found(task("frame", **BEGUN), task("skin", **BEGUN), link("frame SS skin")) == []
    assert found(task("frame", **BEGUN), task("skin", **BEGUN), link("frame FF skin")) == []
    assert found(task("frame", **OVER), task("skin", **OVER), link("frame FS skin")) == []


def test_a_wait_from_a_start_that_has_come_is_past() -> None:
    assert found(task("frame", **BEGUN), task("skin", **BEGUN), link("frame SS skin", DAY)) == []


def test_a_negative_lag_allows_that_much() -> None:
    parts = (task("frame", **BEGUN), task("skin", actual_start=FRIDAY - DAY, remaining=DAY))
    assert found(*parts, link("frame FS skin", -3 * DAY)) == []
    assert len(found(*parts, link("frame FS skin", -DAY // 2))) == 1


def test_a_start_is_not_out_of_order_before_its_finish_is() -> None:
    assert found(task("frame"), task("skin", **BEGUN), link("frame SF skin")) == []
    assert len(found(task("frame"), task("skin", **BEGUN), link("frame SS skin"))) == 1


def test_an_overlap_of_two_weekend_days_reaches_back_a_week() -> None:
    """The frame ends on Monday 16 June: two weekdays before it are Thursday's end."""
    parts = (task("frame"), task("skin", calendar="weekend", **BEGUN))
    named = [c for c in LagClock if found(*parts, link("frame FS skin", -2 * DAY, c))]
    assert named == [LagClock.WORK, LagClock.PROJECT, LagClock.ELAPSED]
