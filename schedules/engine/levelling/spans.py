"""The working spans of a line, as a model needs them."""

from dataclasses import dataclass

from ..table import Line


@dataclass(frozen=True, slots=True)
class Spans:
    """Instants at which work goes on and stops, and the mark at which each span begins."""

    begin: list[int]
    end: list[int]
    mark: list[int]

    def sizes(self, zero: int) -> list[int]:
        """What a unit must divide."""
        ends = zip(self.begin, self.end, strict=True)
        return [b - zero for b in self.begin] + [e - b for b, e in ends]


def spans_of(line: Line, first: int, last: int) -> Spans:
    """From the instant `first` to beyond `last`; the line must stop work now and then."""
    found, mark = Spans([], [], []), line.mark(first)
    while not found.begin or found.begin[-1] <= last:
        begin = line.begins(mark)
        length = _unbroken(line, mark, begin)
        found.begin.append(begin)
        found.end.append(begin + length)
        found.mark.append(mark)
        mark += length
    return found


def _unbroken(line: Line, mark: int, begin: int) -> int:
    """How many minutes are worked on end from a mark."""
    high = 1
    while line.ends(mark + high) - begin == high and high < 1 << 22:
        high *= 2
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if line.ends(mark + middle) - begin == middle else (low, middle)
    return max(low, 1)
