"""Network and spreads in, outcome out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from ..board import Board, lay
from ..calendar import Calendar
from ..ends import reaches
from ..errors import NoWorkingTime, UnknownActivity
from ..instants import DAY
from ..joins import join
from ..network import LagClock, Network
from ..passes import forward
from ..table import ALWAYS
from ..zone import zone_named
from .carried import carried, ready
from .elapsed import Elapsed
from .outcome import Outcome
from .ruler import Beyond, Measure, Ruler
from .spread import Spread, lengths
from .walk import CLOCK, Walk
from .weather import Sky, TooWet

SEED = 1_508  # any number: the same draws every time, so that a figure moves only with the plan
MARGIN = 2  # days before the data date, for lags that reach back
MOST_DAYS = 366 * 25  # ahead
MOST_SKY = 40_000_000  # days of weather in all draws: some 8 years of 10,000


def simulate(
    network: Network,
    spreads: Mapping[str, Spread],
    *,
    data_date: int,
    wet_days: Sequence[float] = (),
    draws: int = 10_000,
    seed: int = SEED,
) -> Outcome | None:
    """When everything before the chosen end is ready, in as many draws as asked for.

    `spreads` are by activity key; what has none takes its duration in every draw.
    `wet_days` are the wet days of each month, January first, each up to the days of its
    month; none for dry weather. One seed gives one answer. Calendars, links, lags, key
    dates and progress count as in `solve`, to the minute. Where the end is an event, its
    own date does not count. Raises a ScheduleError; UnknownActivity without a chosen end.
    Durations are drawn from the beta distribution of three points; source: Malcolm,
    Roseboom, Clark and Fazar, Operations Research 7 (1959), 646-669.

    >>> from .. import Activity, Link
    >>> pair = tuple(Activity(key=k, duration=60, calendar="always") for k in ("weld", "walk"))
    >>> whole = Network(activities=pair, links=(Link(key="1", before="weld", after="walk"),),
    ...     calendars={"always": Calendar.always("always")}, project_calendar="always", end="walk")
    >>> found = simulate(whole, {"weld": Spread(low=30, high=90)}, data_date=0, draws=1000)
    >>> 110 < found.ready_with(0.5) < 130, found.carried["weld"]
    (True, 1.0)
    """
    return Simulator(data_date=data_date, wet_days=wet_days, draws=draws, seed=seed).run(
        network, spreads
    )


@dataclass(kw_only=True)
class Simulator:
    """Weather and calendars laid once for several plans, which then share every draw.

    >>> Simulator(data_date=0, draws=100).days
    0
    """

    data_date: int
    wet_days: Sequence[float] = ()
    draws: int = 10_000
    seed: int = SEED
    days: int = 0  # how far ahead everything is laid; grows
    _rulers: dict[int, tuple[Calendar, Ruler]] = field(default_factory=dict)
    _skies: list[Sky] = field(default_factory=list)
    _zones: dict[str | None, Elapsed] = field(default_factory=dict)

    def run(
        self, network: Network, spreads: Mapping[str, Spread], *, trace: bool = True
    ) -> Outcome | None:
        """As `simulate`; what carries the date is left out when `trace` is False.

        Lays everything further as long as some draw needs it.
        """
        while True:
            try:
                return self._outcome(self.walk(network, spreads), trace)
            except Beyond:
                self._look_further(network)

    def walk(self, network: Network, spreads: Mapping[str, Spread]) -> Walk:
        """The dates of every draw, as far as they are laid."""
        board = lay(network, self.data_date)
        join(board)
        if network.end not in board.index:
            raise UnknownActivity(None, network.end or "None")
        walk = self._walk(network, board, spreads)
        walk.run()
        return walk

    def _outcome(self, walk: Walk, trace: bool) -> Outcome | None:
        at = ready(walk, walk.end_row)
        if at is None:
            return None
        keys, shares = walk.board.activities, carried(walk, walk.end_row) if trace else {}
        return Outcome(
            ready=np.broadcast_to(at, (self.draws,)),
            carried={keys[row].key: share for row, share in shares.items()},
        )

    def _walk(self, network: Network, board: Board, spreads: Mapping[str, Spread]) -> Walk:
        end, plain = board.index[network.end or ""], forward(board)
        needed = reaches(board, end)
        self.days = self.days or _guess(plain.finish, needed, self.data_date)
        calendars = [network.calendars[activity.calendar] for activity in board.activities]
        outdoor = {
            row: self._ruler(calendars[row])
            for row, activity in enumerate(board.activities)
            if needed[row] and _stands_still(board, row, spreads.get(activity.key))
        }
        sky = self._sky() if any(self.wet_days) and outdoor else None
        return Walk(
            board=board,
            plain=plain,
            needed=needed,
            end_row=end,
            length=lengths(board, needed, spreads, self.draws, self.seed),
            outdoor=outdoor if sky else {},
            own=[self._measure(c) if n else CLOCK for c, n in zip(calendars, needed, strict=True)],
            project=self._of_project(network),
            elapsed=self._elapsed(network.zone),
            sky=sky,
        )

    @property
    def _first_day(self) -> int:
        return self.data_date // DAY - MARGIN

    def _measure(self, calendar: Calendar) -> Measure:
        return CLOCK if calendar.line(self.data_date) is ALWAYS else self._ruler(calendar)

    def _of_project(self, network: Network) -> Measure:
        """The project's calendar, if any lag is counted on it."""
        counts = any(link.clock is LagClock.PROJECT for link in network.links)
        return self._measure(network.calendars[network.project_calendar]) if counts else CLOCK

    def _ruler(self, calendar: Calendar) -> Ruler:
        kept = self._rulers.get(id(calendar))
        if kept is None:
            ruler = Ruler(calendar, self._first_day, self.days)
            kept = self._rulers[id(calendar)] = calendar, ruler
        return kept[1]

    def _elapsed(self, zone: str | None) -> Elapsed:
        if zone not in self._zones:
            self._zones[zone] = Elapsed(zone_named(zone), self._first_day, self.days)
        return self._zones[zone]

    def _sky(self) -> Sky:
        if not self._skies:
            self._skies.append(
                Sky(self.wet_days, self._first_day, self.days, self.draws, self.seed)
            )
        return self._skies[0]

    def _look_further(self, network: Network) -> None:
        if self._skies and 2 * self.days * self.draws > MOST_SKY:
            raise TooWet
        if self.days > MOST_DAYS:
            raise NoWorkingTime(network.project_calendar)
        self.days *= 2
        self._rulers.clear()
        self._skies.clear()
        self._zones.clear()


def _guess(finish: list[int], needed: list[bool], data_date: int) -> int:
    """Days that most plans need: a half more than planned, and a month."""
    last = max(at for at, row in zip(finish, needed, strict=True) if row)
    return max(0, last - data_date) // DAY * 3 // 2 + 31 + MARGIN


def _stands_still(board: Board, row: int, spread: Spread | None) -> bool:
    """Whether wet days stop the rest of a row."""
    indoors = spread is None or not spread.outdoor
    return not (indoors or row in board.finished or row in board.points or row in board.events)
