"""What the best fit is asked, and what it answers. Amounts are integer cents."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from budgets.engine.model import Counted, Expense, Fund, Share, Status
from budgets.engine.money import MoneyError

OURS = frozenset({"own"})  # what is left is the artist's own, so no source
STEADY = frozenset({"fee", "percent", "crowd"})  # stays with the work when it is not charged
OWN, KIND = "own", "in_kind"  # payers of match that are no fund


class BestError(MoneyError):
    """Base of what the best fit refuses."""

    code = "best_fit"


class SameKey(BestError):
    """Two expenses, or two funds, under one key."""

    code = "same_key"

    def __init__(self, key: str) -> None:
        super().__init__(f"The key {key} is given twice.")
        self.key = key


class TooManyToKeepWhole(BestError):
    """Keeping every expense whole asks for a choice an expense: only small projects can."""

    code = "too_many_whole"

    def __init__(self, choices: int, most: int) -> None:
        super().__init__(f"{choices} choices are too many to keep every expense whole ({most}).")
        self.choices, self.most = choices, most


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """How the artist wants it.

    `strict_pools`: a cent is match once anywhere. `match_from`: kinds of payer whose cents may be
    match ("own", "in_kind" or kinds of fund); None leaves it to the funds. `minimum_charge`: no
    line of a report below so many cents, where that can be had. `whole_expenses`: one fund an
    expense, for small projects. `include_offered`: what if the offered funds were signed.
    """

    strict_pools: bool = False
    match_from: frozenset[str] | None = None
    minimum_charge: int = 0
    whole_expenses: bool = False
    include_forecast: bool = True
    include_offered: bool = False


@dataclass(frozen=True, kw_only=True)
class Problem:
    """Expenses, funds, what claims hold already, and the artist's wishes.

    `locked` shares and `locked_match` are the least that the answer holds. `locked_indirect` is
    overhead that was claimed, by fund. `project_total` is the whole project's cost in cents, gifts
    included (default: the sum of the expenses). Own money and gifts among the funds pay nothing
    here: what is left is the artist's own.
    """

    expenses: tuple[Expense, ...]
    funds: tuple[Fund, ...]
    locked: tuple[Share, ...] = ()
    locked_match: tuple[Counted, ...] = ()
    policy: Policy = field(default_factory=Policy)
    project_total: int | None = None
    locked_indirect: Mapping[str, int] = field(default_factory=dict)
    symbol: str = "$"

    def __post_init__(self) -> None:
        for values in (self.expenses, self.funds):
            found = Counter(value.key for value in values)
            if len(found) < len(values):
                raise SameKey(found.most_common(1)[0][0])

    @cached_property
    def sources(self) -> tuple[Fund, ...]:
        """The funds that can pay a bill and are not the artist's own, by key."""
        sources = [fund for fund in self.funds if not fund.gifts and fund.kind not in OURS]
        return tuple(self._signed(fund) for fund in sorted(sources, key=lambda fund: fund.key))

    def _signed(self, fund: Fund) -> Fund:
        offered = fund.status is Status.OFFERED and self.policy.include_offered
        return replace(fund, status=Status.SIGNED) if offered else fund

    @cached_property
    def taking_part(self) -> tuple[Expense, ...]:
        """Without those of zero cents, nor forecasts when they are left out; by key."""
        forecasts = self.policy.include_forecast
        taking = [
            item for item in self.expenses if item.amount and (forecasts or not item.forecast)
        ]
        return tuple(sorted(taking, key=lambda item: item.key))

    @cached_property
    def total(self) -> int:
        if self.project_total is not None:
            return self.project_total
        return sum(item.amount for item in self.expenses)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something that an assignment breaks: the rule, a sentence, cents beyond it, whose."""

    code: str
    sentence: str
    fund: str = ""
    expense: str = ""
    cents: int = 0


class LocksBreak(BestError):
    """What claims hold already breaks rules; the findings name fund and rule."""

    code = "locks_break"

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(" ".join(finding.sentence for finding in findings))
        self.findings = findings


@dataclass(frozen=True, kw_only=True)
class Fit:
    """Who pays which cents. All values in cents.

    `used` is the money that lapses when it is not used, overhead included; no assignment under the
    same rules uses more than `bound`. `steady` is money that does not lapse and is not the
    artist's. `own` is what every cash expense leaves to the artist; `lapse` what every signed fund
    that lapses has left. `crumbs` could be used too, in lines below the least charge.
    `findings` are the rules that locked shares break.
    """

    shares: tuple[Share, ...]
    counted: tuple[Counted, ...] = ()
    indirect: Mapping[str, int] = field(default_factory=dict)
    used: int = 0
    bound: int = 0
    steady: int = 0
    lapse: Mapping[str, int] = field(default_factory=dict)
    own: Mapping[str, int] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    crumbs: int = 0

    @property
    def gap(self) -> int:
        """No assignment can use more than so many cents more."""
        return self.bound - self.used

    @cached_property
    def charged(self) -> Mapping[str, int]:
        """Direct cents by fund."""
        found = Counter[str]()
        for share in self.shares:
            found[share.fund] += share.cents
        return found

    @cached_property
    def own_total(self) -> int:
        return sum(self.own.values())
