"""An amount in another currency, at the rate of a day. Integer hundredths of that currency."""

import re
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from budgets.engine.money import MoneyError, Rounding, portion

WRITTEN = re.compile(
    r"(?P<code>[A-Z]{3}) (?P<amount>[\d,]+\.\d\d) at (?P<rate>\d+(?:\.\d+)?), "
    r"(?P<day>\d{1,2}) (?P<month>[A-Z][a-z]+) (?P<year>\d{4})"
)
MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


class NotForeign(MoneyError):
    """A text that is no amount of another currency with its rate and day."""

    code = "not_foreign"


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreign:
    """`hundredths` of a currency; `rate` is what one whole unit of it costs at home."""

    currency: str
    hundredths: int
    rate: Decimal
    day: date

    @property
    def cents(self) -> int:
        """At home, half a cent up.

        >>> Foreign(
        ...     currency="EUR", hundredths=120_00, rate=Decimal("1.0850"), day=date(2031, 6, 3)
        ... ).cents
        13020
        """
        return portion(self.hundredths, *self.rate.as_integer_ratio(), Rounding.HALF_UP)


def in_words(foreign: Foreign) -> str:
    """As it is kept beside the expense.

    >>> in_words(Foreign(
    ...     currency="EUR", hundredths=120_00, rate=Decimal("1.0850"), day=date(2031, 6, 3)
    ... ))
    'EUR 120.00 at 1.0850, 3 June 2031'
    """
    whole, rest = divmod(foreign.hundredths, 100)
    day = f"{foreign.day.day} {MONTHS[foreign.day.month - 1]} {foreign.day.year}"
    return f"{foreign.currency} {whole:,}.{rest:02d} at {foreign.rate}, {day}"


def from_words(text: str) -> Foreign:
    """What `in_words` wrote, read back. Raises NotForeign.

    >>> from_words("EUR 120.00 at 1.0850, 3 June 2031").cents
    13020
    """
    found = WRITTEN.fullmatch(text)
    if not found or found["month"] not in MONTHS:
        raise NotForeign(f"“{text}” is no amount of another currency.")
    try:
        day = date(int(found["year"]), MONTHS.index(found["month"]) + 1, int(found["day"]))
    except ValueError as error:
        raise NotForeign(f"“{text}” names no day.") from error
    return Foreign(
        currency=found["code"],
        hundredths=int(re.sub(r"[,.]", "", found["amount"])),
        rate=Decimal(found["rate"]),
        day=day,
    )
