"""The wall cut through, to scale: what sticks out, the path, head room, and people on it."""

from __future__ import annotations

from worksheets.drawings import people
from worksheets.drawings.dims import across, rise
from worksheets.drawings.elevation import NARROW, WIDE, Layout, is_behind, marks
from worksheets.drawings.labels import LINE, Box, Placer, around, text_width
from worksheets.drawings.legend import Legend, lead, scale_bar
from worksheets.drawings.scene import Piece, Reach, Scene, scale_that_fits
from worksheets.drawings.shapes import shape, with_leaves
from worksheets.drawings.svg import Canvas, Point

THICK, BEYOND, ABOVE = 0.3, 0.7, 0.4  # m: the wall, the ground past the path, and over the top
TOP, ROW, FOOT = 16.0, 26.0, 46.0
PAINT = 0.02  # m; what is painted is drawn as a thin line on the wall’s face


class View:
    """Where a point of the section lies; x is the distance from the wall’s face."""

    def __init__(self, scene: Scene, layout: Layout) -> None:
        self.scene, self.layout = scene, layout
        self.out = max([0.0, *(piece.out for piece in scene.pieces)])
        self.path = (scene.path_from or 0.0, scene.path_width or 0.0)
        crowd = sum(people.WIDTH[who.who] + 0.25 for who in scene.people)
        ahead = sum(self.path) - crowd - 0.12  # all of them on the path, and on its near side
        self.stand_from = max(0.3, min(self.path[0], ahead) if scene.path_width else self.out)
        self.end = max(sum(self.path), self.stand_from + crowd, self.out + 1.0) + BEYOND
        tops = [2.3, *(piece.top for piece in scene.pieces)]
        self.high = max(tops) + ABOVE
        self.cut = scene.size[1] > self.high + 0.05
        self.high = min(self.high, max(scene.size[1], 2.3))
        self.drop = scene.kerb or 0.0
        room = (layout.width - layout.left - layout.right, layout.height - TOP - 2 * ROW - FOOT)
        wide, tall = self.end + THICK, self.high + self.drop
        self.scale, self.scale_words = scale_that_fits(wide, tall, room, feet=scene.feet)
        if not layout.named:
            self.scale = min(room[0] / wide, room[1] / tall)
        self.left = (layout.left if layout.named else layout.right) + THICK * self.scale
        self.ground = TOP + self.high * self.scale

    @property
    def width(self) -> float:
        return self.left + self.end * self.scale + self.layout.right

    def at(self, out: float, height: float) -> Point:
        return self.left + out * self.scale, self.ground - height * self.scale

    def box(self, piece: Piece) -> Box:
        left, top = self.at(0, piece.top)
        right, bottom = self.at(max(piece.out, PAINT), piece.bottom)
        return Box(left, top, right, bottom)

    def drawn(self, piece: Piece) -> Box:
        return with_leaves(self.box(piece), piece.kind)


def section(scene: Scene, layout: Layout = WIDE) -> str:
    """The drawing as SVG; on paper at full size it has the scale that it names."""
    view = View(scene, layout)
    canvas = Canvas(view.width, 0, title(scene))
    room = Box(2, 2, view.width - 2, view.ground + 2)
    legend = Legend(canvas, Placer(canvas, room), named=layout.named)
    front = sorted((p for p in scene.pieces if not is_behind(p)), key=lambda p: -p.out)
    wall(canvas, view, legend)
    zone(canvas, view)
    for piece in [p for p in scene.pieces if is_behind(p)] + front:
        shape(canvas, view.box(piece), piece.kind if not is_behind(piece) else "other")
    stood = crowd(canvas, view, legend)
    marked = marks(view, legend, front)
    if layout.named:
        measures(canvas, view, legend, front)
    for who, spot in stood:
        who_words(view, legend, who, spot)
    names(view, legend, front)
    for here, mark, box in marked:
        legend.explain(here, mark, box, [view.drawn(piece) for piece in front])
    zone_words(view, legend, front)
    canvas.height = below(canvas, view, legend) + 6
    return canvas.svg()


def title(scene: Scene) -> str:
    said = [mark.words for piece in scene.pieces for mark in piece.marks]
    told = f". Marked: {'; '.join(said[:4])}" if said else ""
    return f"Section of {scene.title}: wall, path and what sticks out{told}"


def cut_through(canvas: Canvas, view: View, box: Box) -> None:
    """The wall’s cut face, hatched, broken off where it goes on above the drawing."""
    left, top, right, ground = box.left, box.top, box.right, box.bottom
    canvas.rect((left, top), right - left, ground - top, "wall")
    step = 12.0
    for number in range(int((ground - top) / step)):
        y = top + number * step
        if y + right - left <= ground:
            canvas.line((left, y + (right - left)), (right, y), "thin")
    if view.cut:
        canvas.polyline(
            [(left - 5, top), (left + 4, top - 5), (right - 4, top + 5), (right + 5, top)]
        )


def wall(canvas: Canvas, view: View, legend: Legend) -> None:
    """The wall cut through, the ground, the path’s surface and the kerb at its far edge."""
    left, top = view.at(-THICK, view.high)
    right, ground = view.at(0, 0)
    if not view.scene.stands_free:
        cut_through(canvas, view, Box(left, top, right, ground))
        legend.placer.take(Box(left, top, right - 4, ground))
    begin, end = view.path[0], sum(view.path)
    road = view.at(0, -view.drop)[1]
    far = view.at(end, 0)[0] if end else view.width
    canvas.rect((left, ground), far - left, road - ground + 6, "ground")
    canvas.rect((far, road), max(0.0, view.width - far), 6, "ground")
    canvas.polyline([(left, ground), (far, ground), (far, road), (view.width, road)])
    if view.scene.path_width is not None:
        canvas.rect(view.at(begin, 0), view.path[1] * view.scale, 4, "bar")


def zone(canvas: Canvas, view: View) -> None:
    """Between these heights a cane misses what sticks out further than the upright line."""
    found = view.scene.zone
    if found is None:
        return
    for height in (found.above, found.to):
        canvas.line(view.at(0, height), view.at(view.end, height), "dashed")
    canvas.line(view.at(found.wall, found.above), view.at(found.wall, found.to), "dashed")


def zone_words(view: View, legend: Legend, pieces: list[Piece]) -> None:
    found = view.scene.zone
    if found is None:
        return
    show = view.scene.show
    words = (
        f"Between the dashed lines ({show(found.above)} to {show(found.to)}) a cane misses it: "
        f"{show(found.wall)} at most from a wall"
    )
    lines = [f"{show(found.to)}: head room", f"{show(found.above)}: a cane finds what is lower"]
    others = [view.drawn(piece) for piece in pieces]
    for line, height in zip(lines, (found.to, found.above), strict=True):
        y = view.at(0, height)[1]
        right = view.width - text_width(line) - 6
        places = [(right - step, y + shift) for step in (0, 60, 140) for shift in (-LINE - 1, 2)]
        if view.layout.named:
            legend.placer.words([line], places, "small", others)
    legend.lines.append(("- -", words, "label"))


def crowd(canvas: Canvas, view: View, legend: Legend) -> list[tuple[Reach, Box]]:
    """People on the path, or in front of what sticks out where no path is known."""
    x, found = view.stand_from + 0.12, []
    for who in view.scene.people:
        half = people.WIDTH[who.who] / 2
        stand = people.Stand(view.at(x + half, 0)[0], view.ground, view.scale)
        people.band(canvas, stand, who, half * 2)
        people.person(canvas, stand, who)
        left, top = view.at(x, max(who.tall, who.high or 0.0))
        box = Box(left, top, left + half * 2 * view.scale, view.ground)
        legend.placer.take(box)
        found.append((who, box))
        x += half * 2 + 0.25
    return found


def who_words(view: View, legend: Legend, who: Reach, box: Box) -> None:
    lines = [who.words, who.says]
    middle, wide = (box.left + box.right) / 2, max(text_width(line) for line in lines)
    last = view.width - wide - 6
    steps = [(step, shift) for step in range(0, 200, 32) for shift in (0, -24, 24, 48)]
    others = [view.drawn(piece) for piece in view.scene.pieces]
    places = [(min(middle - wide / 2 + shift, last), box.top - 36 - step) for step, shift in steps]
    named = view.layout.named
    found = legend.placer.words(lines, places, "label", others) if named else None
    if found is None:
        legend.name(box, f"{who.words}: {who.says}", others)
    else:
        lead(legend.canvas, (middle, box.top - 2), box, found)


def measures(canvas: Canvas, view: View, legend: Legend, pieces: list[Piece]) -> None:
    """How far each sticks out, and how high its lowest edge is; the same is said once."""
    seen = set()
    for piece in pieces:
        box, show = view.box(piece), view.scene.show
        outward = (round(piece.out, 3), round(piece.bottom, 3))
        if outward in seen:
            continue
        seen.add(outward)
        if piece.out > 0.01:
            across(canvas, legend.placer, view.drawn(piece), show(piece.out))
        if piece.bottom > 0.02:
            face = view.at(-THICK, 0)[0]
            spot = Box(face, box.top, face, box.bottom)
            span = (view.ground, view.at(0, piece.bottom)[1])
            others = [view.drawn(other) for other in pieces]
            rise(canvas, legend.placer, spot, span, show(piece.bottom), others)


def names(view: View, legend: Legend, pieces: list[Piece]) -> None:
    boxes = [view.drawn(piece) for piece in pieces]
    for piece in pieces:
        box = view.drawn(piece)
        others = [other for other in boxes if other != box]
        placed = view.layout.named and legend.placer.words(
            [piece.name], around(box, [piece.name]), "label", others, over=box
        )
        if not placed:
            legend.name(box, piece.name, others)


def below(canvas: Canvas, view: View, legend: Legend) -> float:
    """The path’s measures, the scale, and the lines that found no room above."""
    scene, layout = view.scene, view.layout
    level = view.ground + view.drop * view.scale + ROW
    begin, end = view.path[0], sum(view.path)
    if scene.path_width is not None:
        if begin:
            canvas.dimension((view.at(0, 0)[0], level), (view.at(begin, 0)[0], level),
                             scene.show(begin))  # fmt: skip
        canvas.dimension((view.at(begin, 0)[0], level), (view.at(end, 0)[0], level),
                         f"Path {scene.show(scene.path_width)}")  # fmt: skip
    if scene.kerb:
        legend.lines.append(
            ("", f"Kerb {scene.show(scene.kerb)} high at the path’s far edge", "label")
        )
    level += ROW + 4
    scale_bar(canvas, (view.left, level), view.scale, 180 if layout.named else 120)
    words = (
        f"Scale {view.scale_words} on paper at full size" if layout.named else "Scale as the bar"
    )
    canvas.text((view.left, level + 40), words, "small")
    return legend.write(level + 56, 8, view.width - 12)


__all__ = ["NARROW", "WIDE", "section"]
