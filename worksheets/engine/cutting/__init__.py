"""The cut list of bars: which lengths to buy, and which pieces to cut from each.

Lengths are whole nanometres and money whole cents; see `problem` for the terms, `at_once` for
the first answer and `search` for the longer one.
"""

from worksheets.engine.cutting.bound import lower_bound
from worksheets.engine.cutting.checking import faults
from worksheets.engine.cutting.choosing import fewest_different
from worksheets.engine.cutting.problem import (
    NANOMETRES,
    Cut,
    CuttingError,
    Plan,
    Problem,
    bars,
    bought,
    cost,
    problem,
    useful,
    waste,
    whole,
)
from worksheets.engine.cutting.search import LONGEST, Found, at_once, search

__all__ = [
    "LONGEST", "NANOMETRES", "Cut", "CuttingError", "Found", "Plan", "Problem", "at_once",
    "bars", "bought", "cost", "faults", "fewest_different", "lower_bound", "problem", "search",
    "useful", "waste", "whole",
]  # fmt: skip
