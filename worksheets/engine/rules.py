"""Rules of authorities and trades as dated data: a set for each body, never mixed."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "rules"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSet:
    """``values`` are in SI; ``clauses`` says for each where it stands and how it was read."""

    key: str
    about: str  # what it rules: “reach”, “falls”
    title: str
    jurisdiction: str
    version: str
    source: str
    url: str
    status: str  # published, from memory, common practice
    values: Mapping[str, Any]
    clauses: Mapping[str, str]

    def clause(self, name: str) -> str:
        """“2010 ADA Standards 308.2.1”, with “(from memory)” where it was not read again."""
        return self.clauses.get(name, self.title)


@cache
def rule_sets(about: str) -> dict[str, RuleSet]:
    """Every set about one thing, by key, in the order of their files."""
    rows = json.loads((FOLDER / f"{about}.json").read_text("utf-8"))
    return {row["key"]: RuleSet(about=about, **row) for row in rows}


def rule_set(about: str, key: str) -> RuleSet:
    return rule_sets(about)[key]
