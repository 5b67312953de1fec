"""Rates and thresholds that change with the years: the one that held on a day, and its source."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from budgets.engine.money import CENTS, MoneyError


class NoFact(MoneyError):
    """Nothing is known under this name, or nothing yet on this day; `name` says which."""

    code = "no_fact"

    def __init__(self, name: str, day: date) -> None:
        super().__init__(f"No value of “{name}” is known for {day.isoformat()}.")
        self.name, self.day = name, day


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A value with the days on which it holds, both included; an `end` of None is open.

    `weak` marks what no source at hand confirms. `own` marks what a project added itself.
    """

    name: str
    value: Decimal
    start: date
    end: date | None
    source: str
    weak: bool = False
    own: bool = False

    @property
    def cents(self) -> int:
        """A value in dollars as cents; one that is no whole number of cents refuses.

        >>> day = date(2031, 1, 1)
        >>> Dated(name="quotes_from", value=Decimal(15000), start=day, end=None, source="").cents
        1500000
        """
        cents = self.value * CENTS
        if cents != int(cents):
            raise MoneyError(f"{self.value} is no whole number of cents.")
        return int(cents)

    def holds_on(self, day: date) -> bool:
        return self.start <= day and (self.end is None or day <= self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The value for a day. `current` is False when the day lies outside what is known."""

    fact: Dated
    current: bool


def value_on(facts: Iterable[Dated], name: str, day: date) -> Found:
    """The value that holds on a day: a project's own before the shipped, then the latest to start.

    When none holds on that day, the last one before it, marked as not current: a rate of next
    year is rarely known. Raises NoFact when there is none before it either.

    >>> old = Dated(name="mile", value=Decimal("0.585"), start=date(2022, 1, 1),
    ...             end=date(2022, 6, 30), source="Notice 2022-3")
    >>> new = Dated(name="mile", value=Decimal("0.625"), start=date(2022, 7, 1),
    ...             end=date(2022, 12, 31), source="Announcement 2022-13")
    >>> [str(value_on([old, new], "mile", date(2022, month, 30)).fact.value) for month in (6, 9)]
    ['0.585', '0.625']
    >>> value_on([old, new], "mile", date(2023, 1, 1)).current
    False
    """
    begun = [fact for fact in facts if fact.name == name and fact.start <= day]
    holding = [fact for fact in begun if fact.holds_on(day)]
    if holding:
        return Found(fact=max(holding, key=lambda fact: (fact.own, fact.start)), current=True)
    if not begun:
        raise NoFact(name, day)
    return Found(fact=max(begun, key=lambda fact: (fact.end or day, fact.own)), current=False)


def indexed(base: int, inflation: Decimal, step: int) -> int:
    """A threshold raised by inflation and rounded to the nearest step, in cents.

    Source of the pattern: 26 U.S.C. 6041(h) as amended in 2025 (a multiple of 100 dollars).

    >>> indexed(2000_00, Decimal("0.03"), 100_00)
    210000
    """
    raised = base * (1 + inflation)
    steps = (raised / step + Decimal("0.5")).to_integral_value(rounding="ROUND_FLOOR")
    return int(steps) * step


def growth_percent(old: Decimal, new: Decimal) -> Decimal:
    """How much more `new` is than `old`, in percent, exact.

    >>> f'{growth_percent(Decimal("20.00"), Decimal("21.00")):.1f}'
    '5.0'
    """
    return (new - old) / old * 100
