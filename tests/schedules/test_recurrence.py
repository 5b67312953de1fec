"""Recurrence beside the published examples: clock changes, ends, refusals (RFC 5545)."""

from datetime import datetime
from itertools import islice
from zoneinfo import ZoneInfo

import pytest

from schedules.recurrence import BadRule, instances

NEW_YORK = ZoneInfo("America/New_York")


def written(rule: str, start: datetime, count: int = 9, **more: list[datetime]) -> list[str]:
    return [f"{at:%d %b %H:%M %z}".strip() for at in islice(instances(rule, start, **more), count)]


def test_the_local_time_stays_over_a_clock_change() -> None:
    start = datetime(2026, 10, 31, 9, tzinfo=NEW_YORK)
    assert written("FREQ=DAILY;COUNT=2", start) == ["31 Oct 09:00 -0400", "01 Nov 09:00 -0500"]


def test_a_time_the_clock_skips_moves_on_as_the_standard_says() -> None:
    """Section 3.3.5: read with the offset before the gap."""
    start = datetime(2026, 3, 7, 2, 30, tzinfo=NEW_YORK)
    assert written("FREQ=DAILY;COUNT=2", start)[1] == "08 Mar 03:30 -0400"


def test_the_end_of_a_rule_is_utc_and_counts() -> None:
    start = datetime(2026, 6, 1, 9, tzinfo=NEW_YORK)
    assert len(written("FREQ=DAILY;UNTIL=20260603T130000Z", start)) == 3
    assert len(written("FREQ=DAILY;UNTIL=20260603T125959Z", start)) == 2


def test_an_end_given_as_a_day_includes_that_day() -> None:
    assert len(written("FREQ=DAILY;UNTIL=20260603", datetime(2026, 6, 1, 9))) == 3


def test_days_can_be_left_out_and_added() -> None:
    start = datetime(2031, 6, 14, 10)
    found = written(
        "FREQ=WEEKLY;COUNT=3", start,
        excluded=[datetime(2031, 6, 21, 10)], added=[datetime(2031, 6, 22, 10)],
    )  # fmt: skip
    assert found == ["14 Jun 10:00", "22 Jun 10:00", "28 Jun 10:00"]


def test_an_endless_rule_is_taken_as_far_as_asked() -> None:
    assert len(written("FREQ=MONTHLY", datetime(2031, 6, 14), count=50)) == 50


@pytest.mark.parametrize("rule", ["", "FREQ=SOMETIMES", "FREQ=DAILY;BYDAY=XX", "hello", "COUNT=3"])
def test_what_is_not_a_rule_is_refused(rule: str) -> None:
    with pytest.raises(BadRule):
        instances(rule, datetime(2031, 6, 14))


@pytest.mark.parametrize("rule", ["FREQ=DAILY;INTERVAL=0", "FREQ=YEARLY;INTERVAL=00;COUNT=2"])
def test_a_rule_that_never_moves_on_is_refused(rule: str) -> None:
    """An interval is a positive number: section 3.3.10."""
    with pytest.raises(BadRule):
        next(instances(rule, datetime(2031, 6, 14, 10)))


def test_an_interval_of_ten_is_not_one_of_nothing() -> None:
    assert written("FREQ=DAILY;INTERVAL=10;COUNT=2", datetime(2031, 6, 1))[1].startswith("11 Jun")
