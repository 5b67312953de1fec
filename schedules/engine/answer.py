"""The dates of a solved network, made when they are asked for."""

from collections.abc import Iterator, Mapping
from functools import cached_property

from .board import Board, Marks
from .ends import reaches
from .floats import early_starts, floats, independent, late_instants
from .plan import Dates, Plan
from .reasons import Reasons


class Answer(Mapping[str, Dates]):
    """Reads like a dict of Dates; floats and drivers are worked out on first access."""

    def __init__(
        self, board: Board, early: Marks, late: Marks, reasons: Reasons, end: int | None
    ) -> None:
        self._board, self._early, self._late = board, early, late
        self._reasons, self._end = reasons, end
        self._made: dict[str, Dates] = {}
        late_starts, late_finishes = late_instants(board, early, late)
        self._columns = early_starts(board, early), early.finish, late_starts, late_finishes

    def __getitem__(self, key: str) -> Dates:
        found = self._made.get(key)
        if found is None:
            found = self._made[key] = self._make(self._board.index[key])
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._board.index)

    def __len__(self) -> int:
        return len(self._board.index)

    def __repr__(self) -> str:
        return repr(dict(self))

    def times(self) -> dict[str, tuple[int, int, int, int]]:
        """The four dates alone, of every activity."""
        return dict(zip(self._board.index, zip(*self._columns, strict=True), strict=True))

    def _make(self, row: int) -> Dates:
        figures, board = self._figures[row], self._board
        drivers, finished = self._reasons.drivers(row), row in board.finished
        alone = independent(board, self._early, self._late, row, figures[-1])
        return Dates(*figures, drivers, finished, self._to_end[row], alone)

    @cached_property
    def _figures(self) -> list[tuple[int, int, int, int, int, int]]:
        """The four dates and both floats."""
        total, free = floats(self._board, self._early, self._late)
        return list(zip(*self._columns, total, free, strict=True))

    @cached_property
    def _to_end(self) -> list[bool]:
        return reaches(self._board, self._end)


def times(plan: Plan) -> dict[str, tuple[int, int, int, int]]:
    """Early start, early finish, late start and late finish of every activity.

    Cheaper than `plan.dates` when floats and drivers are not wanted.

    >>> times(Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None))
    {}
    """
    if isinstance(plan.dates, Answer):
        return plan.dates.times()
    return {key: dates[:4] for key, dates in plan.dates.items()}
