"""Every kind of rule that a fund may be given, in the order in which an agreement tells them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from budgets.forms.rules import costs, limits, terms
from budgets.forms.rules.kind import Kind
from budgets.selectors.rules import RuleRow

LISTED = (*costs.LISTED, *limits.LISTED, *terms.LISTED)
KINDS: Mapping[str, Kind] = {kind.code: kind for kind in LISTED}


def groups() -> dict[str, list[Kind]]:
    found: dict[str, list[Kind]] = {}
    for kind in LISTED:
        found.setdefault(kind.group, []).append(kind)
    return found


def grouped(rows: Iterable[RuleRow]) -> dict[str, list[RuleRow]]:
    """The rules of a fund under the headings of their kinds, in their order."""
    rows = list(rows)
    found = {
        name: [row for row in rows if row.code in {kind.code for kind in kinds}]
        for name, kinds in groups().items()
    }
    return {name: rows for name, rows in found.items() if rows}
