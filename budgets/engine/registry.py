"""The register of rule kinds, how a stored rule becomes one, and the words they share."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import TypeVar

from budgets.engine.model import Charge, Fact, Refusal, Rule
from budgets.engine.money import MoneyError, dollars

RULES: dict[str, type[Rule]] = {}
Kind = TypeVar("Kind", bound=Rule)


class UnknownRule(MoneyError):
    """No kind of rule has this code; `known` lists those that exist."""

    code = "unknown_rule"

    def __init__(self, rule: str) -> None:
        self.rule, self.known = rule, tuple(RULES)
        super().__init__(
            f"There is no kind of rule called “{rule}”. Choose one of: {', '.join(self.known)}."
        )


class BadRule(MoneyError):
    """A rule whose numbers or names make no sense; `rule` is its code."""

    code = "bad_rule"

    def __init__(self, rule: str, wrong: str) -> None:
        super().__init__(wrong)
        self.rule, self.wrong = rule, wrong


def rule_kind(kind: type[Kind]) -> type[Kind]:
    RULES[kind.code] = kind
    return kind


def rule_from(code: str, params: Mapping[str, object] | None = None) -> Rule:
    """A rule from its stored code and parameters. Raises UnknownRule or BadRule.

    >>> rule_from("category_cap", {"categories": ["admin"], "cents": 100_00}).sentence()
    'Pays at most $100.00 for administration.'
    """
    if code not in RULES:
        raise UnknownRule(code)
    make: Callable[..., Rule] = RULES[code]
    given = {
        name: frozenset(value) if isinstance(value, list | tuple) else value
        for name, value in (params or {}).items()
    }
    try:
        return make(**given)
    except TypeError as error:
        raise BadRule(
            code,
            f"The rule {code} does not fit its parameters: {', '.join(given) or 'none given'}.",
        ) from error


def need_names(code: str, names: frozenset[str], what: str) -> None:
    if (
        not isinstance(names, frozenset)
        or not names
        or not all(isinstance(name, str) and name for name in names)
    ):
        raise BadRule(code, f"Name at least one {what}.")


def need_number(code: str, value: int, most: int | None, what: str) -> None:
    if type(value) is not int or value < 0 or (most is not None and value > most):
        raise BadRule(
            code,
            f"{what} must be a whole number of zero or more{f', at most {most}' if most else ''}.",
        )


def refuse(
    rule: Rule, charge: Charge, sentence: str, limit: Fact, actual: Fact
) -> Refusal:
    return Refusal(
        code=rule.code,
        rule=rule.sentence(charge.symbol),
        sentence=sentence,
        limit=limit,
        actual=actual,
        expense=charge.expense.key,
    )


def in_full(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
