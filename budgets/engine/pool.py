"""The contingency: one pool, drawn to the lines that need it. Integer cents."""

from dataclasses import dataclass

from budgets.engine.money import WHOLE, MoneyError

THIN = 500  # basis points; programmes hold 5, 10 or 15 % (Americans for the Arts, public art FAQ)


class DrawTooLarge(MoneyError):
    """More than the pool holds, or nothing at all."""

    code = "draw_too_large"

    def __init__(self, cents: int, left: int) -> None:
        super().__init__(f"{cents} cents cannot be drawn from {left}.")
        self.cents, self.left = cents, left


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """What was set aside, in cents, beside what it may have to answer for.

    `drawn` went to other lines, `spent` was booked on the pool itself. `uncommitted` is what is
    still to be ordered or bought; `over` is what lines will cost beyond their budgets.
    """

    held: int
    drawn: int = 0
    spent: int = 0
    uncommitted: int = 0
    over: int = 0

    @property
    def left(self) -> int:
        """
        >>> Pool(held=500_00, drawn=120_00).left
        38000
        """
        return self.held - self.drawn - self.spent

    @property
    def basis_points(self) -> int | None:
        """The share of what is not ordered yet that the pool would cover, rounded down.

        >>> Pool(held=500_00, uncommitted=6_000_00).basis_points, Pool(held=500_00).basis_points
        (833, None)
        """
        return max(0, self.left) * WHOLE // self.uncommitted if self.uncommitted else None

    @property
    def short(self) -> int:
        """What lines will cost beyond their budgets and the pool together."""
        return max(0, self.over - max(0, self.left))

    @property
    def thin(self) -> bool:
        return self.basis_points is not None and self.basis_points < THIN


def checked_draw(cents: int, left: int) -> int:
    """The amount of a draw; raises DrawTooLarge when the pool does not hold it.

    >>> checked_draw(380_00, 380_00)
    38000
    >>> try:
    ...     checked_draw(380_01, 380_00)
    ... except DrawTooLarge as error:
    ...     print(error.left)
    38000
    """
    if not 0 < cents <= left:
        raise DrawTooLarge(cents, left)
    return cents
