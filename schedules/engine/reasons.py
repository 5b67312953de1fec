"""Why an early start is where it is, and the longest path that these reasons form."""

from .board import Board, Marks
from .crossing import ahead, crosses, met, reached
from .network import KeyDateRole
from .passes import settle
from .plan import Driver, Reason


class Reasons:
    """Binding links, key dates and data date of every row."""

    __slots__ = ("_board", "_early")

    def __init__(self, board: Board, early: Marks) -> None:
        self._board, self._early = board, early

    def drivers(self, row: int) -> tuple[Driver, ...]:
        """All that bind, links first; ACTUAL comes before what the remaining work waits for."""
        board, early, found = self._board, self._early, list[Driver]()
        if row in board.started:
            actual = board.activities[row].actual_start
            at = early.start[row] if actual is None else actual
            found.append(Driver(Reason.ACTUAL, None, at))
        if row not in board.finished:
            for number in self.binding(row):
                at = reached(board, early, number)
                found.append(Driver(Reason.LINK, board.links[number].key, at))
            found += self._imposed(row)
        return tuple(found)

    def binding(self, row: int) -> list[int]:
        """The links that hold the row where it is."""
        mark = self._early.mark[row]
        if row in self._board.finished:
            return []
        return [number for number, value in self._marks(row) if self._falls(row, value, mark)]

    def latest(self, row: int) -> tuple[list[int], int | None]:
        """The links that bind most, whether or not a date binds more, and their bound."""
        marks = self._marks(row)
        if not marks or row in self._board.finished:
            return [], None
        most = max(mark for _, mark in marks)
        links = [number for number, mark in marks if mark == most]
        return links, max(reached(self._board, self._early, number) for number in links)

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

    def _marks(self, row: int) -> list[tuple[int, int]]:
        """The links that hold a row, those that cross lines last, and their bounds."""
        board, early = self._board, self._early
        holding = [number for number in board.into[row] if not met(board, number)]
        holding.sort(key=lambda number: crosses(board, number))
        return [(number, ahead(board, early, number)) for number in holding]

    def _imposed(self, row: int) -> list[Driver]:
        board, mark, line = self._board, self._early.mark[row], self._board.line[row]
        found: list[Driver] = []
        if self._falls(row, line.mark(board.data_date), mark):
            found.append(Driver(Reason.DATA_DATE, None, board.data_date))
        for held in () if row in board.started else board.held.get(row, ()):
            binds = self._falls(row, line.mark(held.at), mark)
            if held.role is not KeyDateRole.NO_LATER and binds:
                found.append(Driver(Reason.KEY_DATE, held.key, held.at))
        return found

    def _falls(self, row: int, bound: int, mark: int) -> bool:
        return mark == (settle(self._board, row, bound) if row in self._board.points else bound)
