"""Other terms than those agreed, to see what each would do to the lowest day."""

from __future__ import annotations

from dataclasses import dataclass, replace

from budgets.engine.paying import Payment
from budgets.engine.terms import Terms

MONTH = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked of one fund or one supplier; nothing asked leaves the terms as agreed."""

    fund: int | None = None
    months: int | None = None  # between claims
    ahead: int | None = None  # of the award, in basis points
    order: int | None = None
    deposit: int | None = None  # at most, in basis points
    net_days: int | None = None  # at least
    milestone: int | None = None
    sooner_days: int = 0

    def payment(self, fund: int, agreed: Payment) -> Payment:
        if fund != self.fund:
            return agreed
        if self.months is not None:
            agreed = replace(agreed, back=True, months=self.months, dates=())
        if self.ahead is not None:
            agreed = replace(agreed, ahead_basis_points=self.ahead, ahead_on=None)
        return agreed

    def terms(self, order: int, agreed: Terms) -> Terms:
        if order != self.order:
            return agreed
        if self.deposit is not None:
            agreed = replace(agreed, deposit=min(agreed.deposit, self.deposit))
        if self.net_days is not None:
            agreed = replace(agreed, net_days=max(agreed.net_days, self.net_days))
        return agreed


AS_AGREED = Asked()
