"""The rules of a fund as sentences."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from budgets import engine
from budgets.engine.dated import Dated
from budgets.engine.money import WHOLE
from budgets.engine.registry import in_full
from budgets.fit import MATCH, match_value, rule_value
from budgets.models import Fund, FundKind, FundRule
from budgets.selectors.patterns import Pattern

KINDS = dict(FundKind.choices)
MAIN = {
    "allowed_categories",
    "barred_categories",
    "match_only",
    "category_cap",
    "category_share_cap",
    "category_claimed_cap",
    "category_total_cap",
    "match",
    "grant_share",
    "tiered_match",
    "paid_back",
}


@dataclass(frozen=True, kw_only=True)
class RuleRow:
    """A rule for a page: in a template, ``row.pk`` of the row itself would be a parameter."""

    pk: int
    code: str
    sentence: str
    days: str  # when it is in force, if not always
    clause: str


def rule_rows(fund: Fund, symbol: str) -> list[RuleRow]:
    return [
        RuleRow(
            pk=row.pk,
            code=row.code,
            sentence=sentence_of(row, symbol),
            days=days_of(row),
            clause=row.clause,
        )
        for row in fund.rules.all()
    ]


def sentence_of(row: FundRule, symbol: str) -> str:
    if row.code == MATCH:
        return match_in_words(match_value(row), symbol)
    return rule_value(row).sentence(symbol)


def days_of(row: FundRule) -> str:
    first, last = (in_full(day) if day else "" for day in (row.starts_on, row.ends_on))
    if first and last:
        return f"For expenses from {first} to {last}."
    if first:
        return f"For expenses from {first} on."
    return f"For expenses up to {last}." if last else ""


def pattern_sentences(
    pattern: Pattern, known: Iterable[Dated], day: date, symbol: str
) -> list[str]:
    """What the rules of a pattern would say for an award issued on a day."""
    known = tuple(known)
    rows = (FundRule(code=r.code, params=r.params_on(known, day)) for r in pattern.rules)
    return [sentence_of(row, symbol) for row in rows]


def match_in_words(match: engine.Match, symbol: str) -> str:
    """“For every $1 of the grant, $1 from elsewhere; at least half of it in cash.”"""
    scale = 1 if match.denominator % 100 or match.numerator % 100 else 100
    grant, other = match.denominator // scale, match.numerator // scale
    start = f"For every {symbol}{grant:,} of the grant, {symbol}{other:,} from elsewhere"
    return f"{start}{gifts_in_words(match)}.{payers_in_words(match)}"


def gifts_in_words(match: engine.Match) -> str:
    cash, kind = match.cash_basis_points, match.kind_basis_points
    if cash >= WHOLE or not match.in_kind:
        return ", all of it in cash"
    words = f", at least {engine.percent(cash)} of it in cash" if cash else ""
    if kind < WHOLE:
        return f"{words}; gifts in kind count for {engine.percent(kind)} of it at most"
    return words or "; gifts in kind count"


def payers_in_words(match: engine.Match) -> str:
    names = [name.lower() for key, name in KINDS.items() if key in match.payers]
    if not names:
        return ""
    said = " or ".join([", ".join(names[:-1]), names[-1]] if names[1:] else names)
    return f" Only {said} counts."
