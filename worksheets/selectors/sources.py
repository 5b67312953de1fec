"""Where every figure of the worksheets comes from, and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass

from projects.words import plural
from worksheets.engine.rules import FOLDER, RuleSet, rule_sets
from worksheets.engine.sheet import Sheet, Status
from worksheets.sheets import sheets

WEAK = (Status.MEMORY, Status.PRACTICE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sources:
    sheets: list[Sheet]
    rules: list[RuleSet]
    sentence: str


def every_source() -> Sources:
    every = list(sheets().values())
    rules = [found for about in abouts() for found in rule_sets(about).values()]
    weak = sum(source.status in WEAK for sheet in every for source in sheet.sources)
    weak += sum("memory" in rule.status or "practice" in rule.status for rule in rules)
    count = sum(len(sheet.sources) for sheet in every) + len(rules)
    return Sources(
        sheets=every,
        rules=rules,
        sentence=(
            f"{plural(weak, 'source')} of {count} {'was' if weak == 1 else 'were'} not read again "
            "when the planner was made. Check those against your own copy before you rely on them."
        ),
    )


def abouts() -> list[str]:
    return sorted(path.stem for path in FOLDER.glob("*.json"))
