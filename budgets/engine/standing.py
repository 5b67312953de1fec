"""Rules that every fund has, because they read the fund itself: status, period, award."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.model import Charge, Fund, Refusal, Row, Rule, Status, Sum, Term
from budgets.engine.money import dollars
from budgets.engine.registry import in_full, refuse, room_left, rule_kind
from budgets.engine.rules.days import DAYS, INCURRED, counted_day


class Standing(Rule):
    """A rule that every fund has, because it reads the fund itself."""

    __slots__ = ()


WAITING = {Status.APPLIED: "applied for", Status.OFFERED: "offered"}


@rule_kind
@dataclass(frozen=True, slots=True)
class SignedOnly(Standing):
    code: ClassVar[str] = "not_signed"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays only once its agreement is signed."

    def check(self, charge: Charge) -> Refusal | None:
        fund = charge.fund
        if fund.status not in WAITING:
            return None
        stage = WAITING[fund.status]
        words = f"{fund.name} is only {stage}: it can pay once its agreement is signed."
        return refuse(self, charge, words, Status.SIGNED.value, fund.status.value)


@rule_kind
@dataclass(frozen=True, slots=True)
class OpenOnly(Standing):
    code: ClassVar[str] = "closed"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays nothing new once it is closed."

    def check(self, charge: Charge) -> Refusal | None:
        if charge.fund.status is not Status.CLOSED:
            return None
        words = f"{charge.fund.name} is closed: nothing more can be charged to it."
        return refuse(self, charge, words, Status.SIGNED.value, charge.fund.status.value)


@rule_kind
@dataclass(frozen=True, slots=True)
class EligiblePeriod(Standing):
    """Both the first and the last day count as inside."""

    code: ClassVar[str] = "eligible_period"

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        return "Pays only for what is spent inside its eligible period."

    def check(self, charge: Charge) -> Refusal | None:
        fund = charge.fund
        by, day = counted_day(fund, charge.expense)
        if day is None:
            words = f"{fund.name} counts an expense by the day it {DAYS[by]}: write that day"
            return refuse(self, charge, f"{words}.", fund.period_start, None)
        if fund.period_start and day < fund.period_start:
            edge, verb = fund.period_start, "opens"
        elif fund.period_end and day > fund.period_end:
            edge, verb = fund.period_end, "ends"
        else:
            return None
        words = f"The eligible period of {fund.name} {verb} on {in_full(edge)}"
        is_of = "is dated" if by == INCURRED else DAYS[by]
        return refuse(self, charge, f"{words}: this expense {is_of} {in_full(day)}.", edge, day)


@rule_kind
@dataclass(frozen=True, slots=True)
class AwardNotExceeded(Standing):
    code: ClassVar[str] = "award"
    static: ClassVar[bool] = False

    def sentence(self, symbol: str = "$") -> str:
        return "Pays no more than its award."

    def room(self, charge: Charge) -> int | None:
        award = charge.fund.award
        return None if award is None else award - charge.charged

    def rows(self, fund: Fund, project_total: int) -> tuple[Row, ...]:
        if fund.award is None:
            return ()
        terms = tuple(Term(weight=1, of=of) for of in (Sum.CHARGED, Sum.INDIRECT))
        return (
            Row(code=self.code, sentence=self.sentence(fund.symbol), terms=terms, most=fund.award),
        )

    def check(self, charge: Charge) -> Refusal | None:
        award, wanted = charge.fund.award, charge.charged + charge.cents
        if award is None or wanted <= award:
            return None
        what = f"pays at most {dollars(award, charge.symbol)} in all"
        words = room_left(charge, what, award - charge.charged)
        return refuse(self, charge, words, award, wanted)


@rule_kind
@dataclass(frozen=True, slots=True)
class GiftsPayNoBill(Standing):
    """A fund of gifts in kind takes gifts alone (common practice, no source)."""

    code: ClassVar[str] = "gifts"

    def sentence(self, symbol: str = "$") -> str:
        return "Gifts in kind pay no bill."

    def check(self, charge: Charge) -> Refusal | None:
        if not charge.fund.gifts or charge.expense.in_kind:
            return None
        words = f"{charge.fund.name} holds gifts in kind, which pay no bill: this expense is cash."
        return refuse(self, charge, words, "in kind", "cash")


STANDING: tuple[Rule, ...] = (
    SignedOnly(),
    OpenOnly(),
    EligiblePeriod(),
    AwardNotExceeded(),
    GiftsPayNoBill(),
)


def every_rule(fund: Fund) -> tuple[Rule, ...]:
    """The rules of a fund, the standing ones first, each once."""
    rules = (*STANDING, *fund.rules)
    kinds = {rule.code for rule in rules}  # only two of a kind can be alike, which is dear to ask
    return rules if len(kinds) == len(rules) else tuple(dict.fromkeys(rules))


def asking(fund: Fund) -> tuple[Rule, ...]:
    """Those of them that a charge can break."""
    return tuple(rule for rule in every_rule(fund) if type(rule).check is not Rule.check)
