"""The overhead that the claims to come may ask for beside what they charge."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from budgets import engine
from budgets.flow.ground import Charge, Ground
from budgets.models import Fund


@dataclass(slots=True, kw_only=True)
class Overhead:
    """Takes one claim after the other; `told` is what was asked for by now, in cents."""

    fund: engine.Fund
    shares: list[engine.Share] = field(default_factory=list)
    told: int = 0

    def take(self, charges: Iterable[Charge]) -> int:
        """The fund's rate on all that is claimed with these, less what was asked for before."""
        rate = engine.indirect_of(self.fund)
        if rate is None:
            return 0
        self.shares += [share for row in charges for share in row.shares]
        more = max(0, rate.most(self.shares, self.fund.award) - self.told)
        self.told += more
        return more


def overhead_of(ground: Ground, fund: Fund) -> Overhead:
    """As the claims that are filed leave it."""
    value = ground.books.fund_values[fund.pk]
    if engine.indirect_of(value) is None:
        return Overhead(fund=value)
    locks, values = ground.books.locks, ground.books.expense_values
    filed = [
        engine.Share(expense=values[pk], fund=str(of), cents=cents)
        for (pk, of), cents in locks.shares.items()
        if of == fund.pk and cents > 0
    ]
    return Overhead(fund=value, shares=filed, told=locks.indirect.get(fund.pk, 0))
