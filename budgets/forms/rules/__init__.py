"""The form of one rule of a fund: its kind in plain words, and the few fields it has."""

from budgets.forms.rules.form import RuleForm
from budgets.forms.rules.kind import Kind
from budgets.forms.rules.kinds import KINDS, grouped, groups

__all__ = ["KINDS", "Kind", "RuleForm", "grouped", "groups"]
