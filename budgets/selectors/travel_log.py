"""Who drove what, when, why and at which rate: the log of a traveller, ready for paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from budgets.engine import largest_remainder
from budgets.models import Expense
from budgets.selectors.workings import TRIP, Leg, RatePart, hand_changed, leg, rate_parts
from projects.models import Project
from projects.words import hundredths


@dataclass(frozen=True, kw_only=True)
class Drive:
    leg: Leg
    hundredths: int
    rate: RatePart
    cents: int
    given: bool  # a volunteer's: the rate values a gift, nobody is paid


@dataclass(frozen=True, kw_only=True)
class TravelLog:
    traveller: str
    drives: tuple[Drive, ...]
    notes: tuple[str, ...]

    @property
    def miles(self) -> str:
        return hundredths(sum(drive.hundredths for drive in self.drives))

    @property
    def cents(self) -> int:
        return sum(drive.cents for drive in self.drives)

    @property
    def sources(self) -> list[str]:
        return list(dict.fromkeys(drive.rate.source for drive in self.drives))


def trips_of(project: Project) -> list[Expense]:
    """Paid and given ones, by day."""
    found = Expense.objects.filter(project=project, workings__kind=TRIP)
    return list(found.select_related("project").order_by("day", "pk"))


def travellers(trips: Iterable[Expense]) -> list[str]:
    return sorted({row.payee for row in trips})


def travel_log(
    trips: Iterable[Expense], traveller: str, first: date | None, last: date | None
) -> TravelLog:
    """The drives from `first` to `last`, both included, by day."""
    mine = [row for row in trips if row.payee == traveller]
    kept = [(row, drive) for row in mine for drive in drives_of(row) if inside(drive, first, last)]
    used = dict.fromkeys(row for row, _ in kept)
    return TravelLog(
        traveller=traveller,
        drives=tuple(sorted((drive for _, drive in kept), key=lambda drive: drive.leg.day)),
        notes=tuple(note for row in used if (note := hand_changed(row))),
    )


def inside(drive: Drive, first: date | None, last: date | None) -> bool:
    return (first is None or first <= drive.leg.day) and (last is None or drive.leg.day <= last)


def drives_of(expense: Expense) -> Iterator[Drive]:
    """Each drive at the rate it fell under; what is rounded once for a rate is shared out."""
    legs = list(expense.workings["legs"])
    rates = rate_parts(expense.workings, expense.project.currency)
    for row, rate in zip(expense.workings["rates"], rates, strict=True):
        under = taken(legs, row["hundredths"])
        parts = largest_remainder(rate.cents, [each["miles"] for each in under])
        for each, cents in zip(under, parts, strict=True):
            yield Drive(
                leg=leg(each),
                hundredths=each["miles"],
                rate=rate,
                cents=cents,
                given=expense.in_kind,
            )


def taken(legs: list[Mapping[str, Any]], miles: int) -> list[Mapping[str, Any]]:
    """The next drives, by day, up to so many hundredths of a mile; they are taken off the list."""
    found: list[Mapping[str, Any]] = []
    while legs and sum(each["miles"] for each in found) < miles:
        found.append(legs.pop(0))
    return found
