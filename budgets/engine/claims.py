"""Requests for payment: what may be asked for, what is due, and how a refund is given back.

Integer cents. A claim asks for what was charged to a fund and paid, once.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from budgets.engine.money import MoneyError, NegativeMoney, largest_remainder, share_ceil


class OverTheAmount(MoneyError):
    """More came back than was paid; `most` is what may."""

    code = "over_the_amount"

    def __init__(self, cents: int, most: int) -> None:
        super().__init__(f"{cents} cents came back of {most}.")
        self.cents, self.most = cents, most


class Why(StrEnum):
    """Why cents that are charged to a fund are not in a claim."""

    BARRED = "barred"  # a rule of the fund refuses them
    NOT_PAID = "not_paid"
    LATER = "later"  # paid after the last day of the claim


@dataclass(frozen=True, slots=True, kw_only=True)
class Charged:
    """Cents of an expense that are charged to the fund and in no claim yet."""

    key: str
    cents: int
    paid: date | None
    barred: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorted:
    taken: tuple[Charged, ...]
    left: tuple[tuple[Charged, Why], ...]

    @property
    def cents(self) -> int:
        return sum(row.cents for row in self.taken)


def sort_out(charged: Iterable[Charged], through: date) -> Sorted:
    """What a claim up to a day takes, and what it leaves with the reason.

    Every row is in one of the two; nothing is taken that is not paid by that day.

    >>> march = date(2031, 3, 31)
    >>> rows = [Charged(key="paint", cents=200_00, paid=date(2031, 3, 3)),
    ...         Charged(key="frame", cents=900_00, paid=None)]
    >>> found = sort_out(rows, march)
    >>> found.cents, [(row.key, why.value) for row, why in found.left]
    (20000, [('frame', 'not_paid')])
    """
    taken, left = [], []
    for row in charged:
        if row.cents <= 0:
            continue
        if row.barred:
            left.append((row, Why.BARRED))
        elif row.paid is None:
            left.append((row, Why.NOT_PAID))
        elif row.paid > through:
            left.append((row, Why.LATER))
        else:
            taken.append(row)
    return Sorted(taken=tuple(taken), left=tuple(left))


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """What a claim comes to, in cents: `due` is what should arrive."""

    direct: int
    indirect: int = 0
    netted: int = 0
    held: int = 0
    released: int = 0

    @property
    def asked(self) -> int:
        return self.direct + self.indirect

    @property
    def due(self) -> int:
        return self.asked - self.netted - self.held + self.released


def amounts(
    direct: int,
    *,
    indirect: int = 0,
    ahead: int = 0,
    held_basis_points: int = 0,
    held_before: int = 0,
    final: bool = False,
) -> Amounts:
    """What a claim comes to: less what was paid ahead, less the share that waits for the report.

    The share is taken of what is left after the advance, rounded up. A final claim holds nothing
    and asks for all that was held before. A claim below zero (corrections alone) holds nothing:
    it lowers what is due. Source of a hold-back: Region 2 Arts Council, payment policy.

    >>> amounts(1_000_01, held_basis_points=1000).held
    10001
    >>> amounts(1_000_00, ahead=400_00, held_basis_points=1000).due
    54000
    >>> amounts(500_00, held_basis_points=1000, held_before=120_00, final=True).due
    62000
    """
    for what, cents in (("An advance", ahead), ("What was held", held_before)):
        if cents < 0:
            raise NegativeMoney(what, cents)
    asked = direct + indirect
    netted = min(ahead, max(0, asked))
    rest = max(0, asked - netted)
    return Amounts(
        direct=direct,
        indirect=indirect,
        netted=netted,
        held=0 if final else share_ceil(rest, held_basis_points),
        released=held_before if final else 0,
    )


def give_back(refund: int, paid_by: Mapping[str, int]) -> dict[str, int]:
    """A refund shared among those who paid the expense, in cents, to the cent.

    By largest remainder over the cents that each paid; ties go by the order of the mapping.
    Raises OverTheAmount when more comes back than was paid. Source of the duty: 2 CFR 200.406,
    applicable credits.

    >>> give_back(100_00, {"board": 500_00, "ward": 250_00, "own": 250_00})
    {'board': 5000, 'ward': 2500, 'own': 2500}
    """
    paid = sum(paid_by.values())
    if refund > paid:
        raise OverTheAmount(refund, paid)
    parts = largest_remainder(refund, tuple(paid_by.values())) if refund else [0] * len(paid_by)
    return dict(zip(paid_by, parts, strict=True))


def never_paid_back(charged: Iterable[Charged], last_claim: date | None) -> int:
    """Cents that will be paid after the last claim, or whose payment is not in sight, in cents.

    Nothing when the fund has no last day. A cost paid after the last claim is never reimbursed.

    >>> never_paid_back([Charged(key="lift", cents=1, paid=date(2031, 8, 1))], date(2031, 7, 31))
    1
    """
    if last_claim is None:
        return 0
    return sum(row.cents for row in charged if row.paid is None or row.paid > last_claim)


def standing(claims: Sequence[Amounts], received: Sequence[int]) -> int:
    """Cents still to come of all claims together; below zero when too much came.

    >>> standing([Amounts(direct=100_00, held=10_00)], [50_00])
    4000
    """
    return sum(claim.due for claim in claims) - sum(received)
