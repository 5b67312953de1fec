"""What all draws together say."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from math import ceil, sqrt

import numpy as np

from ..instants import DAY
from .spread import Ints


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """When everything before the end is ready, draw by draw.

    `ready` are instants in the order of the draws; `carried` is the share of draws, 0 to 1,
    in which an activity is on a longest path to the end (in several of them at once, if
    they tie).

    >>> found = Outcome(ready=np.array([600, 700, 2000, 900]), carried={})
    >>> found.chance(1000), found.ready_with(0.5)
    (0.75, 700)
    """

    ready: Ints
    carried: Mapping[str, float]

    def chance(self, by: int) -> float:
        """The share of draws that are ready by an instant, 0 to 1."""
        return float(np.count_nonzero(self.ready <= by)) / len(self.ready)

    def error(self, by: int) -> float:
        """The standard error of that share: how far another run of draws may well be off.

        >>> Outcome(ready=np.array([600, 2000] * 50), carried={}).error(1000)
        0.05
        """
        share = self.chance(by)
        return sqrt(share * (1 - share) / len(self.ready))

    def ready_with(self, share: float) -> int:
        """The least instant by which at least this share of draws, above 0 to 1, is ready."""
        return int(self._sorted[ceil(round(share * len(self.ready), 6)) - 1])

    def by_day(self) -> list[tuple[int, float]]:
        """The end of each day from the first ready draw to the last, and the share by then.

        >>> Outcome(ready=np.array([600, 2000]), carried={}).by_day()
        [(1440, 0.5), (2880, 1.0)]
        """
        first, last = (-(-int(self._sorted[place]) // DAY) for place in (0, -1))
        ends = np.arange(first, last + 1) * DAY
        shares = np.searchsorted(self._sorted, ends, side="right") / len(self.ready)
        return list(zip(ends.tolist(), shares.tolist(), strict=True))

    @cached_property
    def _sorted(self) -> Ints:
        return np.sort(self.ready)
