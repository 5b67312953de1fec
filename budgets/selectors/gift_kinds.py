"""The kinds of gift in kind: how each is valued, what it must show, where that stands. Data."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.conf import settings

FILE = settings.ROOT / "fixtures" / "gifts" / "kinds.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """`asks` are the parts of its form; `evidence` what it must show before it counts."""

    key: str
    label: str
    short: str
    example: str
    value: str
    basis: str
    basis_example: str
    asks: tuple[str, ...]
    unit: str
    units: tuple[str, ...]
    paper: str
    evidence: tuple[str, ...]
    caution: str
    source: str

    def asks_for(self, part: str) -> bool:
        return part in self.asks

    @property
    def must_show(self) -> str:
        first, *rest = (evidence()[key].asks for key in self.evidence)
        return "; ".join([first, *(words[:1].lower() + words[1:] for words in rest)])

    @property
    def by_hours(self) -> bool:
        return "rows" in self.asks


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    key: str
    says: str  # what is missing
    asks: str  # what is needed


@cache
def kinds() -> dict[str, Kind]:
    rows = _data()["kinds"]
    return {row["key"]: kind(row) for row in rows}


def kind(row: dict[str, Any]) -> Kind:
    lists = {name: tuple(row.get(name, ())) for name in ("asks", "units", "evidence")}
    return Kind(**{"caution": "", **row, **lists})


@cache
def evidence() -> dict[str, Evidence]:
    return {row["key"]: Evidence(**row) for row in _data()["evidence"]}


@cache
def tests() -> dict[str, str]:
    """The seven tests before a gift counts, as questions."""
    return {row["key"]: row["asks"] for row in _data()["tests"]}


def tests_source() -> str:
    return str(_data()["tests_source"])


@cache
def _data() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(FILE.read_text("utf-8"))
    return found
