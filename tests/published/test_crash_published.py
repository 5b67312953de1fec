"""Crash plans against published tables, each with its source in the row."""

import json
from pathlib import Path
from typing import Any

import pytest

from .adapters import ADAPTERS

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "published"
ROWS = [r for r in json.loads((FOLDER / "schedule.json").read_text()) if r["kind"] == "crashing"]


def meets(found: Any, expected: Any) -> bool:
    """Steps in their order; codes and paths in any order."""
    if isinstance(expected, dict):
        return all(meets(found[key], value) for key, value in expected.items())
    if isinstance(expected, list) and expected and isinstance(expected[0], dict):
        pairs = zip(found, expected, strict=True)
        return len(found) == len(expected) and all(meets(*pair) for pair in pairs)
    return sorted(found) == sorted(expected) if isinstance(expected, list) else found == expected


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_a_published_crash_table_is_met(row: dict[str, Any]) -> None:
    found = ADAPTERS["schedule:crashing"](row)
    for key, expected in row["expected"].items():
        assert meets(found[key], expected), (key, found[key])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_the_least_cost_of_every_duration_is_met(row: dict[str, Any]) -> None:
    """All durations by exhaustive search, apart from this code, from the published inputs."""
    found = ADAPTERS["schedule:crashing"](row)["min_cost_by_duration"]
    assert found == row["recomputed"]["min_cost_by_duration"]


def test_a_dearer_step_is_not_taken_for_a_smaller_penalty() -> None:
    row = json.loads(json.dumps(next(r for r in ROWS if r["id"] == "crash-renovation")))
    row["expected"]["penalty_saved_per_week"] = 299
    assert ADAPTERS["schedule:crashing"](row)["steps"] == []


def test_times_and_costs_of_both_ends_say_the_same_as_costs_a_unit() -> None:
    row = json.loads(json.dumps(next(r for r in ROWS if r["id"] == "crash-slides-17")))
    before = ADAPTERS["schedule:crashing"](row)["min_cost_by_duration"]
    for activity in row["activities"]:
        most, cost = activity.pop("max_crash"), activity.pop("cost_per_unit")
        activity |= {"crash_duration": activity["duration"] - most, "normal_cost": 7}
        activity["crash_cost"] = 7 + most * cost
    assert ADAPTERS["schedule:crashing"](row)["min_cost_by_duration"] == before
