"""The money engine against published examples, each with its source in the row."""

import json
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

import pytest

from tests.published.adapters import MONEY

ROOT = Path(__file__).resolve().parents[2]
FILES = sorted((ROOT / "fixtures" / "published").glob("money*.json"))
ROWS = [row for path in FILES for row in json.loads(path.read_text())]


def same(found: Any, expected: Any, tolerance: Decimal) -> bool:
    if isinstance(expected, list):
        pairs = zip(found, expected, strict=True)
        return all(same(one, other, tolerance) for one, other in pairs)
    if isinstance(expected, bool) or not numeric(expected):
        return bool(found == expected)
    return abs(Decimal(str(found)) - Decimal(str(expected))) <= tolerance


def numeric(value: Any) -> bool:
    try:
        Decimal(str(value))
    except InvalidOperation:
        return False
    return True


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_the_published_result_is_met(row: dict[str, Any]) -> None:
    found = MONEY[f"money:{row['kind']}"](row)
    tolerance = Decimal(str(row["tolerance"]))
    for key, expected in row["expected"].items():
        assert same(found[key], expected, tolerance), (key, found[key], expected, row["source"])


def test_every_row_names_its_source_and_every_adapter_has_a_row() -> None:
    assert all(row["source"] and row["url"] for row in ROWS)
    assert {f"money:{row['kind']}" for row in ROWS} == set(MONEY)


def test_a_capped_item_leaves_room_for_the_other_groups() -> None:
    """A row made here, by hand: 70 + 50 within caps of 70 and 80, of a cap of 100 in all."""
    groups = [{"cap": "70", "items": ["60", "30"]}, {"cap": "80", "items": ["50"]}]
    found = MONEY["money:nested"]({"inputs": {"cap": "100", "groups": groups}})
    assert found == {"paid": "100"}
