"""Rules that funders often have, as data: a fund may start from one, then each can be changed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from django.conf import settings

from budgets.engine.dated import Dated, value_on

FILE = settings.ROOT / "fixtures" / "funds" / "patterns.json"
UNCHECKED = "A pattern, not yet checked against the agreement"


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternRule:
    """`facts` are parameters that a dated fact gives, with what its value is multiplied by."""

    code: str
    params: Mapping[str, Any]
    facts: Mapping[str, tuple[str, int]]
    source: str
    on: str

    def params_on(self, known: Iterable[Dated], day: date) -> dict[str, Any]:
        """Its parameters, with the facts that held on a day."""
        known = tuple(known)
        found = dict(self.params)
        for name, (fact, times) in self.facts.items():
            found[name] = int(value_on(known, fact, day).fact.value * times)
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    key: str
    name: str
    about: str
    kind: str
    federal: bool
    rules: tuple[PatternRule, ...]

    @property
    def sources(self) -> tuple[str, ...]:
        """Where its numbers come from, each once."""
        said = [f"{rule.source} ({rule.on})" if rule.on else rule.source for rule in self.rules]
        return tuple(dict.fromkeys(said))


@cache
def patterns() -> dict[str, Pattern]:
    rows: list[dict[str, Any]] = json.loads(FILE.read_text("utf-8"))
    return {row["key"]: _pattern(row) for row in rows}


def _pattern(row: dict[str, Any]) -> Pattern:
    rules = tuple(
        PatternRule(
            code=rule["code"],
            params=rule["params"],
            facts={name: (fact, times) for name, (fact, times) in rule.get("facts", {}).items()},
            source=rule["source"],
            on=rule["on"],
        )
        for rule in row["rules"]
    )
    return Pattern(**{**row, "rules": rules})
