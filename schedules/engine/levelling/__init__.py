"""One pair of hands: a plan in which nobody is booked above what they can do at once.

`level` answers order links, finish to start, that part the tasks; the dates are those of
`solve` with these links. `overloads` says where a plan is overbooked, and `broken` holds
any dates against links, key dates, calendars and hands, apart from what made them.
"""

from .answer import Levelled, level
from .checking import Broken, broken, overloads
from .hands import Hands, Overload, TooFewHands
from .order import OrderLink
from .problem import CannotPart

__all__ = [
    "Broken",
    "CannotPart",
    "Hands",
    "Levelled",
    "OrderLink",
    "Overload",
    "TooFewHands",
    "broken",
    "level",
    "overloads",
]
