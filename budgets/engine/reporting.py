"""Arithmetic of reports: whole dollars that still add up, moves of a budget, printed totals, CSV.

Amounts are integer cents unless a name says dollars; rates are basis points.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from budgets.engine.money import CENTS, WHOLE, MoneyError, NegativeMoney, Rounding, portion

UNSAFE = ("=", "+", "-", "@", "\t", "\r")


class TotalOutOfReach(MoneyError):
    """Whole dollars that cannot add up to a total that far from their cents."""

    code = "total_out_of_reach"

    def __init__(self, total: int, parts: Sequence[int]) -> None:
        super().__init__(
            f"Amounts of {sum(parts)} cents in all cannot be rounded to {total} whole dollars."
        )
        self.total, self.parts = total, tuple(parts)


class UnlikeRows(MoneyError):
    """Rows of a table that do not have as many amounts as each other."""

    code = "unlike_rows"

    def __init__(self, lengths: Sequence[int]) -> None:
        super().__init__(f"The rows have {sorted(set(lengths))} amounts; each needs as many.")
        self.lengths = tuple(lengths)


def nearest_dollar(cents: int) -> int:
    """Whole dollars of an amount in cents, half a dollar up.

    >>> nearest_dollar(2_50), nearest_dollar(2_49), nearest_dollar(-2_50)
    (3, 2, -2)
    """
    return (2 * cents + CENTS) // (2 * CENTS)


def in_dollars(cents: Sequence[int], total: int | None = None) -> tuple[int, ...]:
    """Amounts in cents as whole dollars that add up to their rounded sum, or to `total` dollars.

    Each is cut to its dollar below, then the dollars left over go to the largest cents, ties to
    the earlier line. No line moves by a dollar or more, and whole dollars stay as they are.
    Source of the method: Hamilton (1792); M. L. Balinski and H. P. Young, "Fair Representation".

    Raises TotalOutOfReach when `total` is not between the sums of all lines rounded down and up.

    >>> in_dollars((33_34, 33_33, 33_33))
    (34, 33, 33)
    >>> in_dollars((10_50, 10_50, 10_50, 10_50)), in_dollars(())
    ((11, 11, 10, 10), ())
    >>> in_dollars((-5_75, 2_00))
    (-6, 2)
    """
    wanted = nearest_dollar(sum(cents)) if total is None else total
    parts = [part // CENTS for part in cents]
    loose = [part % CENTS for part in cents]
    over = wanted - sum(parts)
    if not 0 <= over <= sum(rest > 0 for rest in loose):
        raise TotalOutOfReach(wanted, cents)
    for place in sorted(range(len(parts)), key=lambda place: -loose[place])[:over]:
        parts[place] += 1
    return tuple(parts)


def table_in_dollars(rows: Sequence[Sequence[int]]) -> tuple[tuple[int, ...], ...]:
    """A table of cents as whole dollars in which rows, columns and the whole still add up.

    The whole is rounded first, then the sums of the columns to it, then each column to its sum.
    Every amount moves by less than a dollar.

    Raises UnlikeRows when the rows differ in length.

    >>> table_in_dollars([(10_50, 20_50), (10_50, 20_50)])
    ((11, 21), (10, 20))
    >>> table_in_dollars([])
    ()
    """
    lengths = [len(row) for row in rows]
    if len(set(lengths)) > 1:
        raise UnlikeRows(lengths)
    columns = list(zip(*rows, strict=True))
    sums = in_dollars([sum(column) for column in columns])
    whole = [in_dollars(column, total) for column, total in zip(columns, sums, strict=True)]
    return tuple(zip(*whole, strict=True)) if whole else tuple(() for _ in rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How much of an agreed budget a request moves: cents, rate half up, and what it may."""

    moved: int
    basis_points: int
    limit: int
    over: bool


def moved(approved: Sequence[int], revised: Sequence[int], limit_basis_points: int) -> Moved:
    """The sum of all increases over an agreed budget, in cents and as a share of it.

    The net of a move is zero, so only increases count. `over` when it exceeds the limit exactly,
    whatever the rounded rate shows. An agreed budget of nothing moves by 100 % once it has money.
    Source: 2 CFR 200.308 (cumulative transfers among direct cost categories).

    Raises UnlikeRows when the two differ in length, NegativeMoney for an amount below zero.

    >>> moved((8000_00, 6000_00, 4000_00, 2000_00), (10001_00, 5000_00, 3000_00, 1999_00), 1000)
    Moved(moved=200100, basis_points=1001, limit=1000, over=True)
    >>> moved((8000_00, 6000_00), (8000_00, 6000_00), 1000).over
    False
    """
    if len(approved) != len(revised):
        raise UnlikeRows((len(approved), len(revised)))
    if any(cents < 0 for cents in (*approved, *revised)):
        raise NegativeMoney("A line of the budget", min(*approved, *revised))
    rise = sum(max(0, new - old) for old, new in zip(approved, revised, strict=True))
    return _moved(rise, sum(approved), limit_basis_points)


def moved_in_all(
    changes: Sequence[tuple[Mapping[str, int], Mapping[str, int]]], limit_basis_points: int
) -> Moved:
    """The moves of several changes together, measured on the budget before the first.

    A change is the budget before and after it, in cents by category; a category left out has
    nothing in it. A move there and back counts twice. Source: as `moved`.

    >>> first, second = {"paint": 8000_00, "steel": 2000_00}, {"paint": 7500_00, "steel": 2500_00}
    >>> moved_in_all([(first, second), (second, first)], 1000).basis_points
    1000
    """
    rise = sum(
        max(0, after.get(key, 0) - before.get(key, 0))
        for before, after in changes
        for key in {*before, *after}
    )
    base = sum(changes[0][0].values()) if changes else 0
    return _moved(rise, base, limit_basis_points)


def lines_over(
    approved: Mapping[str, int], revised: Mapping[str, int], limit_basis_points: int
) -> tuple[str, ...]:
    """The categories that rise by more than a share of their own agreed amount, by name.

    Source of the pattern: contract clauses in which 10 % of a line is a change of scope.

    >>> lines_over({"paint": 1000_00, "steel": 500_00}, {"paint": 1100_00, "steel": 550_01}, 1000)
    ('steel',)
    """
    return tuple(
        key
        for key in sorted(revised)
        if (rise := revised[key] - approved.get(key, 0)) > 0
        and rise * WHOLE > limit_basis_points * approved.get(key, 0)
    )


def _moved(rise: int, base: int, limit: int) -> Moved:
    share = portion(rise, WHOLE, base, Rounding.HALF_UP) if base else WHOLE * (rise > 0)
    return Moved(moved=rise, basis_points=share, limit=limit, over=rise * WHOLE > limit * base)


@dataclass(frozen=True, slots=True, kw_only=True)
class SumCheck:
    """A printed total against its lines, in cents; `over` is how much too high it is printed."""

    total: int
    printed: int

    @property
    def agrees(self) -> bool:
        return self.total == self.printed

    @property
    def over(self) -> int:
        return self.printed - self.total


def sum_check(lines: Sequence[int], printed: int) -> SumCheck:
    """The lines of a printed budget added up again, in cents; its own total is never adopted.

    >>> check = sum_check((4000_00, 400_00, 200_00, 200_00, 100_00), 4950_00)
    >>> check.total, check.agrees, check.over
    (490000, False, 5000)
    """
    return SumCheck(total=sum(lines), printed=printed)


def new_money(award: int, left_before: int) -> int:
    """What a next award brings in cents when money left of the one before is set against it.

    Raises NegativeMoney when more is left than the award.

    >>> new_money(442_892_00, 62_898_00)
    37999400
    """
    if not 0 <= left_before <= award:
        raise NegativeMoney("What is left to set against", min(left_before, award - left_before))
    return award - left_before


def matched_by_half(grant: int, cash: int, in_kind: int) -> bool:
    """Whether cash and gifts together are at least the grant, all in cents.

    Source: the test on a state arts commission's budget form (columns D + E at least C).

    >>> matched_by_half(1500_00, 1000_00, 500_00), matched_by_half(1500_00, 1000_00, 499_99)
    (True, False)
    """
    return cash + in_kind >= grant


def safe_cell(text: str) -> str:
    """A text that no spreadsheet takes for a formula: a leading apostrophe where it could be one.

    A plain negative number keeps its sign.

    >>> [safe_cell(text) for text in ("=1+1", "@SUM(A1)", "-12.50", "-2+3", "Paint")]
    ["'=1+1", "'@SUM(A1)", '-12.50', "'-2+3", 'Paint']
    """
    if not text.startswith(UNSAFE) or _plain_negative(text):
        return text
    return f"'{text}"


def _plain_negative(text: str) -> bool:
    whole, point, cents = text.removeprefix("-").partition(".")
    digits = whole.isascii() and whole.isdigit()
    return text.startswith("-") and digits and (not point or (cents.isascii() and cents.isdigit()))
