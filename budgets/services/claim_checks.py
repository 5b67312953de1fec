"""What a funder would not take of a claim, in sentences."""

from __future__ import annotations

from budgets.engine.paying import last_to_pay
from budgets.models import ClaimKind
from budgets.selectors.claims.making import Made
from projects.words import day_year, money


class Refused(Exception):
    """What cannot be done; `field` is the one beside which the sentence stands."""

    def __init__(self, sentence: str, field: str | None = None) -> None:
        super().__init__(sentence)
        self.sentence, self.field = sentence, field


def refuse_wrong(made: Made) -> None:
    """Raises Refused for a claim that a funder would not take."""
    ledger, through = made.ledger, made.through
    last = last_to_pay(ledger.value)
    if ledger.through and through < ledger.through:
        day = day_year(ledger.through)
        raise Refused(f"The last claim goes up to {day}. Choose that day or later.", "to_day")
    if last and through > last:
        words = f"{ledger.fund.name} takes bills paid by {day_year(last)}"
        raise Refused(f"{words}. Choose that day or an earlier one.", "to_day")
    if made.is_empty:
        raise Refused(nothing_in(made), "to_day")
    refuse_beyond(made)


def refuse_beyond(made: Made) -> None:
    """Neither more than the award in all, nor an account of more than came ahead."""
    ledger, asked = made.ledger, made.amounts.asked
    currency, ahead = ledger.fund.project.currency, ledger.paid_ahead
    if ledger.left_to_ask is not None and asked > max(0, ledger.left_to_ask):
        left = money(max(0, ledger.left_to_ask), currency)
        raise Refused(
            f"This would ask for {money(asked, currency)}; only {left} of the award is not asked "
            "for yet. Take a part of what is charged off the fund, or write the new award."
        )
    if made.kind == ClaimKind.REPORT and asked > ahead:
        raise Refused(
            f"{money(ahead, currency)} came ahead and is not accounted for; what is charged comes "
            f"to {money(asked, currency)}. Log what came, or ask for the rest by a claim.",
            "kind",
        )


def nothing_in(made: Made) -> str:
    left = sum(row.cents for row in made.left_out)
    currency = made.ledger.fund.project.currency
    words = "Nothing that is charged to this fund is paid by that day and in no claim yet."
    if left:
        words += f" {money(left, currency)} waits: it is not paid by then, or a rule bars it."
    return words
