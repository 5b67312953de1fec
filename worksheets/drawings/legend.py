"""What stands on a drawing beside the things themselves: marks, their words, the scale bar."""

from __future__ import annotations

from worksheets.drawings.labels import LINE, PAD, Box, Placer, around, nearby, wrapped
from worksheets.drawings.scene import Mark
from worksheets.drawings.svg import Canvas, Point

WORD = {"over": "Over", "near": "Close"}
SYMBOL = 7.0
FOOT = 0.3048


class Legend:
    """Findings and names that found no room: each a sign on the drawing and a line below."""

    def __init__(self, canvas: Canvas, placer: Placer, *, named: bool) -> None:
        self.canvas, self.placer, self.named = canvas, placer, named
        self.lines: list[tuple[str, str, str]] = []  # sign, words, kind
        self.letters = self.numbers = 0

    def mark(self, at: Point, standing: str) -> Box:
        """A triangle for over, a diamond for near."""
        x, y = at
        symbol(self.canvas, at, standing)
        here = Box(x - SYMBOL, y - SYMBOL, x + SYMBOL, y + SYMBOL)
        self.placer.take(here)
        return here

    def explain(self, here: Box, mark: Mark, about: Box, also: list[Box]) -> None:
        """What a mark says, near it or below; ``about`` is the thing that is marked."""
        words = f"{WORD[mark.standing]}: {mark.words}"
        if self.named and self.beside(here, about, words, mark.standing, also):
            return
        self.numbers += 1
        self.sign(here, str(self.numbers), mark.standing, also)
        self.lines.append((str(self.numbers), words, mark.standing))

    def beside(self, here: Box, about: Box, words: str, kind: str, also: list[Box]) -> bool:
        """The words near the mark, with a line that leads to them."""
        whole = Box(min(here.left, about.left), here.top, max(here.right, about.right), here.bottom)
        middle = ((here.left + here.right) / 2, (here.top + here.bottom) / 2)
        for most in (230, 160, 120):
            lines = wrapped(words, most)
            places = nearby(whole, lines)
            found = self.placer.words(lines, places, kind, also, toward=middle[0])
            if found:
                lead(self.canvas, middle, here, found)
                return True
        return False

    def name(self, box: Box, words: str, also: list[Box]) -> None:
        """A letter where there was no room for a name."""
        self.letters += 1
        letter = letter_of(self.letters)
        self.sign(box, letter, "strong", also)
        self.lines.append((letter, words, "label"))

    def sign(self, box: Box, sign: str, kind: str, also: list[Box]) -> None:
        places = around(box, [sign])
        if self.placer.words([sign], places, kind, also) is None:
            x, y = places[0]
            self.placer.write([sign], Box(x - PAD, y - PAD, x, y), kind)

    def write(self, top: float, left: float, wide: float) -> float:
        """The lines below the drawing; returns where they end."""
        for sign, words, kind in self.lines:
            self.canvas.text((left, top + 12), sign, kind if kind != "label" else "strong")
            for line in wrapped(words, wide - 24):
                self.canvas.text((left + 22, top + 12), line, kind)
                top += LINE
            top += 3
        return top


def letter_of(number: int) -> str:
    """A, B, ... Z, AA.

    >>> letter_of(1), letter_of(27)
    ('A', 'AA')
    """
    before, last = divmod(number - 1, 26)
    return (letter_of(before) if before else "") + chr(65 + last)


def symbol(canvas: Canvas, at: Point, standing: str) -> None:
    x, y = at
    if standing == "over":
        canvas.polygon([(x, y - SYMBOL), (x + SYMBOL, y + 5), (x - SYMBOL, y + 5)], "over")
    else:
        canvas.polygon([(x, y - SYMBOL), (x + 6, y), (x, y + SYMBOL), (x - 6, y)], "near")


def lead(canvas: Canvas, start: Point, here: Box, words: Box) -> None:
    """A thin line from a mark to words that do not stand right beside it."""
    end = (
        min(max(start[0], words.left), words.right),
        min(max(start[1], words.top), words.bottom),
    )
    if not Box(here.left - 8, here.top - 8, here.right + 8, here.bottom + 8).meets(words):
        canvas.line(start, end, "thin")


def scale_bar(canvas: Canvas, at: Point, scale: float, wide: float) -> float:
    """Feet above, metres below, from one beginning; returns its width."""
    x, y = at
    feet = next((n for n in (20, 10, 5, 2) if n * FOOT * scale <= wide), 1)
    metres = next((n for n in (6, 3, 2, 1) if n * scale <= wide), 0.5)
    rule(canvas, (x, y), feet * FOOT * scale, [f"{n:g}" for n in (0, feet / 2)], f"{feet:g} ft", -1)
    rule(canvas, (x, y + 7), metres * scale, ["", f"{metres / 2:g}"], f"{metres:g} m", 1)
    return max(feet * FOOT, metres) * scale


def rule(canvas: Canvas, at: Point, length: float, inner: list[str], end: str, side: int) -> None:
    """Four fields, dark and light in turn, with words at its beginning, middle and end."""
    x, y = at
    for number in range(4):
        kind = "bar" if number % 2 == 0 else "within"
        canvas.rect((x + length * number / 4, y), length / 4, 5, kind)
    level = y - 4 if side < 0 else y + 16
    for share, words in zip((0.0, 0.5, 1.0), [*inner, end], strict=True):
        if words:
            canvas.text(
                (x + length * share, level), words, "small", anchor="middle" if share else ""
            )
