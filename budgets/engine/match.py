"""Match: money from elsewhere that a fund asks for. A requirement is rounded up.

The requirement follows what is charged, not the award: money left unspent asks for no match.
"""

from budgets.engine.model import Match
from budgets.engine.money import WHOLE, Rounding, portion


def match_needed(match: Match | None, charged: int) -> int:
    """Cents of match that `charged` cents ask for, rounded up; none without a match rule.

    >>> match_needed(Match(numerator=1, denominator=3), 100_00)
    3334
    """
    return portion(charged, match.numerator, match.denominator, Rounding.CEIL) if match else 0


def cash_needed(match: Match | None, charged: int) -> int:
    """Cents of the required match that must be cash, rounded up once.

    Source of the pattern: City of Madison, arts grant restrictions (half of the match in cash).

    >>> cash_needed(Match(cash_basis_points=5000), 1500_00)
    75000
    """
    if match is None:
        return 0
    return portion(
        charged,
        match.numerator * match.cash_basis_points,
        match.denominator * WHOLE,
        Rounding.CEIL,
    )


def least_total(match: Match | None, charged: int) -> int:
    """The smallest whole project, in cents, in which `charged` cents find their match.

    >>> least_total(Match(), 10_000_00)
    2000000
    """
    return charged + match_needed(match, charged)


def match_of_total(total: int, numerator: int, denominator: int) -> tuple[int, int]:
    """Match and grant, in cents, when the match is a fraction of the whole project.

    >>> match_of_total(400_000_00, 25, 100)
    (10000000, 30000000)
    """
    match = portion(total, numerator, denominator, Rounding.CEIL)
    return match, total - match


def total_for_share(
    award: int,
    numerator: int,
    denominator: int,
    *,
    rounding: Rounding = Rounding.CEIL,
    unit: int = 1,
) -> tuple[int, int]:
    """Whole project and match, in cents, when `award` is a fraction of the whole project.

    `unit` is the coin of the printed sheet: 1 for cents, 100 for whole dollars. Sheets differ in
    rounding, so the way is stated; a requirement is rounded up unless the sheet says otherwise.

    >>> total_for_share(350_000_00, 75, 100, unit=100)
    (46666700, 11666700)
    """
    total = portion(award, denominator, numerator * unit, rounding) * unit
    return total, total - award


def grant_at_most(total: int, numerator: int, denominator: int, *, award: int | None = None) -> int:
    """The most that a grant pays, in cents: a fraction of the project, at most `award`.

    >>> grant_at_most(6000_00, 1, 2, award=5000_00)
    300000
    """
    most = portion(total, numerator, denominator, Rounding.FLOOR)
    return most if award is None else min(most, award)


def match_for_grant_share(numerator: int, denominator: int, *, cash_basis_points: int = 0) -> Match:
    """The match rule of a grant that pays at most a fraction of the project.

    >>> match_for_grant_share(1, 4).numerator
    3
    """
    return Match(
        numerator=denominator - numerator,
        denominator=numerator,
        cash_basis_points=cash_basis_points,
    )
