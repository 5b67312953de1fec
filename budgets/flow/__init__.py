"""The money that is really there, day by day, on the plan as it stands or as it would be."""

from budgets.flow.asked import AS_AGREED, Asked
from budgets.flow.cash import Cash, Month, cash_of
from budgets.flow.coming import says_how_it_pays
from budgets.flow.ground import Ground, read

__all__ = ["AS_AGREED", "Asked", "Cash", "Ground", "Month", "cash_of", "read", "says_how_it_pays"]
