"""What gifts in kind are worth: hours, things lent, space, discounts. Integer cents.

Quantities are hundredths of their unit: of an hour, a mile, a square foot.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, time

from budgets.engine.dated import Dated, value_on
from budgets.engine.money import CENTS, MoneyError, NegativeMoney, Rounding, portion

HUNDREDTHS = 100  # in one unit
MINUTES = 60
QUOTES = 3  # that show what equipment would be hired for


class NotLater(MoneyError):
    """A time sheet line that does not end after it starts."""

    code = "not_later"

    def __init__(self, starts: time, ends: time) -> None:
        super().__init__(f"{ends:%H:%M} is not later than {starts:%H:%M}.")
        self.starts, self.ends = starts, ends


class NoDiscount(MoneyError):
    """A price paid that is no less than the list price: nothing was given."""

    code = "no_discount"

    def __init__(self, listed: int, paid: int) -> None:
        super().__init__("The price paid is not below the list price.")
        self.listed, self.paid = listed, paid


def hundredths_between(starts: time, ends: time) -> int:
    """Hundredths of an hour between two times of one day, half a hundredth up.

    Valid to the minute. Raises NotLater when `ends` is not after `starts`: work past midnight
    is two lines, one for each day.

    >>> hundredths_between(time(9), time(12, 20))
    333
    """
    minutes = (ends.hour - starts.hour) * MINUTES + ends.minute - starts.minute
    if minutes <= 0:
        raise NotLater(starts, ends)
    return portion(minutes, HUNDREDTHS, MINUTES, Rounding.HALF_UP)


def gift_value(hundredths: int, rate: int) -> int:
    """Cents of a quantity at a rate in cents for one whole unit, half a cent up.

    Source of the rule: 2 CFR 200.306(e), (g), (j): the rate is what the same work, hire or space
    costs on the spot. Raises NegativeMoney below zero.

    >>> gift_value(28_00, 30_00), gift_value(1_25, 34_79)
    (84000, 4349)
    """
    return portion(hundredths, rate, HUNDREDTHS, Rounding.HALF_UP)


def discount(listed: int, paid: int) -> int:
    """Cents given by a seller who charges less than the list price, both in cents.

    Source: State of Utah, in-kind match guide, appendix F: only where the invoice shows both.
    Raises NoDiscount when nothing was taken off.

    >>> discount(412_00, 350_00)
    6200
    """
    if paid < 0 or listed < 0:
        raise NegativeMoney("A price", min(listed, paid))
    if paid >= listed:
        raise NoDiscount(listed, paid)
    return listed - paid


@dataclass(frozen=True, slots=True, kw_only=True)
class AtRate:
    """What falls under one dated rate: its quantity and its cents.

    `current` is False when the rate is the last one known and its own days are over.
    """

    rate: Dated
    hundredths: int
    cents: int
    current: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Valued:
    """A quantity at the rates of its days."""

    parts: tuple[AtRate, ...]

    @property
    def cents(self) -> int:
        return sum(part.cents for part in self.parts)

    @property
    def hundredths(self) -> int:
        return sum(part.hundredths for part in self.parts)


def by_date(quantities: Iterable[tuple[date, int]], facts: Sequence[Dated], name: str) -> Valued:
    """Quantities (day, hundredths) at the dated rate of each day, rounded once for each rate.

    The rate is in dollars for one unit; the day of the work or of the trip decides, never the
    day of the claim. Raises ``dated.NoFact`` for a day before the first known rate, NegativeMoney
    for a quantity below zero.

    >>> from decimal import Decimal
    >>> rates = [
    ...     Dated(name="mile", value=Decimal("0.585"), start=date(2022, 1, 1),
    ...           end=date(2022, 6, 30), source="Notice 2022-3"),
    ...     Dated(name="mile", value=Decimal("0.625"), start=date(2022, 7, 1),
    ...           end=date(2022, 12, 31), source="Announcement 2022-13"),
    ... ]
    >>> by_date([(date(2022, 3, 1), 10_000_00), (date(2022, 9, 1), 10_000_00)], rates, "mile").cents
    1210000
    """
    totals: dict[Dated, int] = {}
    current: dict[Dated, bool] = {}
    for day, hundredths in sorted(quantities):
        found = value_on(facts, name, day)
        totals[found.fact] = totals.get(found.fact, 0) + hundredths
        current[found.fact] = current.get(found.fact, True) and found.current
    return Valued(
        parts=tuple(
            AtRate(rate=rate, hundredths=total, cents=at(total, rate), current=current[rate])
            for rate, total in totals.items()
        )
    )


def at(hundredths: int, rate: Dated) -> int:
    """Cents of a quantity at a rate in dollars with any number of decimals."""
    numerator, denominator = rate.value.as_integer_ratio()
    return portion(hundredths, numerator * CENTS, denominator * HUNDREDTHS, Rounding.HALF_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of a time sheet, for what two lines have to do with each other."""

    key: str
    person: str
    day: date
    hundredths: int
    starts: time | None = None
    ends: time | None = None
    signed: bool = False


def overlaps(lines: Iterable[Line]) -> list[tuple[str, str]]:
    """Keys of lines that book one person twice at the same time of the same day.

    >>> first = Line(key="1", person="Ida", day=date(2031, 3, 1), hundredths=300,
    ...              starts=time(9), ends=time(12))
    >>> second = Line(key="2", person="ida ", day=date(2031, 3, 1), hundredths=200,
    ...               starts=time(11), ends=time(13))
    >>> overlaps([first, second])
    [('1', '2')]
    """
    timed = sorted(
        (who_and_when(line), line.starts, line.ends, line.key)
        for line in lines
        if line.starts and line.ends
    )
    found, last = [], None
    for one in timed:
        if last and one[0] == last[0] and one[1] < last[2]:
            found.append((last[3], one[3]))
        last = one if not last or one[0] != last[0] or one[2] > last[2] else last
    return found


def who_and_when(line: Line) -> tuple[str, date]:
    return " ".join(line.person.casefold().split()), line.day


DAY_LONG = 24 * HUNDREDTHS


def too_long(lines: Iterable[Line]) -> list[str]:
    """Keys of lines with which somebody has more than 24 hours on one day.

    >>> long = Line(key="1", person="Ida", day=date(2031, 3, 1), hundredths=14_00)
    >>> too_long([long, Line(key="2", person="Ida", day=date(2031, 3, 1), hundredths=11_00)])
    ['2']
    """
    totals: dict[tuple[str, date], int] = {}
    found = []
    for line in lines:
        key = who_and_when(line)
        totals[key] = totals.get(key, 0) + line.hundredths
        if totals[key] > DAY_LONG:
            found.append(line.key)
    return found


def proven(cents: int, lines: Sequence[Line]) -> int:
    """The part of a sheet's value that signed lines carry, in cents, rounded down.

    A sheet without lines proves nothing. Rounded down: what is claimed must stand on paper.

    >>> signed = Line(key="1", person="Ida", day=date(2031, 3, 1), hundredths=2_00, signed=True)
    >>> proven(100_00, [signed, Line(key="2", person="Jo", day=date(2031, 3, 1), hundredths=1_00)])
    6666
    """
    whole = sum(line.hundredths for line in lines)
    good = sum(line.hundredths for line in lines if line.signed)
    return portion(cents, good, whole, Rounding.FLOOR) if whole else 0
