"""The lines of a federal financial report, a to o, from the start of an award to a day.

Integer cents throughout. Source: Standard Form 425, Federal Financial Report, lines 10a to 10o
(OMB 4040-0014). Nothing here is legal advice: the awarding agency's own instructions decide.
"""

from dataclasses import dataclass

from budgets.engine.money import MoneyError, NegativeMoney, figure


class StillOwed(MoneyError):
    """A final report while bills charged to the award are unpaid; line f must be nothing."""

    code = "still_owed"

    def __init__(self, owed: int) -> None:
        super().__init__(
            f"{figure(owed)} charged to this award is not paid yet. A final report owes nothing: "
            "pay it, or take it off the award."
        )
        self.owed = owed


@dataclass(frozen=True, slots=True, kw_only=True)
class FederalLines:
    """Lines 10a to 10o in cents; a difference below zero is shown as it is.

    A negative c is own money put in before the award paid; a negative k is match above what the
    award asks for.
    """

    a: int  # cash receipts
    b: int  # cash disbursements
    d: int  # total federal funds authorised
    e: int  # federal share of expenditures
    f: int  # federal share of unliquidated obligations
    i: int  # total recipient share required
    j: int  # recipient share of expenditures
    l: int  # noqa: E741 programme income earned
    m: int  # programme income spent by deduction
    n: int  # programme income spent by addition

    @property
    def c(self) -> int:
        """Cash on hand: a less b."""
        return self.a - self.b

    @property
    def g(self) -> int:
        """Total federal share: e and f."""
        return self.e + self.f

    @property
    def h(self) -> int:
        """Unobligated balance: d less g."""
        return self.d - self.g

    @property
    def k(self) -> int:
        """Remaining recipient share: i less j."""
        return self.i - self.j

    @property
    def o(self) -> int:
        """Unexpended programme income: l less m or n."""
        return self.l - self.m - self.n


def federal_lines(
    *,
    received: int,
    paid: int,
    authorised: int,
    spent: int,
    owed: int = 0,
    match_required: int = 0,
    match_spent: int = 0,
    income: int = 0,
    deducted: int = 0,
    added: int = 0,
    final: bool = False,
) -> FederalLines:
    """Lines a to o of a report, in cents, cumulative from the start of the award.

    `spent` is the award's own share of what was spent, `owed` of what is ordered or billed and not
    yet spent. Third-party gifts in kind belong to `match_spent`.

    Raises StillOwed for a final report with anything owed, NegativeMoney for an amount below zero.

    >>> lines = federal_lines(
    ...     received=6000_00, paid=6400_00, authorised=10000_00, spent=8200_50, owed=1299_50,
    ...     match_required=10000_00, match_spent=9100_25)
    >>> lines.c, lines.g, lines.h, lines.k
    (-40000, 950000, 50000, 89975)
    """
    given = {
        "Cash received": received,
        "Cash paid out": paid,
        "The award": authorised,
        "What was spent": spent,
        "What is owed": owed,
        "The match required": match_required,
        "The match spent": match_spent,
        "Programme income": income,
        "Programme income deducted": deducted,
        "Programme income added": added,
    }
    for what, cents in given.items():
        if cents < 0:
            raise NegativeMoney(what, cents)
    if final and owed:
        raise StillOwed(owed)
    return FederalLines(
        a=received,
        b=paid,
        d=authorised,
        e=spent,
        f=owed,
        i=match_required,
        j=match_spent,
        l=income,
        m=deducted,
        n=added,
    )
