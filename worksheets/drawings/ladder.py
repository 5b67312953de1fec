"""Side view, to scale: a ladder at its landing, and how high the feet of the worker are."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.drawings.svg import Canvas, Point

WIDTH, HEIGHT, MARGIN = 560.0, 420.0, 30.0
FOOT_LINE = 62.0  # room below the ground for its dimensions
PERSON, RAIL = 1.7, 1.07  # m


@dataclass(frozen=True, slots=True, kw_only=True)
class Climb:
    """Lengths in m; words are ready to be shown. No ladder: ``support`` is 0."""

    height: float
    height_words: str
    place: str
    stands: str = ""
    threshold: float | None = None
    threshold_words: str = ""
    support: float = 0.0
    support_words: str = ""
    base: float = 0.0
    base_words: str = ""
    top: float = 0.0
    length_words: str = ""
    extension_words: str = ""
    angle_words: str = ""


def ladder_view(climb: Climb) -> str:
    canvas = Canvas(WIDTH, HEIGHT, "Side view of ladder, landing and height of work, to scale")
    view = View(climb)
    canvas.rect((0, view.floor), WIDTH, HEIGHT - view.floor, "ground")
    canvas.line((0, view.floor), (WIDTH, view.floor))
    if climb.support:
        landing(canvas, view)
        rails(canvas, view)
    worker(canvas, view)
    return canvas.svg()


class View:
    def __init__(self, climb: Climb) -> None:
        self.climb = climb
        tallest = max(climb.top, climb.height + PERSON + 0.3, climb.threshold or 0, 1.0)
        self.floor = HEIGHT - FOOT_LINE
        room = WIDTH * (0.42 if climb.support else 0.6)
        self.scale = min((self.floor - MARGIN) / tallest, room / max(climb.base * 1.6, 1.0))
        self.edge = 84 + climb.base * self.scale if climb.support else 0.0

    def y(self, metres: float) -> float:
        return self.floor - metres * self.scale

    def out(self, metres: float) -> float:
        """Horizontally, out from the landing’s edge."""
        return self.edge - metres * self.scale


def landing(canvas: Canvas, view: View) -> None:
    climb = view.climb
    top = view.y(climb.support)
    canvas.rect((view.edge, top), 96, view.floor - top, "wall")
    canvas.text((view.edge + 48, top + 16), "Landing", "small", anchor="middle")
    at = view.edge + 84
    canvas.dimension((at, view.floor), (at, top), climb.support_words)


def rails(canvas: Canvas, view: View) -> None:
    climb = view.climb
    foot: Point = (view.out(climb.base), view.floor)
    past = climb.base * (climb.top - climb.support) / climb.support
    head: Point = (view.out(-past), view.y(climb.top))
    canvas.line(foot, head, "load")
    rungs = max(2, int(climb.top / 0.3))
    for step in range(1, rungs):
        share = step / rungs
        x, y = (foot[n] + (head[n] - foot[n]) * share for n in (0, 1))
        canvas.line((x - 3, y), (x + 3, y), "thin")
    under = view.floor + 24
    canvas.dimension((foot[0], under), (view.edge, under), "")
    middle = ((foot[0] + view.edge) / 2, under + 18)
    canvas.text(middle, f"Foot out {climb.base_words}", "dim-label", anchor="middle")
    if climb.top > climb.support:
        at = head[0] + 22
        canvas.dimension((at, view.y(climb.support)), (at, head[1]), "")
        canvas.text((at + 10, (view.y(climb.support) + head[1]) / 2 + 4),
                    f"Rails {climb.extension_words} above", "dim-label")  # fmt: skip
    along = (foot[0] + (view.edge - foot[0]) * 0.5, view.y(climb.support / 2))
    canvas.text((along[0] - 12, along[1]), climb.length_words, "dim-label", anchor="middle",
                turn=-75.5)  # fmt: skip
    canvas.text((foot[0] - 10, view.floor - 8), climb.angle_words, "small", anchor="end")


def worker(canvas: Canvas, view: View) -> None:
    """A person at the height of work, and the height from which a clause asks for protection."""
    climb = view.climb
    middle = WIDTH * (0.76 if climb.support else 0.5)
    feet = view.y(climb.height)
    if climb.height > 0:
        STANDS.get(climb.stands, on_legs)(canvas, view, middle, feet)
        right = middle + 78
        canvas.dimension((right, view.floor), (right, feet), climb.height_words)
    if climb.threshold is not None and climb.threshold > 0:
        at = view.y(climb.threshold)
        canvas.line((middle - 128, at), (middle + 130, at), "dashed")
        start, _, end = climb.threshold_words.partition("; ")
        canvas.text((middle - 60, at - 17), start, "small", anchor="end")
        canvas.text((middle - 60, at - 5), end, "small", anchor="end")
    person(canvas, (middle, feet), view.scale)
    canvas.text((middle, view.floor + 18), climb.place, "label", anchor="middle")


def on_legs(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    canvas.rect((middle - 56, feet), 112, 5, "part")
    for at in (middle - 48, middle + 48):
        canvas.line((at, feet + 5), (at, view.floor), "thin")


def on_ladder(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    if not view.climb.support:
        canvas.line((middle - 26, view.floor), (middle + 4, feet), "load")
    canvas.line((middle - 14, feet), (middle + 14, feet), "line")


def on_block(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    canvas.rect((middle - 56, feet), 112, view.floor - feet, "wall")


def on_boom(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    basket(canvas, view, middle, feet)
    canvas.rect((middle - 110, view.floor - 16), 60, 16, "part")
    canvas.line((middle - 80, view.floor - 16), (middle - 22, feet + 4), "line")


def on_scissor(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    basket(canvas, view, middle, feet)
    base = view.floor - 10
    canvas.rect((middle - 26, base), 52, 10, "part")
    folds = max(1, round(view.climb.height / 1.5))
    step = (base - feet - 5) / folds
    for fold in range(folds):
        low = base - fold * step
        canvas.line((middle - 20, low), (middle + 20, low - step), "thin")
        canvas.line((middle + 20, low), (middle - 20, low - step), "thin")


def on_hook(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    basket(canvas, view, middle, feet)
    rail = feet - RAIL * view.scale
    for side in (-22, 22):
        canvas.line((middle + side, rail), (middle, 12), "thin")
    canvas.line((middle, 12), (middle, 0), "line")


def basket(canvas: Canvas, view: View, middle: float, feet: float) -> None:
    """Floor and rails round the person."""
    rail = RAIL * view.scale
    canvas.rect((middle - 22, feet), 44, 5, "part")
    for at in (middle - 22, middle + 22):
        canvas.line((at, feet), (at, feet - rail), "thin")
    canvas.line((middle - 22, feet - rail), (middle + 22, feet - rail), "thin")


STANDS = {
    "ladder": on_ladder,
    "edge": on_block,
    "boom": on_boom,
    "scissor": on_scissor,
    "hoisted": on_hook,
}


def person(canvas: Canvas, feet: Point, scale: float) -> None:
    x, y = feet
    tall = PERSON * scale
    canvas.circle((x, y - tall * 0.92), tall * 0.075, "person")
    canvas.line((x, y - tall * 0.84), (x, y - tall * 0.45), "person")
    canvas.line((x, y - tall * 0.45), (x - tall * 0.1, y), "person")
    canvas.line((x, y - tall * 0.45), (x + tall * 0.1, y), "person")
    canvas.line((x, y - tall * 0.76), (x + tall * 0.22, y - tall * 0.62), "person")
