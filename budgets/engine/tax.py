"""Sales tax: the printed amount is kept; it is reckoned again only to warn. Integer cents."""

from collections.abc import Sequence
from dataclasses import dataclass

from budgets.engine.money import Rounding, portion

Ratio = tuple[int, int]
Item = tuple[int, Ratio]


def tax_on(cents: int, rate: Ratio) -> int:
    """Tax on a price, in cents, at a rate given as a fraction: the third decimal above 4 goes up.

    Source: Streamlined Sales and Use Tax Agreement, section 324 (N.D.C.C. 57-39.4-25).

    >>> tax_on(30_50, (7, 100))
    214
    """
    return portion(cents, *rate, Rounding.HALF_UP)


def item_by_item(items: Sequence[Item]) -> int:
    """Prices with tax, each rounded to the cent before they are added up.

    >>> item_by_item([(10_05, (5, 100))] * 3)
    3165
    """
    return sum(cents + tax_on(cents, rate) for cents, rate in items)


def whole_invoice(items: Sequence[Item]) -> int:
    """The same prices with tax, added up first and rounded once.

    A seller may do either (section 324), so a bill of many lines may differ by some cents.

    >>> whole_invoice([(10_05, (5, 100))] * 3)
    3166
    """
    common = 1
    for _, (_, denominator) in items:
        common *= denominator
    exact = sum(cents * (d + n) * (common // d) for cents, (n, d) in items)
    return portion(exact, 1, common, Rounding.HALF_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class TaxCheck:
    """The printed tax beside the reckoned one, and by how much they may differ."""

    printed: int
    reckoned: int
    slack: int

    @property
    def holds(self) -> bool:
        return abs(self.printed - self.reckoned) <= self.slack


def tax_check(net: int, printed: int, rate: Ratio, *, lines: int = 1) -> TaxCheck:
    """Whether a printed tax can be right for a net price, all in cents.

    Rounded line by line, each of `lines` may be half a cent off: the check allows for it. It only
    warns: the printed amount is what was paid.

    >>> tax_check(200_00, 14_00, (7, 100)).holds, tax_check(200_00, 16_00, (7, 100)).holds
    (True, False)
    """
    return TaxCheck(printed=printed, reckoned=tax_on(net, rate), slack=(lines + 1) // 2)
