"""Put the links on the board and find an order in which every link points forward."""

from .board import Board
from .crossing import FS, step
from .errors import Cycle, DuplicateLink, SelfLink, UnknownActivity


def join(board: Board) -> None:
    """Read the links into the board and order its rows. Raises what the links do wrong."""
    _check_rows(board)
    _check_duplicates(board)
    into: list[list[int]] = [[] for _ in board.activities]
    out: list[list[int]] = [[] for _ in board.activities]
    board.into, board.out = into, out
    overtaken = board.finished | board.ahead
    ends = zip(board.links, board.first, board.second, strict=True)
    for number, (link, row, after) in enumerate(ends):
        into[after].append(number)
        if link.lag or link.kind is not FS or after in overtaken:
            board.other_out.setdefault(row, []).append(number)
            board.other_into.setdefault(after, []).append(number)
            board.step[number] = step(board, number)
        else:
            out[row].append(after)
    board.order = _order(board)


def _check_rows(board: Board) -> None:
    index = board.index
    try:
        board.first = [index[link.before] for link in board.links]
        board.second = [index[link.after] for link in board.links]
    except KeyError:
        link, key = next((k, a) for k in board.links for a in (k.before, k.after) if a not in index)
        raise UnknownActivity(link.key, key) from None


def _check_duplicates(board: Board) -> None:
    size, ends = len(board.activities), zip(board.first, board.second, strict=True)
    if len({row * size + after for row, after in ends}) == len(board.links):
        return
    seen: dict[tuple[str, ...], str] = {}
    for link in board.links:
        said = (link.before, link.after, link.kind.value, link.clock.value)
        if said in seen:
            raise DuplicateLink((seen[said], link.key))
        seen[said] = link.key


def _order(board: Board) -> list[int]:
    """Rows so that every link leads from an earlier to a later one."""
    waiting = [len(numbers) for numbers in board.into]
    order = [row for row, count in enumerate(waiting) if not count]
    out, others, second = board.out, board.other_out, board.second
    for row in order:
        following = out[row]
        if row in others:
            following = following + [second[number] for number in others[row]]
        for after in following:
            left = waiting[after] = waiting[after] - 1
            if not left:
                order.append(after)
    if len(order) < len(waiting):
        raise _tangle(board, {row for row, count in enumerate(waiting) if count})
    return order


def _tangle(board: Board, stuck: set[int]) -> SelfLink | Cycle:
    for link in board.links:
        if link.before == link.after:
            return SelfLink(link.key)
    return Cycle(_loop(board, stuck))


def _loop(board: Board, stuck: set[int]) -> tuple[str, ...]:
    """One loop among rows of which each waits for another of them, least key first."""
    key = {row: board.activities[row].key for row in stuck}
    before: dict[int, int] = {}
    for row, after in zip(board.first, board.second, strict=True):
        if row in stuck and after in stuck:
            before[after] = min(row, before.get(after, row), key=key.__getitem__)
    row, trail = min(stuck, key=key.__getitem__), list[int]()
    while row not in trail:
        trail.append(row)
        row = before[row]
    loop = [key[row] for row in reversed(trail[trail.index(row) :])]
    least = loop.index(min(loop))
    return tuple(loop[least:] + loop[:least])
