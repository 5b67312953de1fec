"""A part of the best fit: whether it may be accepted alone, and what else it needs."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from budgets.engine import best as optimum
from budgets.fit.assembled import assembled, values_of
from budgets.fit.best import BestFit

Broken = dict[tuple[str, str, str], int]  # cents beyond each rule, by rule, fund and expense


@dataclass(frozen=True, kw_only=True)
class Part:
    """The `chosen` expenses; what they break alone, and the `needed` others that mend it."""

    chosen: frozenset[int]
    findings: tuple[optimum.Finding, ...]
    needed: frozenset[int] = frozenset()


def part_of(found: BestFit, chosen: Collection[int]) -> Part:
    """Accepting all of it breaks nothing; a part is held against what is broken already."""
    chosen = frozenset(chosen)
    findings = broken_by(found, chosen)
    needed = needed_with(found, chosen) if findings else frozenset[int]()
    return Part(chosen=chosen, findings=findings, needed=needed)


def broken_by(found: BestFit, chosen: Collection[int]) -> tuple[optimum.Finding, ...]:
    """What the part breaks that was whole before; with what is planned, and without."""
    before = weighed(found.broken_now)
    told = [new(before, checked(found, chosen, planned)) for planned in (False, True)]
    return () if not all(told) else told[0]


def new(before: Broken, findings: tuple[optimum.Finding, ...]) -> tuple[optimum.Finding, ...]:
    return tuple(row for row in findings if row.cents > before.get(key_of(row), -1))


def weighed(findings: tuple[optimum.Finding, ...]) -> Broken:
    return {key_of(row): row.cents for row in findings}


def key_of(row: optimum.Finding) -> tuple[str, str, str]:
    return row.code, row.fund, row.expense


def checked(found: BestFit, chosen: Collection[int], planned: bool) -> tuple[optimum.Finding, ...]:
    """What the engine's checker finds once the chosen changes are made."""
    paid = {pk: found.after[pk] if pk in chosen else now for pk, now in found.before.items()}
    shares, counted = values_of(found.books, paid)
    if planned:
        shares += [share for share in found.fit.shares if share.expense.forecast]
        counted += [row for row in found.fit.counted if row.expense.forecast]
    return optimum.check(found.problem, assembled(found.problem, shares, counted))


def needed_with(found: BestFit, chosen: Collection[int]) -> frozenset[int]:
    """The others without any of which the part would break a rule: all, less what can be spared."""
    needed = [change.expense.pk for change in found.changes if change.expense.pk not in chosen]
    for pk in list(needed):
        rest = [other for other in needed if other != pk]
        if not broken_by(found, {*chosen, *rest}):
            needed = rest
    return frozenset(needed)
