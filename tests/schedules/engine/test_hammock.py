"""Hires and supervision: as long as the work they serve (common practice, no source)."""

import pytest

from schedules.engine import (
    EmptyHammock,
    Hammock,
    UnknownActivity,
    UnknownCalendar,
    hammock_dates,
    solve,
)

from .networks import DAY, MONDAY, at, link, net, task

PARTS = (
    task("C", 4 * DAY), task("D", 6 * DAY), task("E", 3 * DAY), task("F", 5 * DAY),
    link("C FS E"), link("D FS F"),
)  # fmt: skip


def hire(*parts: object, **more: object) -> tuple[int, int, int]:
    network = net(*parts)
    given = {"key": "hire", "starts": ("C", "D"), "finishes": ("E", "F"), "calendar": "crew"}
    return hammock_dates(solve(network, data_date=MONDAY), network, Hammock(**(given | more)))


def test_a_hire_lasts_from_the_first_start_to_the_last_finish() -> None:
    assert hire(*PARTS) == (at("2031-06-16T08:00"), at("2031-06-30T17:00"), 11 * DAY)
    assert hire(*PARTS, starts=("E",), finishes=("E",)) == (
        at("2031-06-20T08:00"),
        at("2031-06-24T17:00"),
        3 * DAY,
    )


def test_a_hire_grows_with_the_work_it_serves() -> None:
    later = (*PARTS, task("wait", 3 * DAY), link("wait FS F", 6 * DAY))
    assert hire(*later)[2] == hire(*PARTS)[2] + 3 * DAY


def test_a_hire_counts_on_its_own_calendar() -> None:
    assert hire(*PARTS, calendar="weekend")[2] == 4 * DAY


def test_a_hire_begins_with_what_has_begun() -> None:
    begun = at("2031-06-11T08:00")
    parts = (task("C", 4 * DAY, actual_start=begun, remaining=DAY), *PARTS[1:])
    assert hire(*parts)[0] == begun


def test_a_hire_that_ends_before_it_begins_has_no_working_time() -> None:
    assert hire(*PARTS, starts=("F",), finishes=("C",))[2] == 0


@pytest.mark.parametrize(
    ("wrong", "error"),
    [
        ({"starts": ()}, EmptyHammock),
        ({"finishes": ()}, EmptyHammock),
        ({"finishes": ("G",)}, UnknownActivity),
        ({"calendar": "moon"}, UnknownCalendar),
    ],
)
def test_a_hire_without_work_or_calendar_is_refused(wrong: dict, error: type) -> None:
    with pytest.raises(error) as refused:
        hire(*PARTS, **wrong)
    assert "hire" in str(refused.value)
