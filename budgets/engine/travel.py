"""What a journey may cost: miles at the rate of their day, nights and meals by the tier.

Amounts are integer cents, miles are hundredths. Published rates are never built in: they come
as arguments, with their dates.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from budgets.engine.dated import Dated
from budgets.engine.gifts import Valued, by_date
from budgets.engine.money import MoneyError, NegativeMoney, Rounding, portion

EDGE = (75, 100)  # the part of a day's meals on the first and the last day, 41 CFR 301-11.101
LONGEST = 366  # days that one journey may last here


class EndsBeforeItStarts(MoneyError):
    """A journey whose last day is before its first."""

    code = "ends_before_it_starts"

    def __init__(self, first: date, last: date) -> None:
        super().__init__(f"{last.isoformat()} is before {first.isoformat()}.")
        self.first, self.last = first, last


class TooLong(MoneyError):
    """A journey of more than a year: surely a wrong date."""

    code = "too_long"

    def __init__(self, days: int) -> None:
        super().__init__(f"{days} days are too many for one journey; the most is {LONGEST}.")
        self.days = days


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One drive; `hundredths` of a mile."""

    day: date
    hundredths: int


def mileage(legs: Sequence[Leg], facts: Sequence[Dated], name: str = "mile_business") -> Valued:
    """Drives at the rate of the day of each, rounded once for each rate.

    A rate may change inside a year, so the date of the trip decides. Source: IRS standard mileage
    rates; Announcement 2022-13 for the year that was split. Raises ``dated.NoFact``.

    >>> from decimal import Decimal
    >>> rate = Dated(name="mile_business", value=Decimal("0.70"), start=date(2025, 1, 1),
    ...              end=date(2025, 12, 31), source="Notice 2025-5")
    >>> mileage([Leg(day=date(2025, 5, 2), hundredths=12_50)], [rate]).cents
    875
    """
    return by_date([(leg.day, leg.hundredths) for leg in legs], facts, name)


def edge_day(tier: int) -> int:
    """Meals and incidentals of the first or last day away, in cents: 75 %, half a cent up.

    Source: 41 CFR 301-11.101; GSA table of meals and incidental expenses.

    >>> edge_day(68_00), edge_day(59_00)
    (5100, 4425)
    """
    return portion(tier, *EDGE, Rounding.HALF_UP)


def day_allowance(
    tier: int, incidentals: int, provided: Sequence[int] = (), *, edge: bool = False
) -> int:
    """Meals and incidentals of one day, in cents, less the meals that somebody provided.

    A provided meal comes off at its full value even on a 75 % day, and the day never falls below
    the incidentals. Source: 41 CFR 301-11.18; travel questions of Pennsylvania State University.
    Raises NegativeMoney for an amount below zero.

    >>> day_allowance(74_00, 5_00, [17_00], edge=True)
    3850
    >>> day_allowance(68_00, 5_00, [16_00, 19_00, 28_00])
    500
    """
    for cents in (tier, incidentals, *provided):
        if cents < 0:
            raise NegativeMoney("A meal or a day's tier", cents)
    whole = edge_day(tier) if edge else tier
    return max(min(incidentals, whole), whole - sum(provided))


@dataclass(frozen=True, slots=True, kw_only=True)
class Meals:
    """What each meal of a tier is worth, in cents; the incidentals are the rest of it."""

    breakfast: int
    lunch: int
    dinner: int
    incidentals: int

    @property
    def tier(self) -> int:
        """The whole day.

        >>> Meals(breakfast=16_00, lunch=19_00, dinner=28_00, incidentals=5_00).tier
        6800
        """
        return self.breakfast + self.lunch + self.dinner + self.incidentals


@dataclass(frozen=True, slots=True, kw_only=True)
class Tier:
    """A place's rates on a day, in cents: a night, a day's meals with incidentals, incidentals."""

    night: int
    meals: int
    incidentals: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AwayDay:
    """One day of a journey: its night (0 on the last), its meals, what was provided, in cents."""

    day: date
    edge: bool
    night: int
    meals: int
    provided: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Away:
    days: tuple[AwayDay, ...]

    @property
    def nights(self) -> int:
        return len(self.days) - 1

    @property
    def lodging_cents(self) -> int:
        return sum(each.night for each in self.days)

    @property
    def meals_cents(self) -> int:
        return sum(each.meals for each in self.days)

    @property
    def cents(self) -> int:
        return self.lodging_cents + self.meals_cents


def away(
    first: date,
    last: date,
    tiers: Mapping[date, Tier],
    provided: Mapping[date, Sequence[int]] | None = None,
) -> Away:
    """Nights and meals from the first to the last day, both included, by the tier of each day.

    `provided` are the full values, in cents, of the meals that somebody else gave on a day. A
    journey of one day has no night and 75 % of its meals. Raises EndsBeforeItStarts, TooLong.

    >>> rates = Tier(night=110_00, meals=68_00, incidentals=5_00)
    >>> days = [date(2025, 11, 4), date(2025, 11, 5), date(2025, 11, 6)]
    >>> found = away(days[0], days[-1], {day: rates for day in days})
    >>> found.lodging_cents, found.meals_cents, found.cents
    (22000, 17000, 39000)
    """
    if last < first:
        raise EndsBeforeItStarts(first, last)
    count = (last - first).days + 1
    if count > LONGEST:
        raise TooLong(count)
    days = [first + timedelta(days=number) for number in range(count)]
    given = provided or {}
    return Away(
        days=tuple(away_day(day, first, last, tiers[day], given.get(day, ())) for day in days)
    )


def away_day(day: date, first: date, last: date, tier: Tier, provided: Sequence[int]) -> AwayDay:
    edge = day in (first, last)
    return AwayDay(
        day=day,
        edge=edge,
        night=0 if day == last else tier.night,
        meals=day_allowance(tier.meals, tier.incidentals, provided, edge=edge),
        provided=sum(provided),
    )
