"""The chance of a date: many draws of the plan at once, and the classic formulas.

Needs numpy, so nothing else of the engine imports it.
"""

from .outcome import Outcome
from .pert import (
    SpreadOutOfOrder,
    by_chance,
    chance_by,
    chance_of_all,
    critical_path,
    expected,
    score,
    variance,
)
from .simulator import SEED, Simulator, simulate
from .spread import Spread
from .weather import TooWet

__all__ = [
    "SEED",
    "Outcome",
    "Simulator",
    "Spread",
    "SpreadOutOfOrder",
    "TooWet",
    "by_chance",
    "chance_by",
    "chance_of_all",
    "critical_path",
    "expected",
    "score",
    "simulate",
    "variance",
]
