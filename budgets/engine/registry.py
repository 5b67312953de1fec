"""The register of rule kinds, how a stored rule becomes one, and the words they share."""

from collections.abc import Callable, Mapping
from dataclasses import fields
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
        known = ", ".join(self.known)
        super().__init__(f"There is no kind of rule “{rule}”. Choose one of: {known}.")


class BadRule(MoneyError):
    """A rule whose numbers or names make no sense; `rule` is its code."""

    code = "bad_rule"

    def __init__(self, rule: str, wrong: str) -> None:
        super().__init__(wrong)
        self.rule, self.wrong = rule, wrong


def rule_kind(kind: type[Kind]) -> type[Kind]:
    RULES[kind.code] = kind
    return kind


def rule_from(
    code: str,
    params: Mapping[str, object] | None = None,
    *,
    starts_on: date | None = None,
    ends_on: date | None = None,
    clause: str = "",
) -> Rule:
    """A rule from its stored code and parameters; empty parameters are left out.

    `starts_on` and `ends_on` bound the days of the expenses it binds, both included.
    Raises UnknownRule, or BadRule when a parameter is missing, unknown or senseless.

    >>> from budgets.engine import rules
    >>> rule_from("category_cap", {"categories": ["admin"], "cents": 100_00}).sentence()
    'Pays at most $100.00 for administration.'
    """
    if code not in RULES:
        raise UnknownRule(code)
    make: Callable[..., Rule] = RULES[code]
    kinds = {field.name: str(field.type) for field in fields(RULES[code])}
    given = {
        name: _as_field(code, kinds.get(name, ""), value) for name, value in (params or {}).items()
    }
    kept = {name: value for name, value in given.items() if value not in EMPTY}
    try:
        return make(**kept, starts_on=starts_on, ends_on=ends_on, clause=clause)
    except TypeError as error:
        raise BadRule(code, _misfit(code, kept)) from error


EMPTY: tuple[object, ...] = (None, "", frozenset(), ())
SHARED = {"starts_on", "ends_on", "clause"}


def _as_field(code: str, kind: str, value: object) -> object:
    """What is stored as text or a list, as the field wants it."""
    if isinstance(value, list | tuple | set):
        items = [_as_field(code, kind, item) for item in value]
        return tuple(items) if "tuple" in kind else frozenset(items)
    if isinstance(value, str) and value and "date" in kind:
        return _as_day(code, value)
    return value


def _as_day(code: str, text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise BadRule(code, f"“{text}” is no day, such as 2031-06-14.") from error


def _misfit(code: str, kept: Mapping[str, object]) -> str:
    wanted = ", ".join(name.replace("_", " ") for name in _field_names(RULES[code]))
    found = ", ".join(name.replace("_", " ") for name in kept)
    return f"The rule “{code}” is made of: {wanted or 'nothing'}. Found: {found or 'nothing'}."


def _field_names(kind: type[Rule]) -> list[str]:
    return [field.name for field in fields(kind) if field.name not in SHARED]


def need_names(code: str, names: frozenset[str], what: str) -> None:
    words = isinstance(names, frozenset) and all(isinstance(name, str) for name in names)
    if not words or not names or "" in names:
        raise BadRule(code, f"Name at least one {what}.")


def need_number(code: str, value: int, what: str, most: int | None = None) -> None:
    if type(value) is not int or value < 0 or (most is not None and value > most):
        limit = "" if most is None else f", at most {most}"
        raise BadRule(code, f"{what} must be a whole number of zero or more{limit}.")


def refuse(rule: Rule, charge: Charge, sentence: str, limit: Fact, actual: Fact) -> Refusal:
    return Refusal(
        code=rule.code,
        rule=rule.sentence(charge.symbol),
        sentence=sentence,
        limit=limit,
        actual=actual,
        expense=charge.expense.key,
    )


def room_left(charge: Charge, what: str, left: int) -> str:
    """The sentence of a limit that a share goes over."""
    free, share = dollars(max(left, 0), charge.symbol), dollars(charge.cents, charge.symbol)
    return f"{charge.fund.name} {what}: {free} of it is left, this share is {share}."


def in_full(day: date) -> str:
    """A day as it stands in a sentence.

    >>> in_full(date(2031, 6, 14))
    '14 June 2031'
    """
    return f"{day.day} {day:%B %Y}"
