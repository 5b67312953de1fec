"""Why an early start is where it is, and the longest path that these reasons form."""

from .board import Board, Marks
from .crossing import ahead, crosses, met, reached
from .network import KeyDateRole
from .passes import settle
from .plan import Driver, Reason


class Reasons:
    """Binding links, key dates and data date of every row."""

    __slots__ = ("_apart", "_board", "_early", "_least")

    def __init__(self, board: Board, early: Marks) -> None:
        self._board, self._early = board, early
        self._apart = board.points | board.started | board.held.keys()
        self._least = {line: line.mark(board.data_date) for line in set(board.line)}

    def drivers(self, row: int) -> tuple[Driver, ...]:
        """All that bind, links first; ACTUAL comes before what the remaining work waits for."""
        board, early, link = self._board, self._early, Reason.LINK
        found = [
            Driver(link, board.links[number].key, reached(board, early, number))
            for number in self.binding(row)
        ]
        if row in self._apart:
            return (*self._actual(row), *found, *self._imposed(row))
        if self._least[board.line[row]] == early.mark[row]:
            found.append(Driver(Reason.DATA_DATE, None, board.data_date))
        return tuple(found)

    def binding(self, row: int) -> list[int]:
        """The links that hold the row where it is, those that cross lines last."""
        board, early = self._board, self._early
        mark, numbers = early.mark[row], board.into[row]
        if row in board.finished or not numbers:
            return []
        if row in board.points:
            holds = [n for n, bound in self._bounds(row) if settle(board, row, bound) == mark]
        else:
            holds = [number for number in numbers if ahead(board, early, number) == mark]
        if len(holds) > 1:
            holds.sort(key=lambda number: crosses(board, number))
        return holds

    def latest(self, row: int) -> tuple[list[int], int | None]:
        """The links that are met last, whether or not a date binds more, and when."""
        board = self._board
        if row in board.finished:
            return [], None
        holding = [number for number in board.into[row] if not met(board, number)]
        met_at = {number: reached(board, self._early, number) for number in holding}
        last = max(met_at.values(), default=None)
        return [number for number, at in met_at.items() if at == last], last

    def chain(self, row: int, *, through_event: bool) -> tuple[list[int], list[int]]:
        """Rows and links of the longest path into a row, first to last."""
        board = self._board
        rows, numbers = [row], list[int]()
        binding = self.latest(row)[0] if through_event else self.binding(row)
        while binding:
            number = min(binding, key=lambda n: (board.links[n].before, board.links[n].key))
            row = board.first[number]
            rows.append(row)
            numbers.append(number)
            binding = self.binding(row)
        return rows[::-1], numbers[::-1]

    def _bounds(self, row: int) -> list[tuple[int, int]]:
        """The links that hold something of a row, with their bounds on its start mark."""
        board = self._board
        holding = [number for number in board.into[row] if not met(board, number)]
        return [(number, ahead(board, self._early, number)) for number in holding]

    def _actual(self, row: int) -> list[Driver]:
        if row not in self._board.started:
            return []
        actual = self._board.activities[row].actual_start
        at = self._early.start[row] if actual is None else actual
        return [Driver(Reason.ACTUAL, None, at)]

    def _imposed(self, row: int) -> list[Driver]:
        board, found = self._board, list[Driver]()
        if row in board.finished or not self._falls(row, board.ready[row]):
            return found
        if self._falls(row, board.data_date):
            found.append(Driver(Reason.DATA_DATE, None, board.data_date))
        for held in () if row in board.started else board.held.get(row, ()):
            if held.role is not KeyDateRole.NO_LATER and self._falls(row, held.at):
                found.append(Driver(Reason.KEY_DATE, held.key, held.at))
        return found

    def _falls(self, row: int, at: int) -> bool:
        """Whether the row starts where the instant alone would put it."""
        board = self._board
        mark = settle(board, row, at) if row in board.points else board.line[row].mark(at)
        return mark == self._early.mark[row]
