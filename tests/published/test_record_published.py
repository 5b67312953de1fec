"""Earned value and the length index against published examples, each with its source."""

import json
from pathlib import Path
from typing import Any

import pytest

from .record_adapters import RECORD_ADAPTERS

FILE = Path(__file__).resolve().parents[2] / "fixtures" / "published" / "schedule.json"
ROWS = [row for row in json.loads(FILE.read_text()) if f"schedule:{row['kind']}" in RECORD_ADAPTERS]


def meets(found: Any, expected: Any, tolerance: float | None) -> bool:
    """Alike to the places that were printed, unless the row says otherwise."""
    if isinstance(expected, dict):
        return all(meets(found[key], value, tolerance) for key, value in expected.items())
    if isinstance(expected, list):
        return len(found) == len(expected) and all(
            meets(one, other, tolerance) for one, other in zip(found, expected, strict=True)
        )
    return bool(abs(found - expected) <= (tolerance or places(expected)) + 1e-9)


def places(printed: float) -> float:
    """Half a unit of the last place; a whole number is exact."""
    tail = str(printed).partition(".")[2]
    return 0.5 * 10.0 ** -len(tail) if tail else 0.0


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_published_figures_are_met_without_rounding_on_the_way(row: dict[str, Any]) -> None:
    """Where the source divided by a rounded index, the row's exact value holds."""
    found = RECORD_ADAPTERS[f"schedule:{row['kind']}"](row)
    for key, printed in row["expected"].items():
        expected = row.get("exact", {}).get(key, printed)
        assert meets(found[key], expected, row.get("tolerance")), (key, found[key], expected)


def test_the_fence_differs_from_print_by_the_rounded_index_alone() -> None:
    row = next(row for row in ROWS if row["id"] == "evm-fence")
    found = RECORD_ADAPTERS["schedule:evm"](row)
    assert found["EAC"] == 4480
    assert round(row["expected"]["BAC"] / row["expected"]["CPI"]) == row["expected"]["EAC"]
