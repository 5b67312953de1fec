"""Which expense which fund may pay or count, for many at once.

A rule is a pure function of the expense, so what it looks at, and in which order, says when it
need not be asked again: two expenses alike in those facts have the same answer.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, cast

from budgets.engine.bars import eligible, judged
from budgets.engine.limits import asked_matches
from budgets.engine.model import Expense, Fund, Rule
from budgets.engine.rules.ceilings import RateCeiling
from budgets.engine.standing import every_rule

ANYTHING = ""  # the key of an expense decides nothing


class Watched:
    """Stands for an expense and writes down the facts that are looked at."""

    def __init__(self, expense: Expense) -> None:
        self._expense, self.seen, self.key = expense, dict[str, Any](), ANYTHING

    def __getattr__(self, name: str) -> Any:
        value = self.seen[name] = getattr(self._expense, name)
        return value


@dataclass(slots=True)
class Look:
    """The next fact to look at, and where each of its values leads; or the answer."""

    fact: str | None
    leads: dict[Any, "Look"]
    answer: bool = False


class Remembered:
    """An answer about an expense, asked once for all that look alike."""

    def __init__(self, ask: Callable[[Expense], bool]) -> None:
        self.ask, self.root = ask, cast("Look | None", None)

    def __call__(self, expense: Expense) -> bool:
        look = self.root
        while look is not None:
            if look.fact is None:
                return look.answer
            look = look.leads.get(getattr(expense, look.fact))
        return self._learn(expense)

    def _learn(self, expense: Expense) -> bool:
        watched = Watched(expense)
        answer = self.ask(cast("Expense", watched))
        facts = list(watched.seen.items())
        if self.root is None:
            self.root = self._look(facts, 0, answer)
        look = self.root
        for place, (_, value) in enumerate(facts):
            look = look.leads.setdefault(value, self._look(facts, place + 1, answer))
        return answer

    def _look(self, facts: list[tuple[str, Any]], place: int, answer: bool) -> Look:
        return Look(facts[place][0], {}) if place < len(facts) else Look(None, {}, answer)


@dataclass(frozen=True, slots=True)
class Standings:
    """By expense, in order: bits of the funds that may be charged, and of those it may match.

    `partly` holds, by expense, the funds with a ceiling below its amount, and the ceiling.
    """

    charge: list[int]
    match: list[int]
    partly: dict[int, dict[int, int]]


def standings(expenses: Sequence[Expense], funds: Sequence[Fund]) -> Standings:
    charge, match = [0] * len(expenses), [0] * len(expenses)
    partly: dict[int, dict[int, int]] = {}
    for bit, fund in enumerate(funds):
        rules = every_rule(fund)
        barred = marked(expenses, fund, [rule for rule in rules if rule.static])
        out = marked(expenses, fund, [rule for rule in rules if rule.binds_match])
        no_gifts = any(not asked.in_kind for asked in asked_matches(fund))
        ceilings = any(isinstance(rule, RateCeiling) for rule in rules)
        for place, item in enumerate(expenses):
            if not barred[place] and not item.in_kind:
                charge[place] |= 1 << bit
                if ceilings and (most := eligible(fund, item)) < item.amount:
                    partly.setdefault(place, {})[bit] = most
            if not out[place] and not (no_gifts and item.in_kind):
                match[place] |= 1 << bit
    return Standings(charge, match, partly)


def marked(expenses: Sequence[Expense], fund: Fund, rules: Sequence[Rule]) -> bytearray:
    """Which expenses at least one of the rules bars."""
    found = bytearray(len(expenses))
    for rule in rules:
        bars = Remembered(asking(rule, fund))
        for place, item in enumerate(expenses):
            if not found[place] and bars(item):
                found[place] = 1
    return found


def asking(rule: Rule, fund: Fund) -> Callable[[Expense], bool]:
    return lambda expense: bool(judged((rule,), fund, expense, "$"))
