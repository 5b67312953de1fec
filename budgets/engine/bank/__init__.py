"""A bank's file read into money spent: any delimiter, any order of columns, exact cents."""

from budgets.engine.bank.cells import BankError, DayOrder, cents_in, day_in
from budgets.engine.bank.columns import Columns, guess
from budgets.engine.bank.entries import Entry, Wrong, entries
from budgets.engine.bank.table import Table, read_table

__all__ = [
    "BankError",
    "Columns",
    "DayOrder",
    "Entry",
    "Table",
    "Wrong",
    "cents_in",
    "day_in",
    "entries",
    "guess",
    "read_table",
]
