"""Pure money: what a fund may pay, what it has left, what is nobody's yet. Integer cents."""

from budgets.engine import rules as rules  # fills the register
from budgets.engine.categories import CATEGORIES, label
from budgets.engine.match import cash_needed, match_found, match_needed, may_match
from budgets.engine.model import (
    Counted,
    Expense,
    Fact,
    Fund,
    Match,
    Refusal,
    Rule,
    Share,
    Status,
)
from budgets.engine.money import (
    MoneyError,
    Rounding,
    dollars,
    largest_remainder,
    percent,
    share_ceil,
    share_floor,
    share_half_up,
)
from budgets.engine.registry import RULES, BadRule, UnknownRule, rule_from
from budgets.engine.standing import STANDING, Standing
from budgets.engine.state import (
    CapState,
    FundState,
    LineState,
    fund_state,
    judge_share,
    line_state,
    room,
    unassigned,
)

__all__ = [
    "CATEGORIES",
    "RULES",
    "STANDING",
    "BadRule",
    "CapState",
    "Counted",
    "Expense",
    "Fact",
    "Fund",
    "FundState",
    "LineState",
    "Match",
    "MoneyError",
    "Refusal",
    "Rounding",
    "Rule",
    "Share",
    "Standing",
    "Status",
    "UnknownRule",
    "cash_needed",
    "dollars",
    "fund_state",
    "judge_share",
    "label",
    "largest_remainder",
    "line_state",
    "match_found",
    "match_needed",
    "may_match",
    "percent",
    "room",
    "rule_from",
    "share_ceil",
    "share_floor",
    "share_half_up",
    "unassigned",
]
