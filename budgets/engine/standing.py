"""Rules that every fund has, because they read the fund itself: status, period, award."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.model import Charge, Refusal, Rule, Status
from budgets.engine.money import dollars
from budgets.engine.registry import in_full, refuse, room_left, rule_kind

class Standing(Rule):
    """A rule that every fund has, because it reads the fund itself."""

    __slots__ = ()


@rule_kind
@dataclass(frozen=True, slots=True)
class SignedOnly(Standing):
    code: ClassVar[str] = "not_signed"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays only once its agreement is signed."

    def check(self, charge: Charge) -> Refusal | None:
        fund, waiting = (
            charge.fund,
            {Status.APPLIED: "applied for", Status.OFFERED: "offered"},
        )
        if fund.status not in waiting:
            return None
        words = f"{fund.name} is only {waiting[fund.status]}: it can pay once its agreement is signed."
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
        return refuse(
            self, charge, words, Status.SIGNED.value, charge.fund.status.value
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class EligiblePeriod(Standing):
    """Both days count as inside."""

    code: ClassVar[str] = "eligible_period"

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        return "Pays only for what is spent inside its eligible period."

    def check(self, charge: Charge) -> Refusal | None:
        fund, day = charge.fund, charge.expense.day
        if fund.period_start and day < fund.period_start:
            edge, words = fund.period_start, "opens on"
        elif fund.period_end and day > fund.period_end:
            edge, words = fund.period_end, "ended on"
        else:
            return None
        return refuse(
            self,
            charge,
            f"The eligible period of {fund.name} {words} {in_full(edge)}: this expense is of {in_full(day)}.",
            edge,
            day,
        )


@rule_kind
@dataclass(frozen=True, slots=True)
class AwardNotExceeded(Standing):
    code: ClassVar[str] = "award"

    def sentence(self, symbol: str = "$") -> str:
        return "Pays no more than its award."

    def check(self, charge: Charge) -> Refusal | None:
        award = charge.fund.award
        if award is None or charge.charged + charge.cents <= award:
            return None
        return refuse(
            self,
            charge,
            room_left(
                charge,
                f"awards {dollars(award, charge.symbol)}",
                award - charge.charged,
            ),
            award,
            charge.charged + charge.cents,
        )


def room_left(charge: Charge, what: str, left: int) -> str:
    money = charge.symbol
    return f"{charge.fund.name} {what}: {dollars(max(left, 0), money)} of it is left, this share is {dollars(charge.cents, money)}."


STANDING: tuple[Rule, ...] = (
    SignedOnly(),
    OpenOnly(),
    EligiblePeriod(),
    AwardNotExceeded(),
)
