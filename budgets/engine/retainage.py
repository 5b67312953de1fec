"""What a contract keeps back from each bill until the work is accepted. Integer cents."""

from collections.abc import Sequence
from dataclasses import dataclass

from budgets.engine.money import (
    WHOLE,
    MoneyError,
    NegativeMoney,
    Rounding,
    portion,
    share_ceil,
    share_half_up,
)

PUNCH_LIST = 15_000  # basis points: one and a half times what is left to put right


class BadRate(MoneyError):
    """A rate below zero, or above the whole; `what` names it."""

    code = "bad_rate"

    def __init__(self, what: str, basis_points: int) -> None:
        super().__init__(f"{what} is {basis_points} basis points. It must be from 0 to {WHOLE}.")
        self.what, self.basis_points = what, basis_points


def checked(what: str, basis_points: int) -> int:
    if not 0 <= basis_points <= WHOLE:
        raise BadRate(what, basis_points)
    return basis_points


@dataclass(frozen=True, slots=True, kw_only=True)
class Retainage:
    """What is kept from each bill, in basis points of the bill.

    Once `stop` basis points of the contract were billed, later bills keep `after` instead.
    With `release_half`, the bill that reaches that point also frees half of what is held.
    """

    basis_points: int = 0
    stop: int | None = None
    after: int = 0
    release_half: bool = False

    def __post_init__(self) -> None:
        checked("What is kept from a bill", self.basis_points)
        checked("What is kept later", self.after)
        checked("The point where it changes", self.stop or 0)


NOTHING_KEPT = Retainage()


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """One bill: what is kept of it (below zero: freed by it), held after it, and payable."""

    bill: int
    kept: int
    held: int

    @property
    def payable(self) -> int:
        return self.bill - self.kept


def kept_of(rule: Retainage, contract: int, bill: int, *, billed: int = 0, held: int = 0) -> Kept:
    """What one bill keeps back, in cents, after `billed` cents of bills that hold `held`.

    A bill that crosses the point uses the state before it. Half a cent is rounded up.
    Raises NegativeMoney for an amount below zero.
    Source: Hawaii Revised Statutes 103-32.1 (5 %, nothing more once half is complete).

    >>> rule = Retainage(basis_points=500, stop=5000)
    >>> kept_of(rule, 40_000_00, 10_000_00, billed=10_000_00, held=500_00).kept
    50000
    >>> kept_of(rule, 40_000_00, 10_000_00, billed=20_000_00, held=1_000_00).payable
    1000000
    """
    for what, cents in (("A bill", bill), ("The contract", contract), ("What is held", held)):
        if cents < 0:
            raise NegativeMoney(what, cents)
    before, after = reached(rule, contract, billed), reached(rule, contract, billed + bill)
    kept = share_half_up(bill, rule.after if before else rule.basis_points)
    if rule.release_half and after and not before:
        kept -= (held + kept) // 2
    return Kept(bill=bill, kept=kept, held=held + kept)


def reached(rule: Retainage, contract: int, billed: int) -> bool:
    """Whether so much was billed that the later rate holds; never without such a point."""
    return rule.stop is not None and billed * WHOLE >= contract * rule.stop


def retain(rule: Retainage, contract: int, bills: Sequence[int]) -> tuple[Kept, ...]:
    """Each bill of a contract in turn, in cents.

    Source: Mississippi Code 31-5-33 (5 %; at half, half is returned; then 2.5 %).

    >>> rule = Retainage(basis_points=500, stop=5000, after=250, release_half=True)
    >>> [row.held // 100 for row in retain(rule, 300_000_00, [50_000_00] * 6)]
    [2500, 5000, 3750, 5000, 6250, 7500]
    """
    rows: list[Kept] = []
    billed = held = 0
    for bill in bills:
        rows.append(kept_of(rule, contract, bill, billed=billed, held=held))
        billed, held = billed + bill, rows[-1].held
    return tuple(rows)


def keep_for_list(held: int, left_to_do: int, *, basis_points: int = PUNCH_LIST) -> int:
    """What stays held while work worth `left_to_do` cents is left to put right; rounded up.

    Never more than is held. Source: Maine LD 1478, bill text of 2005 (one and a half times).

    >>> keep_for_list(2_000_00, 600_00), keep_for_list(500_00, 600_00)
    (90000, 50000)
    """
    if held < 0:
        raise NegativeMoney("What is held", held)
    return min(held, portion(left_to_do, basis_points, WHOLE, Rounding.CEIL))


def hold_back(contract: int, basis_points: int) -> tuple[int, int]:
    """What is held until acceptance, at least so many basis points, and what is payable before.

    Source: Albuquerque, Art in Municipal Places, section (D): at least 15 %.

    >>> hold_back(43_210_00, 1500)
    (648150, 3672850)
    """
    held = share_ceil(contract, checked("What is held back", basis_points))
    return held, contract - held
