"""Which start or finish surely comes no later than which other."""

from ..board import Board
from ..crossing import met
from ..network import LinkKind

Point = tuple[int, bool]  # a row, and whether its finish is meant


def points(board: Board) -> dict[Point, list[Point]]:
    """What surely comes no later than what: starts before finishes, and links without a lead."""
    out: dict[Point, list[Point]] = {}
    for row in range(len(board.activities)):
        if row not in board.finished:
            out[row, False] = [(row, True)]
    for number, link in enumerate(board.links):
        row, after = board.first[number], board.second[number]
        from_finish = link.kind in (LinkKind.FS, LinkKind.FF)
        begun = row in board.started and not from_finish
        if met(board, number) or link.lag < 0 or begun or link.kind is LinkKind.SF:
            continue
        out.setdefault((row, from_finish), []).append((after, link.kind is LinkKind.FF))
    return out


def reaches_point(out: dict[Point, list[Point]], first: Point, last: Point) -> bool:
    seen, waiting = {first}, [first]
    while waiting:
        for point in out.get(waiting.pop(), ()):
            if point == last:
                return True
            if point not in seen:
                seen.add(point)
                waiting.append(point)
    return False


def ancestors(board: Board) -> list[set[int]]:
    """All rows that links lead from to each row, whatever they say of dates."""
    found: list[set[int]] = [set() for _ in board.activities]
    for row in board.order:
        for number in board.into[row]:
            before = board.first[number]
            found[row] |= {before} | found[before]
    return found
