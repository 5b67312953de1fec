"""Put the links on the board and find an order in which every link points forward."""

from .board import Board
from .errors import Cycle, DuplicateLink, SelfLink, UnknownActivity
from .network import LagClock, Link, LinkKind

WORK = LagClock.WORK
# Which point holds which: 0 the start, 1 the finish.
ENDS: dict[LinkKind, tuple[int, int]] = {
    LinkKind.FS: (1, 0),
    LinkKind.SS: (0, 0),
    LinkKind.FF: (1, 1),
    LinkKind.SF: (0, 1),
}


def join(board: Board) -> None:
    """Read the links into the board and order its rows. Raises what the links do wrong."""
    board.into = [[] for _ in board.activities]
    board.out = [[] for _ in board.activities]
    _check_rows(board)
    _check_duplicates(board)
    plain = _plain_lines(board)
    into, out, length = board.into, board.out, board.length
    for number, link in enumerate(board.links):
        row, after = board.first[number], board.second[number]
        lag = link.lag
        if plain[row] == plain[after] and (not lag or link.clock is WORK):
            source, target = ENDS[link.kind]
            into[after].append((2 * row + source, lag - length[after] if target else lag, number))
            out[row].append((2 * after + target, lag + length[row] if source else lag, number))
        else:
            _cross(board, number, link)
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
    seen = {(link.before, link.after, link.kind, link.clock): link.key for link in board.links}
    if len(seen) < len(board.links):
        for link in board.links:
            other = seen[link.before, link.after, link.kind, link.clock]
            if other != link.key:
                raise DuplicateLink((link.key, other))
        raise DuplicateLink((board.links[0].key,))


def _plain_lines(board: Board) -> list[int]:
    """Equal numbers for rows whose links are simple additions."""
    names = {line: number for number, line in enumerate(set(board.own))}
    plain = [names[line] for line in board.own]
    for row, line in enumerate(board.line):
        if line is not board.own[row] or board.started(row):
            plain[row] = -row - 1
    return plain


def _cross(board: Board, number: int, link: Link) -> None:
    """Keep a crossed link on each side where it can still hold something."""
    row, after = board.first[number], board.second[number]
    source = ENDS[link.kind][0]
    met = after in board.finished
    if link.kind is LinkKind.SS and board.started(row) and board.started(after):
        met = True
    if not met:
        board.crossing_into.setdefault(after, []).append(number)
        fixed = row in board.finished or (not source and board.started(row))
        if not fixed:
            board.crossing_out.setdefault(row, []).append(number)


def _order(board: Board) -> list[int]:
    """Rows so that every link leads from an earlier to a later one."""
    following: list[list[int]] = [[] for _ in board.activities]
    waiting = [0] * len(board.activities)
    for row, after in zip(board.first, board.second, strict=True):
        if row == after:
            raise SelfLink(next(k.key for k in board.links if k.before == k.after))
        following[row].append(after)
        waiting[after] += 1
    order = [row for row, count in enumerate(waiting) if not count]
    for row in order:
        for after in following[row]:
            waiting[after] -= 1
            if not waiting[after]:
                order.append(after)
    if len(order) < len(waiting):
        raise Cycle(_loop(board, {row for row, count in enumerate(waiting) if count}))
    return order


def _loop(board: Board, stuck: set[int]) -> tuple[str, ...]:
    """One loop among rows of which each waits for another of them."""
    key = {row: board.activities[row].key for row in stuck}
    before: dict[int, int] = {}
    for row, after in zip(board.first, board.second, strict=True):
        if row in stuck and after in stuck:
            before[after] = min(row, before.get(after, row), key=key.__getitem__)
    row, trail = min(stuck, key=key.__getitem__), dict[int, None]()
    while row not in trail:
        trail[row] = None
        row = before[row]
    loop = list(trail)[list(trail).index(row) :]
    return tuple(key[row] for row in _from_least([*reversed(loop)], key))


def _from_least(loop: list[int], key: dict[int, str]) -> list[int]:
    start = loop.index(min(loop, key=key.__getitem__))
    return loop[start:] + loop[:start]
