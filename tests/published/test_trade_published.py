"""The worksheets against published values, each with its source in the row."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from tests.published.adapters import TRADE

ROOT = Path(__file__).resolve().parents[2]
FILES = sorted((ROOT / "fixtures" / "published").glob("trade-*.json"))
ROWS = [row for path in FILES for row in json.loads(path.read_text())]


def slack(tolerance: Mapping[str, float], key: str, expected: float) -> float:
    """“abs” and “rel” hold for every key; else each key has its own."""
    if "rel" in tolerance:
        return abs(expected) * tolerance["rel"]
    return tolerance.get(key, tolerance.get("abs", 0)) + 1e-12


def same(found: Any, expected: Any, tolerance: Mapping[str, float], key: str) -> bool:
    if isinstance(expected, list):
        pairs = zip(found, expected, strict=True)
        return all(same(one, other, tolerance, key) for one, other in pairs)
    if isinstance(expected, bool | str) or expected is None:
        return bool(found == expected)
    return abs(found - expected) <= slack(tolerance, key, expected)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_the_published_value_is_met(row: dict[str, Any]) -> None:
    found = TRADE[f"trade:{row['computation']}"](row)
    for key, expected in row["expected"].items():
        assert same(found[key], expected, row["tolerance"], key), (key, found[key], expected)


def test_every_row_names_its_source_and_every_adapter_has_a_row() -> None:
    assert all(row["source"] and row["status"] for row in ROWS)
    assert {f"trade:{row['computation']}" for row in ROWS} == set(TRADE)
