"""Panels on a bolt: gather them into blocks of one row each, then lay the blocks in the strip.

A block of panels head to tail is a rectangle, so blocks of several sizes can share the width.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from worksheets.engine.packing.exact import SECONDS, shortest
from worksheets.engine.packing.pieces import CLOSE, Layout, Placed, Rectangle, faults
from worksheets.engine.packing.rows import most_in_a_row, row_width
from worksheets.engine.packing.skyline import fill_gaps

Point = tuple[float, float]
Told = Callable[[float, "Plan"], bool]
MANY = 120  # blocks; beyond that only whole rows are laid
FEW = 60  # blocks; beyond that the exact search is not tried
UNIT = 1e-4  # m


@dataclass(frozen=True, slots=True)
class Shape:
    """A trapezoid to cut ``count`` times; sizes in m, its height along the bolt."""

    top: float
    bottom: float
    height: float
    count: int

    @property
    def width(self) -> float:
        return max(self.top, self.bottom)

    @property
    def area(self) -> float:
        return (self.top + self.bottom) / 2 * self.height


@dataclass(frozen=True, slots=True)
class Block:
    """``count`` panels of one shape side by side."""

    shape: int
    count: int


@dataclass(frozen=True, slots=True)
class Laid:
    """One panel on the bolt; its corners in m, x across and y along."""

    shape: int
    corners: tuple[Point, ...]
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """``proven``: these panels in these blocks cannot lie shorter. ``bound`` holds for any plan."""

    shapes: tuple[Shape, ...]
    blocks: tuple[Block, ...]
    layout: Layout
    turned: bool

    @property
    def length(self) -> float:
        return self.layout.length

    @property
    def strip(self) -> float:
        return self.layout.strip

    @property
    def bound(self) -> float:
        """By the area of the panels, by the tallest, and by those wider than half the strip."""
        area = sum(each.area * each.count for each in self.shapes) / self.strip
        return max(area, max(each.height for each in self.shapes))

    @property
    def shortest(self) -> bool:
        """No plan at all is shorter."""
        return self.length <= self.bound * (1 + CLOSE)

    @property
    def used(self) -> float:
        """Share of the cloth that becomes panels."""
        area = sum(each.area * each.count for each in self.shapes)
        return area / (self.strip * self.length)

    @property
    def spare(self) -> float:
        """Width in m left beside the widest row."""
        ends = (x for laid in self.panels() for x, _ in laid.corners)
        return self.strip - max(ends)

    def panels(self) -> Iterator[Laid]:
        """Every panel, in the order in which it lies along the bolt."""
        for at in sorted(self.layout.placed, key=lambda at: (at.y, at.x)):
            block = self.blocks[at.piece]
            shape = self.shapes[block.shape]
            step = (shape.top + shape.bottom) / 2 if self.turned else shape.width
            for number in range(block.count):
                upside = self.turned and number % 2 == 1
                yield Laid(
                    block.shape, corners(shape, at.x + number * step, at.y, turned=upside), upside
                )

    def keep(self) -> dict[str, Any]:
        """As plain data, for ``kept_plan``."""
        order = sorted(self.layout.placed, key=lambda at: at.piece)
        return {
            "blocks": [[block.shape, block.count] for block in self.blocks],
            "at": [[at.x, at.y] for at in order],
            "proven": self.layout.proven,
        }


def corners(shape: Shape, x: float, y: float, *, turned: bool) -> tuple[Point, ...]:
    """Corners of a panel in the box that starts at x and y; the lower edge comes first.

    >>> corners(Shape(2.0, 4.0, 3.0, 1), 0.0, 0.0, turned=True)
    ((1.0, 0.0), (3.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    """
    near, far = (shape.top, shape.bottom) if turned else (shape.bottom, shape.top)
    middle = x + shape.width / 2
    return (
        (middle - near / 2, y),
        (middle + near / 2, y),
        (middle + far / 2, y + shape.height),
        (middle - far / 2, y + shape.height),
    )


def rectangle(shapes: Sequence[Shape], block: Block, turned: bool) -> Rectangle:
    shape = shapes[block.shape]
    width = row_width(shape.top, shape.bottom, block.count, turned=turned and block.count > 1)
    return Rectangle(width, shape.height)


def gathered(shapes: Sequence[Shape], strip: float, *, turned: bool) -> list[tuple[Block, ...]]:
    """Ways to gather the panels: in full rows, in pairs head to tail, and one by one."""
    most = [most_in_a_row(each.top, each.bottom, strip, turned=turned) for each in shapes]
    ways = [_by(shapes, most)]
    for size in (2, 1) if turned else (1,):
        way = _by(shapes, [min(size, number) for number in most])
        if way not in ways and len(way) <= MANY:
            ways.append(way)
    return ways


def _by(shapes: Sequence[Shape], sizes: Sequence[int]) -> tuple[Block, ...]:
    found: list[Block] = []
    for at, (shape, size) in enumerate(zip(shapes, sizes, strict=True)):
        full, rest = divmod(shape.count, max(1, size))
        found += [Block(at, max(1, size))] * full + ([Block(at, rest)] if rest else [])
    return tuple(found)


def lay(shapes: Sequence[Shape], strip: float, *, turned: bool) -> Plan:
    """A good plan at once. ``turned`` allows head to tail; forbid it where the cloth has a nap.

    Raises TooWide where a panel is wider than the strip.

    >>> lay([Shape(18, 30, 36, 8)], 54, turned=True).length
    144.0
    """
    found = [
        _plan(shapes, way, fill_gaps([rectangle(shapes, b, turned) for b in way], strip), turned)
        for way in gathered(shapes, strip, turned=turned)
    ]
    return min(found, key=lambda plan: plan.length)


def _plan(shapes: Sequence[Shape], blocks: tuple[Block, ...], layout: Layout, turned: bool) -> Plan:
    return Plan(shapes=tuple(shapes), blocks=blocks, layout=layout, turned=turned)


def improve(
    plan: Plan, *, seconds: float = SECONDS, tell: Told | None = None, unit: float = UNIT
) -> Plan:
    """Search for a shorter plan, each way to gather in its share of the time.

    ``tell`` hears the share of the time gone and the best plan, and stops it by answering False.
    """
    ways = gathered(plan.shapes, plan.strip, turned=plan.turned)
    ways = [way for way in ways if len(way) <= FEW]
    best, stopped = plan, False
    for number, way in enumerate(ways):
        if stopped or best.shortest:
            break

        def told(share: float, layout: Layout, way: Any = way, number: int = number) -> bool:
            nonlocal best, stopped
            best = _better(best, _plan(best.shapes, way, layout, best.turned))
            stopped = tell is not None and not tell((number + share) / len(ways), best)
            return not stopped

        pieces = [rectangle(plan.shapes, block, plan.turned) for block in way]
        found = shortest(pieces, plan.strip, unit=unit, seconds=seconds / len(ways), tell=told)
        best = _better(best, _plan(best.shapes, way, found, best.turned))
        stopped = stopped or (tell is not None and not tell((number + 1) / len(ways), best))
    return best


def _better(best: Plan, found: Plan) -> Plan:
    """The shorter; of equal ones the proven."""
    gain = best.length - found.length
    if gain > CLOSE * best.length:
        return found
    proves = found.layout.proven and not best.layout.proven
    return found if proves and abs(gain) <= CLOSE * best.length else best


def kept_plan(
    kept: Mapping[str, Any], shapes: Sequence[Shape], strip: float, *, turned: bool
) -> Plan | None:
    """A plan kept earlier, if it still fits these panels."""
    try:
        blocks = tuple(Block(int(shape), int(count)) for shape, count in kept["blocks"])
        placed = tuple(Placed(n, float(x), float(y)) for n, (x, y) in enumerate(kept["at"]))
        pieces = [rectangle(shapes, block, turned) for block in blocks]
        proven = bool(kept["proven"])
    except (KeyError, IndexError, TypeError, ValueError):
        return None
    counts = [sum(b.count for b in blocks if b.shape == at) for at in range(len(shapes))]
    if counts != [shape.count for shape in shapes] or len(placed) != len(pieces):
        return None
    length = max(at.y + pieces[at.piece].height for at in placed)
    layout = Layout(strip=strip, placed=placed, length=length, bound=0.0, proven=proven)
    return None if any(faults(layout, pieces)) else _plan(shapes, blocks, layout, turned)
