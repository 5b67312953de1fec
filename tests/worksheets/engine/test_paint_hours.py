"""The worksheet on paint hours: what it says, hands on, logs and refuses."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from worksheets.engine.dimensions import System
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_sets
from worksheets.sheets.paint_hours import SHEET


def block(*lines: str) -> str:
    return "\n".join(["time, air °C, humidity, surface °C, wind m/s, rain", *lines])


def lines(first: int, last: int, day: int = 14, rest: str = "20, 50, 22, 2, 0") -> list[str]:
    return [f"2031-06-{day} {hour:02d}:00, {rest}" for hour in range(first, last)]


def test_every_kind_of_paint_says_where_each_limit_stands() -> None:
    for rules in rule_sets("paint-hours").values():
        assert rules.source
        assert rules.status
        assert set(rules.clauses) == set(rules.values)


def test_the_sheet_hands_the_first_day_and_the_days_of_work_to_the_task() -> None:
    damp = lines(0, 24, 14, "20, 90, 22, 2, 0")
    typed = {
        "readings": block(*damp, *lines(0, 24, 15), *lines(0, 24, 16)),
        "coats": "2",
        "work": "6 h",
        "recoat": "12 h",
    }
    result = SHEET.work(typed)
    (hand,) = result.hands
    assert (hand.not_before, hand.days) == (date(2031, 6, 15), 2)
    assert result.findings[0].standing == Standing.NOTE


def test_too_few_hours_ask_for_a_look_and_hand_on_no_days() -> None:
    result = SHEET.work({"readings": block(*lines(8, 18)), "coats": "2", "work": "8 h"})
    assert result.findings[0].standing == Standing.NEAR
    assert result.hands[0].days is None


def test_without_a_measured_wall_an_hour_stays_open_unless_the_air_is_taken() -> None:
    typed = {"readings": block(*lines(8, 20, rest="20, 50, -, 2, 0"))}
    assert SHEET.work(typed).figure("hours").value == 0
    assert SHEET.work(typed).hands == ()
    assumed = SHEET.work(typed | {"unmeasured": "air", "offset": "-3 °C"})
    assert assumed.figure("hours").value > 0
    assert "minus 5.4 °F" in " ".join(f.says for f in assumed.findings)


def test_a_reading_on_site_stands_in_for_the_forecast_of_its_hour() -> None:
    row = {"time": "2031-06-14 10:00", "air": "20 °C", "humidity": "50 %", "surface": "9 °C"}
    typed = {
        "readings": block(*lines(8, 20)),
        "measured": [row],
        "drying": "0 h",
        "rain_free": "0 h",
    }
    before = SHEET.work({**typed, "measured": []}).figure("hours").value
    assert SHEET.work(typed).figure("hours").value == before - 1


def test_rain_that_was_not_told_is_said_and_not_guessed() -> None:
    text = "time, air °C, humidity, surface °C\n2031-06-14 10:00, 20, 50, 22"
    result = SHEET.work({"readings": text, "drying": "0 h", "rain_free": "0 h"})
    assert any("not told" in f.says or "told of rain" in f.says for f in result.findings)


def test_wind_counts_for_spray_and_not_for_a_brush() -> None:
    typed = {"readings": block(*lines(8, 20, rest="20, 50, 22, 9, 0"))}
    assert SHEET.work(typed).figure("hours").value > 0
    assert SHEET.work(typed | {"tool": "spray"}).figure("hours").value == 0


def test_the_planned_days_are_held_against_the_weather() -> None:
    planned = [{"name": "Paint mural field", "first": "2031-06-14", "last": "2031-06-15"}]
    typed = {"readings": block(*lines(8, 18), *lines(8, 18, 15)), "planned": planned}
    said = " ".join(f.says for f in SHEET.work(typed).findings)
    assert "“Paint mural field” is planned Sat 14 Jun to Sun 15 Jun: " in said
    away = [{"name": "Later", "first": "2031-07-14", "last": "2031-07-15"}]
    said = " ".join(f.says for f in SHEET.work(typed | {"planned": away}).findings)
    assert "not in these readings" in said


def test_the_log_lists_every_reading_once_with_who_measured() -> None:
    typed = {
        "readings": block(*lines(8, 18)),
        "who": "Volunteer crew",
        "instrument": "Contact meter",
    }
    log = SHEET.work(typed, system=System.METRIC).grids[-1]
    assert len(log.rows) == 10
    first = [cell.replace("\u00a0", " ") for cell in log.rows[0]]
    assert first[:3] == ["Sat 14 Jun, 08:00", "20 °C, 50 %", "9.3 °C"]
    assert first[3:5] == ["22 °C (12.7 °C above)", "2 m/s, dry"]
    assert log.title.endswith("2031")
    assert "Volunteer crew" in log.note and "Contact meter" in log.note


@pytest.mark.parametrize(
    ("typed", "name", "says"),
    [
        ({"readings": "time,air,humidity\nsoon,20,50"}, "readings", "Line 2"),
        ({"readings": ""}, "readings", "at least one line"),
        ({"opens": "18", "closes": "8"}, "closes", "after it begins"),
        ({"surface_least": "40 °C"}, "surface_least", "below the most"),
        ({"zone": "Nowhere"}, "zone", "no time zone"),
        ({"planned": [{"name": "x", "first": "2031-06-14", "last": "2031-06-13"}]},
         "planned", "before the first"),
        ({"measured": [{"time": "soon", "air": "20 °C", "humidity": "50 %"}]},
         "measured", "not a day"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_beside_its_field(
    typed: dict[str, Any], name: str, says: str
) -> None:
    with pytest.raises(Impossible, match=says) as wrong:
        SHEET.work(typed)
    assert wrong.value.name == name


def test_the_strip_marks_hours_by_shape_and_not_by_colour_alone() -> None:
    svg = SHEET.work({}).pictures[0].svg
    assert "<circle" in svg
    assert 'class="cut"' in svg
    for word in ("can be painted", "outside a limit", "not known"):
        assert word in svg
