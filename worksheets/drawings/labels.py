"""Words that do not collide: each takes the first free place, else a number and a line below."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from worksheets.drawings.svg import Canvas

SIZE, LINE, EM = 12.0, 15.0, 0.56  # height, line, and width of a letter as a share of its height
PAD = 3.0


@dataclass(frozen=True, slots=True)
class Box:
    """Left, top, right and bottom, in drawing units."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


def text_width(words: str, size: float = SIZE) -> float:
    """About as wide as the words will be; on the wide side."""
    return len(words) * size * EM


@dataclass
class Placer:
    """Keeps what is taken on the canvas. ``room`` is where words may stand."""

    canvas: Canvas
    room: Box
    taken: list[Box] = field(default_factory=list)

    def take(self, box: Box) -> None:
        self.taken.append(box)

    def free(self, box: Box, also: Iterable[Box] = ()) -> bool:
        return box.within(self.room) and not any(box.meets(b) for b in [*self.taken, *also])

    def words(
        self,
        lines: list[str],
        places: Iterable[tuple[float, float]],
        kind: str,
        also: Iterable[Box] = (),
        *,
        toward: float | None = None,
        over: Box | None = None,
    ) -> Box | None:
        """Write the lines with their top left corner at the first free place, if there is one;
        ``also`` are places that only these words must keep off, ``toward`` is where a mark
        stands that all of them belong to; words that stand ``over`` a thing get a ground."""
        kept = list(also)
        wide = max(text_width(line) for line in lines)
        for left, top in places:
            box = Box(left - PAD, top - PAD, left + wide + PAD, top + len(lines) * LINE + PAD)
            if self.free(box, kept):
                if over is not None and box.meets(over):
                    self.canvas.rect((left - 1, top), wide + 2, len(lines) * LINE, "paper")
                self.write(lines, box, kind, toward)
                self.take(box)
                return box
        return None

    def write(self, lines: list[str], box: Box, kind: str, toward: float | None = None) -> None:
        """Words left of what they belong to end there."""
        ends = toward is not None and box.right < toward
        x, anchor = (box.right - PAD, "end") if ends else (box.left + PAD, "")
        for number, line in enumerate(lines):
            style = kind if toward is not None or number == 0 else f"{kind} small".strip()
            at = (x, box.top + PAD + SIZE + number * LINE)
            self.canvas.text(at, line, style, anchor=anchor)


def around(box: Box, lines: list[str]) -> list[tuple[float, float]]:
    """Places for a label: inside, above, right, left, below, then further out."""
    wide = max(text_width(line) for line in lines)
    tall = len(lines) * LINE
    middle, level = (box.left + box.right - wide) / 2, (box.top + box.bottom - tall) / 2
    found = []
    if box.right - box.left >= wide + 2 * PAD and box.bottom - box.top >= tall + 2 * PAD:
        found += [(middle, level), (middle, box.top + PAD), (middle, box.bottom - tall - PAD)]
        found += [(box.left + PAD * 2, box.top + PAD), (box.right - wide - 2 * PAD, box.top + PAD)]
        found += [(box.left + PAD * 2, level), (box.right - wide - 2 * PAD, level)]
    found += [(middle, box.top - tall - PAD), (box.right + 8, level), (box.left - wide - 8, level)]
    above = box.top - tall - PAD
    found += [(box.left, above), (box.right - wide, above)]
    found += [(middle, box.bottom + PAD), (box.right + 8, box.top), (box.left - wide - 8, box.top)]
    return found + [(middle, box.top - tall - PAD - step) for step in (14, 28, 42)]


def nearby(box: Box, lines: list[str]) -> list[tuple[float, float]]:
    """Places further and further off on either side, for words with a line that leads to them."""
    wide, tall = max(text_width(line) for line in lines), len(lines) * LINE
    level = (box.top + box.bottom - tall) / 2
    sides = (box.right + 14, box.left - wide - 14)
    steps = [0.0] + [sign * step for step in (20, 40, 60, 85, 110) for sign in (-1, 1)]
    found = [(x, level + step) for step in steps for x in sides]
    return found + [(x + shift, level + step) for step in steps for x, shift in
                    ((sides[0], 40), (sides[1], -40))]  # fmt: skip


def wrapped(words: str, wide: float, size: float = SIZE) -> list[str]:
    """Lines that are no wider than ``wide``, broken between words."""
    most = max(8, int(wide / (size * EM)))
    lines = [""]
    for word in words.split(" "):  # what a fixed space holds together stays so
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) <= most or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
