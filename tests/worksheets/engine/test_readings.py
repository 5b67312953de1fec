"""Pasted forecasts: columns in any order, several ways to write a day, the line that is wrong."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.clock_words import NotATime, read_moment
from worksheets.engine.dimensions import System
from worksheets.engine.readings import LineWrong, Manner, read_block

NINE = datetime(2031, 6, 14, 9)
METRIC = Manner(system=System.METRIC)


@pytest.mark.parametrize(
    "text",
    [
        "2031-06-14 09:00", "2031-06-14T09:00:00", "14.06.2031 9:00", "6/14/2031 9:00 AM",
        "14/06/2031 09:00", "Sat 14 Jun 2031 09:00", "June 14, 2031 9 am", "2031/06/14 09.00",
        "6/14/31 9:00", "Tue, 14 Jun 2031 9am",
    ],
)  # fmt: skip
def test_a_day_may_be_written_in_many_ways(text: str) -> None:
    assert read_moment(text, System.US) == NINE


def test_a_day_that_could_be_two_is_read_as_people_there_write_it() -> None:
    assert read_moment("6/7/2031 9:00", System.US) == datetime(2031, 6, 7, 9)
    assert read_moment("6/7/2031 9:00", System.METRIC) == datetime(2031, 7, 6, 9)
    assert read_moment("6.7.2031 9:00", System.US) == datetime(2031, 7, 6, 9)


def test_noon_and_midnight_of_the_twelve_hour_clock() -> None:
    assert read_moment("2031-06-14 12:15 am", System.US).hour == 0
    assert read_moment("2031-06-14 12:15 pm", System.US).hour == 12


def test_a_time_by_greenwich_is_turned_into_the_clock_on_the_wall() -> None:
    zone = ZoneInfo("America/New_York")
    assert read_moment("2031-06-14T13:00:00Z", System.US, zone) == NINE
    assert read_moment("2031-01-14T13:00Z", System.US, zone) == datetime(2031, 1, 14, 8)
    assert read_moment("2031-06-14T15:00+02:00", System.US, zone) == NINE
    with pytest.raises(NotATime, match="time zone"):
        read_moment("2031-06-14T13:00Z", System.US)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("2031-06-14", "no time of the day"), ("soon", "not a day and a time"),
        ("2031-02-30 09:00", "no day of the calendar"), ("2031-06-14 25:00", "no time of the day"),
        ("2031-06-14 9", "not a day and a time"), ("14 Jux 2031 09:00", "no day of the calendar"),
        ("2031-06-14 13 pm", "not a day and a time"), ("", "not a day and a time"),
    ],
)  # fmt: skip
def test_what_is_no_time_is_said_to_be_none(text: str, says: str) -> None:
    with pytest.raises(NotATime, match=says):
        read_moment(text, System.US)


def test_columns_stand_in_any_order_with_their_own_units() -> None:
    block = "rain (mm)\tWind (km/h)\tWall °C\tRH\tTemperature (°C)\tDate/Time\n" \
            "0,2\t18\t24,5\t60\t20,5\t14.06.2031 09:00"  # fmt: skip
    (found,) = read_block(block)
    assert (found.at, found.air, found.surface, found.wet) == (NINE, 20.5, 24.5, True)
    assert found.humidity == pytest.approx(0.6)
    assert found.wind == pytest.approx(5.0)


def test_spaces_between_columns_do_not_part_a_day_from_its_time() -> None:
    block = "time air humidity surface\n2031-06-14 09:00 70 °F 65 % 75\n6/14/2031 10:00 AM 71 60 -"
    first, second = read_block(block)
    assert (first.at, second.at.hour) == (NINE, 10)
    assert first.air == pytest.approx(21.11, abs=0.01)
    assert second.surface is None


def test_a_day_and_a_time_may_have_a_column_each() -> None:
    (found,) = read_block("date,time,air °C,humidity\n2031-06-14,9:00 AM,20,55 %")
    assert found.at == NINE


def test_without_names_the_columns_are_time_air_humidity_wind_rain() -> None:
    (found,) = read_block("2031-06-14 09:00; 20; 55; 3; 0", METRIC)
    assert (found.air, found.wind, found.wet) == (20.0, 3.0, False)
    with pytest.raises(LineWrong, match="name the columns"):
        read_block("2031-06-14 09:00, 20, 55, 3", METRIC)


def test_columns_that_are_not_needed_are_passed_over() -> None:
    (found,) = read_block("time,cloud,air °C,pressure,humidity\n2031-06-14 09:00,40 %,20,1013,55")
    assert (found.air, found.humidity) == (20.0, 0.55)


def test_a_dew_point_or_a_gust_is_not_taken_for_the_air_or_the_wind() -> None:
    heads = "time,dew point temperature,feels-like temp,air °C,wind gust,wind m/s,humidity"
    (found,) = read_block(f"{heads}\n2031-06-14 09:00,9,19,20,12,3,55")
    assert (found.air, found.wind, found.humidity) == (20.0, 3.0, 0.55)


def test_a_wet_bulb_stands_in_for_the_humidity() -> None:
    (found,) = read_block("time,air °C,wet bulb °C\n2031-06-14 09:00,25,18")
    assert found.humidity == pytest.approx(0.507, abs=0.004)


@pytest.mark.parametrize(
    ("rain", "wet"),
    [("0", False), ("0.0", False), ("0.2", True), ("no", False), ("yes", True), ("", None),
     ("20 %", False), ("30 %", True), ("-", False)],
)  # fmt: skip
def test_rain_is_an_amount_a_word_or_a_chance(rain: str, wet: bool | None) -> None:
    (found,) = read_block(f"time,air °C,humidity,rain\n2031-06-14 09:00,20,55,{rain}")
    assert found.wet is wet


def test_a_column_of_chances_holds_shares_of_a_hundred() -> None:
    block = "time,air °C,humidity,chance of rain\n2031-06-14 09:00,20,55,{}"
    assert read_block(block.format("25"))[0].wet is False
    assert read_block(block.format("45"))[0].wet is True


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("2031-06-14 09:00,abc,55", "Line 3: .*not a temperature"),
        ("2031-06-14 09:00,20,3", "Line 3: humidity 3 % is out of range. Write 5 % to 100 %"),
        ("2031-06-14 09:00,90 °C,55", "Line 3: air .* is out of range"),
        ("2031-06-14 09:00,20 mph,55", "Line 3: .*is a speed"),
        ("yesterday,20,55", "Line 3: .*not a day and a time"),
        ("2031-06-14 08:00,20,55", "Line 3: it has the same time as line 2"),
        ("2031-06-14 09:00", "Line 3: 1 columns"),
        ("2031-06-14 09:00,,55", "Line 3: the temperature of the air is missing"),
        ("2031-06-14 09:00,20,", "Line 3: the humidity is missing"),
    ],
)  # fmt: skip
def test_which_line_is_wrong_is_said_and_why(line: str, says: str) -> None:
    with pytest.raises(LineWrong, match=says):
        read_block(f"time,air °C,humidity\n2031-06-14 08:00,20,55\n{line}")


@pytest.mark.parametrize(
    ("header", "says"),
    [
        ("time,humidity", "no column is named “air”"), ("air,humidity", "named “time”"),
        ("time,air", "“humidity”"), ("time,air,temp,rh", "two columns are named “air”"),
    ],
)  # fmt: skip
def test_a_header_that_lacks_a_column_is_said(header: str, says: str) -> None:
    with pytest.raises(LineWrong, match=says):
        read_block(f"{header}\n2031-06-14 08:00,20,55,3")


def test_lines_out_of_order_are_put_in_order() -> None:
    block = "time,air °C,humidity\n2031-06-14 10:00,21,55\n\n2031-06-14 09:00,20,55"
    assert [each.at.hour for each in read_block(block)] == [9, 10]


def test_nothing_pasted_is_nothing_read_and_too_much_is_refused() -> None:
    assert read_block("  \n ") == ()
    with pytest.raises(LineWrong, match="at most 400 lines"):
        read_block("\n".join(["x"] * 500))


@given(st.text(max_size=200))
def test_any_text_is_read_or_answered_with_a_line(text: str) -> None:
    try:
        read_block(text, METRIC)
    except LineWrong as wrong:
        assert str(wrong).startswith("Line ")


@given(
    st.lists(
        st.tuples(st.floats(-39, 49), st.floats(0.06, 0.99)), min_size=1, max_size=20
    )
)  # fmt: skip
def test_what_is_written_out_is_read_back(rows: list[tuple[float, float]]) -> None:
    lines = [
        f"2031-06-{n + 1:02d} 09:00,{air:.4f} °C,{humidity:.6f}"
        for n, (air, humidity) in enumerate(rows)
    ]
    found = read_block("\n".join(["time,air,humidity", *lines]))
    assert [(each.air, each.humidity) for each in found] == [
        (pytest.approx(air, abs=1e-4), pytest.approx(humidity, abs=1e-6)) for air, humidity in rows
    ]
