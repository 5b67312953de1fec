"""Why an early start is where it is, and the longest path that these reasons form."""

from .board import Board
from .crossing import bound
from .network import KeyDateRole
from .passes import settle
from .plan import Driver, Reason


class Reasons:
    """Binding links, key dates and data date of every row."""

    def __init__(
        self, board: Board, early: list[int], starts: list[int], finishes: list[int]
    ) -> None:
        self._board, self._early = board, early
        self._starts, self._finishes = starts, finishes

    def drivers(self, row: int) -> tuple[Driver, ...]:
        """All that bind, links first; ACTUAL comes before what the remaining work waits for."""
        board = self._board
        found: list[Driver] = []
        if row in board.finished or board.activities[row].actual_start is not None:
            found.append(Driver(Reason.ACTUAL, None, self._starts[row]))
        if row in board.finished:
            return tuple(found)
        links = board.links
        found += [Driver(Reason.LINK, links[n].key, self._link_bound(n)) for n in self.binding(row)]
        return tuple(found + self._imposed(row))

    def binding(self, row: int) -> list[int]:
        """The links that hold the row where it is."""
        board, early = self._board, self._early
        mark = early[2 * row]
        if row in board.points:
            marks = self._link_marks(row)
            return [number for number, value in marks if settle(board, row, value) == mark]
        found = [
            number for point, offset, number in board.into[row] if early[point] + offset == mark
        ]
        if row in board.crossing_into:
            crossing = board.crossing_into[row]
            found += [number for number in crossing if board.bounds[number][1] == mark]
        return found

    def latest(self, row: int) -> tuple[list[int], int | None]:
        """The links that bind most, whether or not a date binds more, and their bound."""
        marks = self._link_marks(row)
        if not marks or row in self._board.finished:
            return [], None
        most = max(mark for _, mark in marks)
        links = [number for number, mark in marks if mark == most]
        return links, max(self._link_bound(number) for number in links)

    def chain(self, row: int, *, through_event: bool) -> tuple[list[int], list[int]]:
        """Rows and links of the longest path into a row, first to last."""
        key = self._board.activities
        rows, links = [row], list[int]()
        binding = self.latest(row)[0] if through_event else self.binding(row)
        while binding and row not in self._board.finished:
            number = min(
                binding, key=lambda n: (key[self._board.first[n]].key, self._board.links[n].key)
            )
            row = self._board.first[number]
            rows.append(row)
            links.append(number)
            binding = self.binding(row)
        return rows[::-1], links[::-1]

    def _link_marks(self, row: int) -> list[tuple[int, int]]:
        board = self._board
        marks = [(number, self._early[point] + offset) for point, offset, number in board.into[row]]
        return marks + [(n, board.bounds[n][1]) for n in board.crossing_into.get(row, ())]

    def _link_bound(self, number: int) -> int:
        board = self._board
        if number in board.bounds:
            return board.bounds[number][0]
        return bound(board, number, self._early)[0]

    def _imposed(self, row: int) -> list[Driver]:
        board, mark = self._board, self._early[2 * row]
        if not self._falls(row, board.floor[row], mark):
            return []
        found: list[Driver] = []
        if self._falls(row, board.line[row].mark(board.data_date), mark):
            found.append(Driver(Reason.DATA_DATE, None, board.data_date))
        for held in () if board.started(row) else board.held.get(row, ()):
            binds = self._falls(row, board.line[row].mark(held.at), mark)
            if held.role is not KeyDateRole.NO_LATER and binds:
                found.append(Driver(Reason.KEY_DATE, held.key, held.at))
        return found

    def _falls(self, row: int, bound: int, mark: int) -> bool:
        return mark == (settle(self._board, row, bound) if row in self._board.points else bound)
