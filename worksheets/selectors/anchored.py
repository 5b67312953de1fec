"""Where the worksheets’ anchors stand on the wall: each group behind the middle of its part."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from projects.models import Project
from worksheets.drawings.scene import Piece
from worksheets.engine.dimensions import System
from worksheets.models import Worksheet
from worksheets.sheets import sheets

Point = tuple[float, float]


def anchors_of(project: Project, pieces: Iterable[Piece], system: System) -> tuple[Point, ...]:
    """In metres on the wall. Their worksheet measures them from a point of its own, so that the
    group is laid with its middle on the middle of the part, where that has its place."""
    placed = {piece.name: piece for piece in pieces if piece.placed and piece.left is not None}
    kept = Worksheet.objects.filter(project=project, sheet="anchors", part__name__in=placed)
    return tuple(
        point
        for worksheet in kept.select_related("part")
        if worksheet.part is not None
        for point in centred(group(worksheet, system), placed[worksheet.part.name])
    )


def group(worksheet: Worksheet, system: System) -> list[Point]:
    reading = sheets()["anchors"].read(worksheet.typed, system=system)
    wrong = any(name.startswith("bolts") for name in reading.problems)
    rows = () if wrong else reading.given.rows("bolts")
    return [(row["x"], row["y"]) for row in rows]


def centred(points: list[Point], piece: Piece) -> Iterator[Point]:
    if not points:
        return
    xs, ys = zip(*points, strict=True)
    across = (piece.left or 0.0) + piece.width / 2 - (min(xs) + max(xs)) / 2
    up = piece.bottom + piece.height / 2 - (min(ys) + max(ys)) / 2
    yield from ((x + across, y + up) for x, y in points)
