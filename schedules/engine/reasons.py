"""Why an early start is where it is, and the longest path that these reasons form."""

from .board import Board
from .crossing import ahead
from .network import KeyDateRole
from .passes import settle
from .plan import Driver, Reason


class Reasons:
    """Binding links, key dates and data date of every row."""

    def __init__(
        self, board: Board, early: list[int], starts: list[int], finishes: list[int]
    ) -> None:
        self._board, self._early, self._at = board, early, (starts, finishes)
        self._apart = board.points | board.started

    def drivers(self, row: int) -> tuple[Driver, ...]:
        """All that bind, links first; ACTUAL comes before what the remaining work waits for."""
        board, early = self._board, self._early
        mark, links, link = early[2 * row], board.links, Reason.LINK
        if row in self._apart:
            return self._drivers_apart(row)
        found = [
            Driver(link, links[number].key, self._at[point & 1][point >> 1])
            if not links[number].lag
            else Driver(
                link, links[number].key, board.line[row].ends(early[point] + links[number].lag)
            )
            for point, offset, number in board.into[row]
            if early[point] + offset == mark
        ]
        if row in board.crossing_into:
            for number, *_ in board.crossing_into[row]:
                at, bound = board.bounds[number]
                if bound == mark:
                    found.append(Driver(link, links[number].key, at))
        if board.floor[row] == mark:
            found += self._imposed(row)
        return tuple(found)

    def _drivers_apart(self, row: int) -> tuple[Driver, ...]:
        board, found = self._board, list[Driver]()
        if row in board.started:
            found.append(Driver(Reason.ACTUAL, None, self._at[0][row]))
        if row not in board.finished:
            binding = self.binding(row)
            found += [Driver(Reason.LINK, board.links[n].key, self._bound(n)) for n in binding]
            found += self._imposed(row)
        return tuple(found)

    def binding(self, row: int) -> list[int]:
        """The links that hold the row where it is."""
        mark = self._early[2 * row]
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
        return links, max(self._bound(number) for number in links)

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
        board, early = self._board, self._early
        marks = [(number, early[point] + offset) for point, offset, number in board.into[row]]
        crossings = board.crossing_into.get(row, ())
        return marks + [(each.number, board.bounds[each.number][1]) for each in crossings]

    def _bound(self, number: int) -> int:
        board = self._board
        if number in board.bounds:
            return board.bounds[number][0]
        return ahead(board, number).at(self._early)

    def _imposed(self, row: int) -> list[Driver]:
        board, mark = self._board, self._early[2 * row]
        if not self._falls(row, board.floor[row], mark):
            return []
        found: list[Driver] = []
        if self._falls(row, board.line[row].mark(board.data_date), mark):
            found.append(Driver(Reason.DATA_DATE, None, board.data_date))
        for held in () if row in board.started else board.held.get(row, ()):
            binds = self._falls(row, board.line[row].mark(held.at), mark)
            if held.role is not KeyDateRole.NO_LATER and binds:
                found.append(Driver(Reason.KEY_DATE, held.key, held.at))
        return found

    def _falls(self, row: int, bound: int, mark: int) -> bool:
        return mark == (settle(self._board, row, bound) if row in self._board.points else bound)
