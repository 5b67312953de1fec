"""Earned value and earned schedule: the work done, held against the work planned and paid.

Amounts are integers of any one unit: cents, or working minutes where nothing is priced.
Sources: ANSI/EIA-748 for the terms; Lipke, "Schedule is different", The Measurable News,
March 2003, for earned schedule. Ratios are exact fractions and never rounded on the way.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from .calendar import Calendar
from .errors import ScheduleError


class BadAmount(ScheduleError):
    """An amount that no plan can have; `name` tells which."""

    code = "bad_amount"

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(f"{name} is below zero or out of its order.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Earned:
    """Where the work stands: budget of all of it (`bac`), of what was due by now (`pv`) and
    of what is done (`ev`), and what that has cost (`ac`).

    All at or above zero, else BadAmount. A figure that would divide by zero is None.

    >>> fence = Earned(bac=400_000, pv=300_000, ev=250_000, ac=280_000)
    >>> fence.cv, fence.sv, fence.eac_by_cost, fence.vac(fence.eac_by_cost)
    (-30000, -50000, Fraction(448000, 1), Fraction(-48000, 1))
    """

    bac: int
    pv: int
    ev: int
    ac: int

    def __post_init__(self) -> None:
        for name in ("bac", "pv", "ev", "ac"):
            if getattr(self, name) < 0:
                raise BadAmount(name)

    @property
    def cv(self) -> int:
        """Cost variance, below zero when the work done cost more than its budget."""
        return self.ev - self.ac

    @property
    def sv(self) -> int:
        """Schedule variance, below zero when less is done than was due."""
        return self.ev - self.pv

    @property
    def cpi(self) -> Fraction | None:
        """Cost index: budget of the work done for each unit paid."""
        return _ratio(self.ev, self.ac)

    @property
    def spi(self) -> Fraction | None:
        """Schedule index: work done for each unit of work due."""
        return _ratio(self.ev, self.pv)

    @property
    def eac_by_cost(self) -> Fraction | None:
        """Cost of the whole when the rest costs as the work so far did: BAC / CPI."""
        return _ratio(self.bac * self.ac, self.ev)

    @property
    def eac_at_budget(self) -> Fraction:
        """Cost of the whole when the rest costs what was planned: AC + BAC - EV."""
        return Fraction(self.ac + self.bac - self.ev)

    @property
    def eac_by_both(self) -> Fraction | None:
        """Cost of the whole when the rest suffers from cost and delay: AC + (BAC - EV) / (CPI SPI).

        >>> Earned(bac=500, pv=250, ev=200, ac=230).eac_by_both
        Fraction(2645, 4)
        """
        rest = _ratio((self.bac - self.ev) * self.ac * self.pv, self.ev * self.ev)
        return None if rest is None else self.ac + rest

    def etc(self, eac: Fraction) -> Fraction:
        """What is still to be paid, by one of the three forecasts."""
        return eac - self.ac

    def vac(self, eac: Fraction) -> Fraction:
        """What is left of the budget at the end, by one of the three forecasts."""
        return self.bac - eac

    def tcpi(self, total: Fraction | int) -> Fraction | None:
        """The cost index that the rest must reach, so that all costs `total`.

        >>> Earned(bac=500, pv=250, ev=200, ac=230).tcpi(500)
        Fraction(10, 9)
        """
        return _ratio(self.bac - self.ev, total - self.ac)


def earned_schedule(planned: Sequence[int], earned: int) -> Fraction:
    """The number of periods in which the plan would have earned so much, linear inside one.

    `planned` is the total planned by the end of each period, never falling, else
    BadAmount. Whole periods are those of which all is earned, idle ones too; all that is
    planned, or more, is the whole plan.

    >>> earned_schedule([50, 120, 220, 350, 480, 600], 300)
    Fraction(47, 13)
    """
    if list(planned) != sorted(planned) or (planned and planned[0] < 0):
        raise BadAmount("planned")
    whole = sum(1 for total in planned if total <= earned)
    if whole == len(planned):
        return Fraction(whole)
    before = planned[whole - 1] if whole else 0
    return whole + Fraction(max(0, earned - before), planned[whole] - before)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A piece of planned work: its amount, spread evenly over its working time.

    >>> Planned(amount=60, start=0, finish=60, calendar=Calendar.always("always")).by(30)
    Fraction(30, 1)
    """

    amount: int
    start: int
    finish: int
    calendar: Calendar

    def by(self, at: int) -> Fraction:
        """How much of it is planned by an instant."""
        if at >= self.finish:
            return Fraction(self.amount)
        whole = self.calendar.between(self.start, self.finish)
        if at <= self.start or whole <= 0:
            return Fraction(0)
        return Fraction(self.amount * self.calendar.between(self.start, at), whole)


def planned_by(work: Iterable[Planned], at: int) -> Fraction:
    """All that is planned by an instant.

    >>> planned_by([Planned(amount=8, start=0, finish=4, calendar=Calendar.always("a"))], 1)
    Fraction(2, 1)
    """
    return sum((each.by(at) for each in work), Fraction(0))


def planned_at(work: Sequence[Planned], earned: Fraction) -> int | None:
    """The first instant by which the plan would have earned so much; None: never so much.

    >>> planned_at([Planned(amount=8, start=0, finish=4, calendar=Calendar.always("a"))],
    ...     Fraction(6))
    3
    """
    low = min((each.start for each in work), default=0)
    high = max((each.finish for each in work), default=0)
    if planned_by(work, high) < earned:
        return None
    while low < high:
        middle = (low + high) // 2
        if planned_by(work, middle) >= earned:
            high = middle
        else:
            low = middle + 1
    return high


def _ratio(above: Fraction | int, below: Fraction | int) -> Fraction | None:
    return Fraction(above) / below if below else None
