"""Between the rows and the money engine: a fixed number of queries, then pure values.

The only package that knows both worlds. Nothing of what it answers is stored.
"""

from budgets.fit.books import Books, funds_of, lines_of, read, symbol_of
from budgets.fit.judging import Answer, answer, answers, judged
from budgets.fit.lines import COMMITTED, line_states, still_to_pay
from budgets.fit.locks import Locks, read_locks
from budgets.fit.values import (
    MATCH,
    expense_value,
    fund_value,
    match_value,
    rule_value,
)

__all__ = [
    "COMMITTED",
    "MATCH",
    "Answer",
    "Books",
    "Locks",
    "answer",
    "answers",
    "expense_value",
    "fund_value",
    "funds_of",
    "judged",
    "line_states",
    "lines_of",
    "match_value",
    "read",
    "read_locks",
    "rule_value",
    "still_to_pay",
    "symbol_of",
]
