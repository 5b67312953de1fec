"""Overhead at a rate on the direct costs, and what is left out of its base."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Base, Rule, Share
from budgets.engine.money import WHOLE, Rounding, dollars, percent, portion, share_floor
from budgets.engine.registry import need_number, rule_kind


@rule_kind
@dataclass(frozen=True, slots=True)
class IndirectRate(Rule):
    """`basis_points` of the base: what is charged, without the `excluded` categories, and of each
    partner's part no more than `partner_cents`, once over the whole award.

    Source: 2 CFR 200.1 (modified total direct cost), 200.414(f). Which costs are left out is the
    holder's question: hire of a lift is often one.
    """

    code: ClassVar[str] = "indirect_rate"
    base: ClassVar[Base | None] = Base.CLAIMED
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int
    excluded: frozenset[str] = frozenset()
    partner_cents: int | None = None

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The rate in basis points", most=WHOLE)
        if self.partner_cents is not None:
            need_number(self.code, self.partner_cents, "The cap for a partner in cents")

    def sentence(self, symbol: str = "$") -> str:
        words = f"Pays overhead of {percent(self.basis_points)} on what is charged"
        if self.excluded:
            words += f", without {in_words(self.excluded)}"
        if self.partner_cents is not None:
            words += f"; of a partner's part, on the first {dollars(self.partner_cents, symbol)}"
        return words + "."

    def base_of(self, shares: Iterable[Share]) -> int:
        """Cents on which the rate is taken, of all that is charged to the fund so far."""
        direct = 0
        partners: Counter[str] = Counter()
        for share in shares:
            if share.expense.category in self.excluded:
                continue
            if share.expense.partner:
                partners[share.expense.partner] += share.cents
            else:
                direct += share.cents
        return direct + sum(within(cents, self.partner_cents) for cents in partners.values())

    def most(self, shares: Iterable[Share], award: int | None = None) -> int:
        """The overhead in cents that may be charged beside the shares; never over the award."""
        shares = tuple(shares)
        cents = share_floor(self.base_of(shares), self.basis_points)
        charged = sum(share.cents for share in shares)
        return cents if award is None else max(0, min(cents, award - charged))


def within(cents: int, cap: int | None) -> int:
    return cents if cap is None else min(cents, cap)


def capped_by_year(years: Sequence[int], cap: int) -> tuple[int, ...]:
    """What one partner's part adds to the base, year by year: the cap holds over the whole award.

    Source: teaching handout on indirect costs, budgets 1 and 2.

    >>> capped_by_year((10_000_00, 11_000_00, 9_000_00), 25_000_00)
    (1000000, 1100000, 400000)
    """
    found, before = [], 0
    for cents in years:
        found.append(within(before + cents, cap) - within(before, cap))
        before += cents
    return tuple(found)


def direct_within(
    award: int, excluded: int, numerator: int, denominator: int, *, unit: int = 1
) -> tuple[int, int]:
    """Direct costs and overhead, in cents, that together use up an award with its overhead in it.

    `excluded` cents of the direct costs bear no overhead. Half up to `unit`, the coin of the sheet
    (1 for cents, 100 for whole dollars); overhead takes the rest.
    Source: UC San Diego, calculating direct and indirect costs.

    >>> direct_within(100_000_00, 20_000_00, 15, 100, unit=100)
    (6956500, 1043500)
    """
    bearing, whole = award - excluded, denominator + numerator
    direct = portion(bearing, denominator, whole * unit, Rounding.HALF_UP) * unit
    return direct, bearing - direct
