"""Match said in other ways than a ratio, and what a funder expects of the whole project."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.model import Base, Fund, Match, Now, Refusal, Rule
from budgets.engine.money import WHOLE, Rounding, dollars, percent, portion
from budgets.engine.registry import BadRule, need_number, rule_kind

Tiers = tuple[tuple[int | None, int], ...]


@rule_kind
@dataclass(frozen=True, slots=True)
class GrantShare(Rule):
    """A match in other words: the grant is at most a share of grant and match together.

    Source of the pattern: City of Madison, arts grant restrictions (at most half of the project).
    """

    code: ClassVar[str] = "grant_share"
    base: ClassVar[Base | None] = Base.TOTAL
    rounding: ClassVar[Rounding | None] = Rounding.FLOOR
    basis_points: int
    cash_basis_points: int = 0

    def __post_init__(self) -> None:
        need_number(self.code, self.basis_points, "The share in basis points", most=WHOLE)
        need_number(self.code, self.cash_basis_points, "The cash in basis points", most=WHOLE)
        if not self.basis_points:
            raise BadRule(self.code, "A grant that pays no share of the project pays nothing.")

    def sentence(self, symbol: str = "$") -> str:
        cash = f", {percent(self.cash_basis_points)} of which is cash"
        tail = cash if self.cash_basis_points else ""
        return f"Pays at most {percent(self.basis_points)} of the project; others the rest{tail}."

    def asked_match(self, project_total: int | None = None) -> Match | None:
        return Match(
            numerator=WHOLE - self.basis_points,
            denominator=self.basis_points,
            in_kind=self.cash_basis_points < WHOLE,
            cash_basis_points=self.cash_basis_points,
        )


def tier_of(total: int, tiers: Tiers) -> int:
    """The match, in basis points of the whole project, of a project of `total` cents.

    >>> [tier_of(cents, ((60_000_00, 5000), (None, 6000))) for cents in (60_000_00, 60_000_01)]
    [5000, 6000]
    """
    return next(rate for most, rate in tiers if most is None or total <= most)


def tiered_match(total: int, tiers: Tiers) -> int:
    """The match, in cents, of a project of `total` cents; rounded up. It jumps between tiers.

    Source: Wisconsin Coastal Management grants (50 % up to 60,000 in all, 60 % above).

    >>> tiered_match(60_001_00, ((60_000_00, 5000), (None, 6000)))
    3600060
    """
    return portion(total, tier_of(total, tiers), WHOLE, Rounding.CEIL)


@rule_kind
@dataclass(frozen=True, slots=True)
class TieredMatch(Rule):
    """`tiers` are pairs of the largest whole project in cents and the match in basis points of it;
    the last has no end. Like every match, what is due follows what is charged."""

    code: ClassVar[str] = "tiered_match"
    base: ClassVar[Base | None] = Base.TOTAL
    rounding: ClassVar[Rounding | None] = Rounding.CEIL
    tiers: Tiers

    def __post_init__(self) -> None:
        if not self.tiers or self.tiers[-1][0] is not None:
            raise BadRule(self.code, "The last step of a match has no end.")
        for _, rate in self.tiers:
            need_number(self.code, rate, "A match in basis points", most=WHOLE - 1)
        ends = [most for most, _ in self.tiers if most is not None]
        if len(ends) != len(self.tiers) - 1 or ends != sorted(set(ends)):
            raise BadRule(self.code, "The steps of a match grow, each with its own end.")

    def sentence(self, symbol: str = "$") -> str:
        words = [
            f"{percent(rate)} of a project of up to {dollars(most, symbol)}"
            for most, rate in self.tiers
            if most is not None
        ]
        last = f"{percent(self.tiers[-1][1])} of a {'larger one' if words else 'project'}"
        return f"Asks for a match of {', '.join([*words, last])}."

    def asked_match(self, project_total: int | None = None) -> Match | None:
        rate = tier_of(project_total or 0, self.tiers)
        return Match(numerator=rate, denominator=WHOLE - rate)


def band(award: int, least: int, most: int) -> tuple[int, int]:
    """The smallest and largest whole project, in cents, that a funder expects for an award.

    Source: NEA Project Budget Instructions, rev. 8/11/25 (2 to 10 times the award).

    >>> band(10_000_00, 2, 10)
    (2000000, 10000000)
    """
    return award * least, award * most


@rule_kind
@dataclass(frozen=True, slots=True)
class TotalBand(Rule):
    """`least` and `most` are times the award; outside, the funder will ask, so it is a warning."""

    code: ClassVar[str] = "total_band"
    base: ClassVar[Base | None] = Base.AWARD
    least: int = 2
    most: int = 10

    def __post_init__(self) -> None:
        need_number(self.code, self.least, "The lower number of times")
        need_number(self.code, self.most, "The upper number of times")
        if self.least > self.most:
            raise BadRule(self.code, "The upper number is below the lower one.")

    def sentence(self, symbol: str = "$") -> str:
        return f"The whole project costs {self.least} to {self.most} times the award."

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        if not fund.award or not now.project_total:
            return None
        least, most = band(fund.award, self.least, self.most)
        if least <= now.project_total <= most:
            return None
        total = dollars(now.project_total, now.symbol)
        span = f"{dollars(least, now.symbol)} to {dollars(most, now.symbol)}"
        return Refusal(
            code=self.code,
            rule=self.sentence(now.symbol),
            sentence=f"{fund.name} expects a project of {span}; yours is planned at {total}.",
            limit=least if now.project_total < least else most,
            actual=now.project_total,
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class MatchIsOwed(Rule):
    """Match shown beyond what is required becomes owed, under the same rules.

    Source: NEA Project Budget Instructions, rev. 8/11/25 (cost share).
    """

    code: ClassVar[str] = "match_is_owed"

    def sentence(self, symbol: str = "$") -> str:
        return "Match that you show is match that you owe: show what is asked for, no more."

    def warn(self, fund: Fund, now: Now) -> Refusal | None:
        over = now.match - now.match_needed
        if over <= 0:
            return None
        shown = dollars(now.match, now.symbol)
        more = f"{dollars(over, now.symbol)} more than it asks for"
        return Refusal(
            code=self.code,
            rule=self.sentence(now.symbol),
            sentence=f"{fund.name}: {shown} counts as match, {more}, and would be owed.",
            limit=now.match_needed,
            actual=now.match,
        )
