"""The wall from the front, to scale: parts, heights, people, and what was found of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from worksheets.drawings import people
from worksheets.drawings.dims import rise
from worksheets.drawings.labels import LINE, Box, Placer, around, text_width
from worksheets.drawings.legend import Legend, lead, scale_bar
from worksheets.drawings.scene import Mark, Piece, Reach, Scene, placed, scale_that_fits
from worksheets.drawings.shapes import shape, with_leaves
from worksheets.drawings.svg import Canvas, Point

BEHIND = ("mural", "painted")
APART = 0.4  # m between people, and from the wall
SHARES = (0.02, 0.3, 0.55, 0.7)


@dataclass(frozen=True, slots=True)
class Layout:
    """How large the drawing may be; ``named`` writes names on it, else letters and a list."""

    width: float
    height: float
    left: float
    right: float
    named: bool


WIDE = Layout(900.0, 560.0, 66.0, 44.0, True)  # a wide page, at the scale it names
NARROW = Layout(344.0, 420.0, 40.0, 6.0, False)  # a phone
TOP, ROW, FOOT = 16.0, 26.0, 46.0


class View:
    """Where a point of the elevation lies on the canvas."""

    def __init__(self, scene: Scene, layout: Layout) -> None:
        self.scene, self.layout = scene, layout
        self.wide, self.tall = scene.size
        self.beside = sum(people.WIDTH[who.who] + APART for who in scene.people) + APART
        self.high = max(self.tall, 2.2)
        room = (layout.width - layout.left - layout.right, layout.height - TOP - 2 * ROW - FOOT)
        self.scale, self.scale_words = scale_that_fits(
            self.wide + self.beside, self.high, room, feet=scene.feet
        )
        if not layout.named:
            self.scale = min(room[0] / (self.wide + self.beside), room[1] / self.high)
        self.ground = TOP + self.high * self.scale

    @property
    def width(self) -> float:
        return self.layout.left + (self.wide + self.beside) * self.scale + self.layout.right

    def at(self, x: float, y: float) -> Point:
        return self.layout.left + x * self.scale, self.ground - y * self.scale

    def drawn(self, piece: Piece) -> Box:
        return with_leaves(self.box(piece), piece.kind)

    def box(self, piece: Piece) -> Box:
        left, top = self.at(piece.left or 0.0, piece.top)
        right, bottom = self.at((piece.left or 0.0) + piece.width, piece.bottom)
        return Box(left, top, right, bottom)


def elevation(scene: Scene, layout: Layout = WIDE) -> str:
    """The drawing as SVG; on paper at full size it has the scale that it names."""
    view = View(scene, layout)
    canvas = Canvas(view.width, 0, f"Elevation of {scene.title}, {about(scene)}")
    room = Box(2, 2, view.width - 2, view.ground + 2)
    legend = Legend(canvas, Placer(canvas, room), named=layout.named)
    pieces = placed(scene.pieces, view.wide)
    behind = [piece for piece in pieces if is_behind(piece)]
    front = [piece for piece in pieces if not is_behind(piece)]
    wall(canvas, view)
    for piece in [*behind, *front]:
        if piece.mounting == "post":
            post(canvas, view.box(piece), view.ground)
        shape(canvas, view.box(piece), piece.kind)
    shared_reach(canvas, view)
    anchors(canvas, view, legend)
    crowd(canvas, view, legend)
    hands(canvas, view, legend.placer, front)
    marked = marks(view, legend, front)
    if layout.named:
        heights(canvas, view, legend, front)
    names(view, legend, front, front)
    for here, mark, box in marked:
        legend.explain(here, mark, box, [view.drawn(piece) for piece in front])
    names(view, legend, behind, front)
    shared_words(view, legend, front)
    end = below(canvas, view, legend)
    canvas.height = end + 6
    return canvas.svg()


def post(canvas: Canvas, box: Box, ground: float) -> None:
    middle = (box.left + box.right) / 2
    canvas.rect((middle - 2, box.bottom), 4, max(0.0, ground - box.bottom), "part")


def is_behind(piece: Piece) -> bool:
    return piece.kind in BEHIND or piece.mounting in BEHIND


def about(scene: Scene) -> str:
    over = [mark.words for piece in scene.pieces for mark in piece.marks]
    told = "; ".join(over[:4])
    return f"with {len(scene.pieces)} parts" + (f". Marked: {told}" if told else "")


def wall(canvas: Canvas, view: View) -> None:
    wide, tall = view.wide, view.tall
    ground = view.at(0, 0)[1]
    canvas.rect((0, ground), view.width, 6, "ground")
    if view.scene.wall:
        canvas.rect(view.at(0, tall), wide * view.scale, tall * view.scale, "wall")
    canvas.line((0, ground), (view.width, ground))


def shared_reach(canvas: Canvas, view: View) -> None:
    """Between these two lines everybody who is asked for reaches."""
    if view.scene.shared is None:
        return
    for height in view.scene.shared:
        canvas.line(view.at(0, height), view.at(view.wide + APART / 2, height), "dashed")


def crowd(canvas: Canvas, view: View, legend: Legend) -> None:
    """People beside the wall, each with the heights that hands reach."""
    x = view.wide + APART
    for who in view.scene.people:
        half = people.WIDTH[who.who] / 2
        stand = people.Stand(view.at(x + half, 0)[0], view.ground, view.scale)
        people.band(canvas, stand, who, half * 2)
        people.person(canvas, stand, who)
        left, top = view.at(x, max(who.tall, who.high or 0.0))
        box = Box(left, top, left + half * 2 * view.scale, view.ground)
        legend.placer.take(box)
        who_words(view, legend, who, box)
        x += half * 2 + APART


def who_words(view: View, legend: Legend, who: Reach, box: Box) -> None:
    lines = [who.words, who.says]
    middle, wide = (box.left + box.right) / 2, max(text_width(line) for line in lines)
    last = view.width - wide - 6
    steps = [(step, shift) for step in range(0, 140, 32) for shift in (0, -24, 24)]
    first = view.at(view.wide, 0)[0] + 8
    places = [
        (max(first, min(middle - wide / 2 + shift, last)), box.top - 36 - step)
        for step, shift in steps
    ]
    found = legend.placer.words(lines, places, "label") if view.layout.named else None
    if found is None:
        legend.name(box, f"{who.words}: {who.says}", [])
    else:
        lead(legend.canvas, (middle, box.top - 2), box, found)


def hands(canvas: Canvas, view: View, placer: Placer, pieces: list[Piece]) -> None:
    """A cross where hands use a part."""
    for piece in pieces:
        if piece.used is not None:
            x, y = view.at((piece.left or 0.0) + piece.width / 2, piece.used)
            canvas.line((x - 5, y), (x + 5, y), "cut")
            canvas.line((x, y - 5), (x, y + 5), "cut")
            placer.take(Box(x - 5, y - 5, x + 5, y + 5))


class Sight(Protocol):
    """Elevation or section: where a piece and a point stand on it."""

    def box(self, piece: Piece) -> Box: ...
    def at(self, along: float, up: float, /) -> Point: ...


def marks(view: Sight, legend: Legend, pieces: list[Piece]) -> list[tuple[Box, Mark, Box]]:
    """Each finding’s sign beside its part, to be explained when names have their places."""
    found = []
    for piece in pieces:
        box = view.box(piece)
        for number, mark in enumerate(piece.marks):
            height = {"used": piece.used or piece.bottom, "edge": piece.bottom}.get(mark.at, 0.0)
            at = (box.right + 11 + 17 * number, view.at(0, height)[1])
            found.append((legend.mark(at, mark.standing), mark, box))
    return found


def heights(canvas: Canvas, view: View, legend: Legend, pieces: list[Piece]) -> None:
    """How high the lowest edge is, and where hands use it; the same of one place is said once."""
    seen = set()
    for piece in pieces:
        box = view.box(piece)
        others = [other for p in pieces if (other := view.drawn(p)) != view.drawn(piece)]
        for height in (piece.bottom, piece.used or 0.0):
            spot = (round(box.left), round(height, 3))
            if height > 0.02 and spot not in seen:
                seen.add(spot)
                span = (view.ground, view.at(0, height)[1])
                rise(canvas, legend.placer, box, span, view.scene.show(height), others)


def names(view: View, legend: Legend, pieces: list[Piece], front: list[Piece]) -> None:
    boxes = {id(piece): view.drawn(piece) for piece in front}
    for piece in pieces:
        box = view.drawn(piece)
        others = [b for key, b in boxes.items() if key != id(piece) and b != box]
        lines = [piece.name, piece.size] if piece.size else [piece.name]
        if not piece.placed:
            lines[-1] += ", place not written"
        over = box if any(piece is one for one in front) else None
        places = around(box, lines)
        if view.layout.named and legend.placer.words(lines, places, "label", others, over=over):
            continue
        legend.name(box, ", ".join(lines), others)


def anchors(canvas: Canvas, view: View, legend: Legend) -> None:
    """A dot for each, said once below the drawing."""
    for x, y in view.scene.anchors:
        canvas.circle(view.at(x, y), 2.5, "anchor")
    if view.scene.anchors:
        legend.lines.append(("•", "Anchors, laid on the middle of their part", "label"))


def shared_words(view: View, legend: Legend, front: list[Piece]) -> None:
    if view.scene.shared is None:
        return
    low, high = view.scene.shared
    show = view.scene.show
    words = f"All reach {show(low)} to {show(high)}, between the dashed lines"
    others = [view.drawn(piece) for piece in front]
    places = [(view.at(share * view.wide, 0)[0], view.at(0, at)[1] + shift)
              for at, shift in ((high, 2.0), (high, -LINE - 2)) for share in SHARES]  # fmt: skip
    if not view.layout.named or not legend.placer.words([words], places, "small", others):
        legend.lines.append(("- -", words, "label"))


def below(canvas: Canvas, view: View, legend: Legend) -> float:
    """Overall measures, the scale, and the lines that found no room above."""
    scene, layout = view.scene, view.layout
    level = view.ground + ROW
    if scene.wall:
        canvas.dimension((view.at(0, 0)[0], level), (view.at(view.wide, 0)[0], level),
                         f"Wall {scene.show(view.wide)}")  # fmt: skip
        side = layout.left - (26 if layout.named else 14)
        canvas.dimension((side, view.ground), (side, view.at(0, view.tall)[1]),
                         f"Wall {scene.show(view.tall)}")  # fmt: skip
    level += ROW + 4
    scale_bar(canvas, (layout.left, level), view.scale, 180 if layout.named else 120)
    words = (
        f"Scale {view.scale_words} on paper at full size" if layout.named else "Scale as the bar"
    )
    canvas.text((layout.left, level + 40), words, "small")
    return legend.write(level + 56, 8, view.width - 12)
