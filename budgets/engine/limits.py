"""What a fund asks of all that is charged to it together, as rows of whole numbers."""

from budgets.engine.model import Fund, Match, Now, Refusal, Row, Sum, Term
from budgets.engine.money import WHOLE, percent
from budgets.engine.rules.indirect import IndirectRate
from budgets.engine.standing import every_rule


def rows_of(fund: Fund, *, project_total: int) -> tuple[Row, ...]:
    """Every limit that depends on the whole assignment: award, caps, agreed budget, match.

    `project_total` is the whole project's cost in cents, gifts in kind included. The ratios are
    multiplied out, so that every row is exact in whole cents.

    >>> ward = Fund(key="ward", name="Ward fund", award=500_00, match=Match())
    >>> [row.code for row in rows_of(ward, project_total=900_00)]
    ['award', 'match']
    """
    rows = [row for rule in every_rule(fund) for row in rule.rows(fund, project_total)]
    for match in asked_matches(fund, project_total):
        rows += match_rows(match)
    return tuple(rows)


def asked_matches(fund: Fund, project_total: int | None = None) -> list[Match]:
    said = [fund.match, *(rule.asked_match(project_total) for rule in fund.rules)]
    return [match for match in said if match]


def indirect_of(fund: Fund) -> IndirectRate | None:
    """How a fund pays overhead, if it does."""
    return next((rule for rule in fund.rules if isinstance(rule, IndirectRate)), None)


def warnings(fund: Fund, now: Now) -> tuple[Refusal, ...]:
    """What bars nothing and should be known: the rules' own words, as the fund stands now."""
    return tuple(found for rule in every_rule(fund) if (found := rule.warn(fund, now)))


def match_rows(match: Match) -> tuple[Row, ...]:
    """Ratio, cash in the required match, and what gifts may fill of it, as whole numbers."""
    part = f"{match.numerator} from elsewhere for every {match.denominator} of it"
    rows = [Row(code="match", sentence=f"Asks for match: {part}.", terms=_ratio(match), most=0)]
    if match.cash_basis_points:
        words = f"At least {percent(match.cash_basis_points)} of the required match is cash."
        rows.append(Row(code="match_cash", sentence=words, terms=_cash(match), most=0))
    if match.in_kind and match.kind_basis_points < WHOLE:
        words = f"Gifts in kind fill at most {percent(match.kind_basis_points)} of the match."
        rows.append(Row(code="match_kind", sentence=words, terms=_kind(match), most=0))
    return tuple(rows)


def _ratio(match: Match) -> tuple[Term, ...]:
    gifts = Term(weight=-match.denominator, of=Sum.MATCH_KIND)
    cash = Term(weight=-match.denominator, of=Sum.MATCH_CASH)
    return (*_asked(match.numerator), cash, gifts)


def _cash(match: Match) -> tuple[Term, ...]:
    found = Term(weight=-WHOLE * match.denominator, of=Sum.MATCH_CASH)
    return (*_asked(match.cash_basis_points * match.numerator), found)


def _kind(match: Match) -> tuple[Term, ...]:
    gifts = Term(weight=WHOLE * match.denominator, of=Sum.MATCH_KIND)
    return (gifts, *_asked(-match.kind_basis_points * match.numerator))


def _asked(weight: int) -> tuple[Term, ...]:
    """What is claimed: direct costs and overhead."""
    return tuple(Term(weight=weight, of=of) for of in (Sum.CHARGED, Sum.INDIRECT))
