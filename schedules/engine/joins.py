"""Put the links on the board and find an order in which every link points forward."""

from .board import BackStep, Board, Step
from .crossing import ENDS, FS, WORK, ahead, back
from .errors import Cycle, DuplicateLink, SelfLink, UnknownActivity
from .network import Link, LinkKind


def join(board: Board) -> None:
    """Read the links into the board and order its rows. Raises what the links do wrong."""
    into: list[list[Step]] = [[] for _ in board.activities]
    out: list[list[BackStep]] = [[] for _ in board.activities]
    board.into, board.out = into, out
    _check_rows(board)
    _check_duplicates(board)
    plain, length = _plain_lines(board), board.length
    for number, link in enumerate(board.links):
        row, after, lag = board.first[number], board.second[number], link.lag
        if plain[row] != plain[after] or (lag and link.clock is not WORK):
            _cross(board, number, link)
        elif link.kind is FS:
            into[after].append((2 * row + 1, lag, number))
            out[row].append((2 * after, lag + length[row]))
        else:
            source, target = ENDS[link.kind.value]
            into[after].append((2 * row + source, lag - target * length[after], number))
            out[row].append((2 * after + target, lag + source * length[row]))
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
    if len(set(zip(board.first, board.second, strict=True))) == len(board.links):
        return
    seen: dict[tuple[str, ...], str] = {}
    for link in board.links:
        said = (link.before, link.after, link.kind.value, link.clock.value)
        if said in seen:
            raise DuplicateLink((seen[said], link.key))
        seen[said] = link.key


def _plain_lines(board: Board) -> list[int]:
    """Equal numbers for rows whose links are simple additions."""
    names = {line: number for number, line in enumerate(set(board.own))}
    plain = [names[line] for line in board.own]
    for row, line in enumerate(board.line):
        if line is not board.own[row] or row in board.started:
            plain[row] = -row - 1
    return plain


def _cross(board: Board, number: int, link: Link) -> None:
    """Keep a crossed link on each side where it can still hold something."""
    row, after = board.first[number], board.second[number]
    begun = row in board.started
    met = after in board.finished or (begun and link.kind is LinkKind.SS and after in board.started)
    if met:
        return
    board.crossing_into.setdefault(after, []).append(ahead(board, number))
    if not begun or (row not in board.finished and ENDS[link.kind.value][0]):
        board.crossing_out.setdefault(row, []).append(back(board, number))


def _order(board: Board) -> list[int]:
    """Rows so that every link leads from an earlier to a later one."""
    following: list[list[int]] = [[] for _ in board.activities]
    waiting = [0] * len(board.activities)
    for row, after in zip(board.first, board.second, strict=True):
        following[row].append(after)
        waiting[after] += 1
    order = [row for row, count in enumerate(waiting) if not count]
    for row in order:
        for after in following[row]:
            waiting[after] -= 1
            if not waiting[after]:
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
