"""Which of several quotes to take: never only the cheapest. Prices in integer cents."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A quote beside the plan: its price all in, and what it leaves of the public date.

    `in_hand` is in working days, below zero when the date is missed, None when nothing tells.
    `after_wanted` is days by which it comes later than it was wanted. `expired` says that the
    price no longer holds on the day of the order.
    """

    key: str
    price: int
    in_hand: int | None = None
    after_wanted: int = 0
    expired: bool = False


class Why(StrEnum):
    ONLY = "only"  # nothing to compare it with
    CHEAPEST = "cheapest"  # and it holds whatever the others hold
    HOLDS = "holds"  # a cheaper one breaks something that this one keeps
    CLOSEST = "closest"  # none keeps the date; this one misses it least


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The best offer, why, the cheapest of all, and what that one breaks."""

    best: Offer
    why: Why
    cheapest: Offer
    misses_date: bool = False
    comes_late: bool = False
    expired: bool = False

    @property
    def dearer(self) -> int:
        """Cents that the best one costs more than the cheapest."""
        return self.best.price - self.cheapest.price


def keeps_date(offer: Offer, now: int | None = None) -> bool:
    """Whether an offer leaves the public date as it is; `now` is days in hand as planned.

    Where the plan misses the date already, an offer keeps it if it makes nothing worse.

    >>> keeps_date(Offer(key="a", price=1, in_hand=-2)), keeps_date(Offer(key="a", price=1))
    (False, True)
    >>> keeps_date(Offer(key="a", price=1, in_hand=-2), now=-2)
    True
    """
    return offer.in_hand is None or offer.in_hand >= min(0, 0 if now is None else now)


def choose(offers: Iterable[Offer], now: int | None = None) -> Choice | None:
    """The best of some offers, or None when there is none; alike ones by the order given.

    First whatever keeps the public date, then a price that still holds, then what is there when
    it is wanted, then the lowest price, then the most days in hand. Where none keeps the date,
    the one that misses it least.

    >>> slow = Offer(key="slow", price=900_00, in_hand=-4)
    >>> found = choose([slow, Offer(key="quick", price=1_000_00, in_hand=2)])
    >>> found.best.key, found.why.value, found.dearer, found.misses_date
    ('quick', 'holds', 10000, True)
    """
    rows = list(offers)
    if not rows:
        return None
    none_keeps = not any(keeps_date(row, now) for row in rows)
    best = min(rows, key=lambda row: rank(row, now, none_keeps))
    cheapest = best_of_price(rows, best)
    return Choice(
        best=best,
        cheapest=cheapest,
        why=why(rows, best, cheapest, none_keeps),
        misses_date=keeps_date(best, now) and not keeps_date(cheapest, now),
        comes_late=best.after_wanted <= 0 < cheapest.after_wanted,
        expired=cheapest.expired and not best.expired,
    )


def rank(offer: Offer, now: int | None, none_keeps: bool) -> tuple[int | bool, ...]:
    days = 0 if offer.in_hand is None else offer.in_hand
    return (
        -days if none_keeps else not keeps_date(offer, now),
        offer.expired,
        offer.after_wanted > 0,
        offer.price,
        -days,
    )


def best_of_price(rows: list[Offer], best: Offer) -> Offer:
    """The cheapest; the best one itself where it costs no more than any other."""
    least = min(row.price for row in rows)
    return best if best.price == least else next(row for row in rows if row.price == least)


def why(rows: list[Offer], best: Offer, cheapest: Offer, none_keeps: bool) -> Why:
    if none_keeps:
        return Why.CLOSEST
    if len(rows) == 1:
        return Why.ONLY
    return Why.CHEAPEST if best is cheapest else Why.HOLDS
