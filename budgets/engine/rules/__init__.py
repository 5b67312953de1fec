"""The kinds of rule that a fund may be given: one class each, found by its code.

To add a kind, write a class in one of these modules under `@rule_kind`, and its test. The
parameters of a stored rule are the fields of its class by name; a list stands for a set.
"""

from budgets.engine.rules.caps import CategoryCap, CategoryShareCap, CategoryTotalCap
from budgets.engine.rules.categories import (
    AllowedCategories,
    BarredCategories,
    CashOnly,
    MatchOnlyCategories,
)
from budgets.engine.rules.ceilings import RateCeiling
from budgets.engine.rules.claimed import CategoryClaimedCap, CategoryFloor
from budgets.engine.rules.days import NothingBefore, PaidBy, PeriodBy
from budgets.engine.rules.evidence import BarredRelations, PapersNeeded, Places, ReasonNeeded
from budgets.engine.rules.indirect import IndirectRate
from budgets.engine.rules.lines import AgreedBudget
from budgets.engine.rules.match import GrantShare, MatchIsOwed, TieredMatch, TotalBand
from budgets.engine.rules.payment import (
    HeldBack,
    PaidAhead,
    PaidBack,
    PaidByMilestone,
    RetainedOnBills,
)
from budgets.engine.rules.procurement import QuotesNeeded
from budgets.engine.rules.reporting import ProgressReport, RecordsKept, ReportDue, SpendDown

__all__ = [
    "AgreedBudget",
    "AllowedCategories",
    "BarredCategories",
    "BarredRelations",
    "CashOnly",
    "CategoryCap",
    "CategoryClaimedCap",
    "CategoryFloor",
    "CategoryShareCap",
    "CategoryTotalCap",
    "GrantShare",
    "HeldBack",
    "IndirectRate",
    "MatchIsOwed",
    "MatchOnlyCategories",
    "NothingBefore",
    "PaidAhead",
    "PaidBack",
    "PaidBy",
    "PaidByMilestone",
    "PapersNeeded",
    "PeriodBy",
    "Places",
    "ProgressReport",
    "QuotesNeeded",
    "RateCeiling",
    "ReasonNeeded",
    "RecordsKept",
    "ReportDue",
    "RetainedOnBills",
    "SpendDown",
    "TieredMatch",
    "TotalBand",
]
