"""Schedules and calendars against published examples, each with its source in the row."""

import json
from pathlib import Path
from typing import Any

import pytest

from .adapters import ADAPTERS

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "published"
ELSEWHERE = {"crashing", "evm", "index"}  # kinds with a test of their own
ROWS = json.loads((FOLDER / "schedule.json").read_text())
SCHEDULE = [row for row in ROWS if row["kind"] not in ELSEWHERE]
CALENDAR = json.loads((FOLDER / "calendar.json").read_text())
NUMBERED = [row for row in SCHEDULE if row["kind"] != "calendar_cpm"]
GIVEN = {
    "unit",
    "start",
    "calendar",
    "must_finish_by",
    "imposed_finish",
    "data_date",
    "remaining",
}  # inputs kept beside results
RESULTS = {
    "rrule": ["expected_dates", "expected_local_time", "zone_abbreviations"],
    "rrule_derived": ["expected_dates"],
    "holiday_list": ["nominal", "observed_weekdays"],
    "workday_count": ["expected"],
    "workday_add": ["expected_finish_inclusive"],
    "elapsed_lag": ["ready_at", "successor_may_start"],
}


def meets(found: Any, expected: Any, tolerance: float) -> bool:
    """Whether a result holds what is expected; lists of codes in any order."""
    if isinstance(expected, dict):
        return all(meets(found[key], value, tolerance) for key, value in expected.items())
    if isinstance(expected, list):
        return sorted(found) == sorted(expected)
    if isinstance(expected, str):
        return bool(found == expected)
    return abs(found - expected) <= tolerance


@pytest.mark.parametrize("row", SCHEDULE, ids=lambda row: row["id"])
def test_a_published_network_is_met(row: dict[str, Any]) -> None:
    found = ADAPTERS[f"schedule:{row['kind']}"](row)
    for key in row["expected"].keys() - GIVEN:
        expected = row["expected"][key]
        assert meets(found[key], expected, row.get("tolerance", 1e-6)), (key, found[key])


@pytest.mark.parametrize("row", NUMBERED, ids=lambda row: row["id"])
def test_the_whole_table_of_a_network_is_met(row: dict[str, Any]) -> None:
    """All dates and floats, recomputed apart from this code from the published inputs."""
    found = ADAPTERS[f"schedule:{row['kind']}"](row)
    assert meets(found, row["recomputed"], 1e-6)


@pytest.mark.parametrize("row", CALENDAR, ids=lambda row: row["id"])
def test_published_dates_are_met(row: dict[str, Any]) -> None:
    found = ADAPTERS[f"calendar:{row['kind']}"](row)
    for key in RESULTS[row["kind"]]:
        assert found[key] == row[key]


def test_every_row_names_its_source_and_how_firm_it_is() -> None:
    assert all(row["source"] and row["source_weight"] for row in ROWS + CALENDAR)


def test_a_path_that_is_not_there_is_not_listed() -> None:
    row = next(row for row in SCHEDULE if row["id"] == "cpm-airfilter-15")
    found = ADAPTERS["schedule:cpm"](row)["path_lengths"]
    assert found == row["expected"]["path_lengths"]
