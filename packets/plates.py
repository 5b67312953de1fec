"""Pictures made ready for paper: read safely, turned small enough, arranged in rows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from projects.models import Picture
from projects.scans import shrunk

LARGE, SMALL = 1400, 900  # pixels on the long side: full width, and half width, at 200 an inch
MANY = 12  # more pictures than this are all printed small, to keep the file light
WIDE = 1.2  # width over height from which a picture fills the page


def readable(pictures: Iterable[Picture]) -> dict[str, bytes]:
    """The pictures that can be printed, by storage name, as small JPEG files."""
    names = list(dict.fromkeys(p.file.name for p in pictures if p.file.name))
    side = LARGE if len(names) <= MANY else SMALL
    found = {name: shrunk(name, side) for name in names}
    return {name: data for name, data in found.items() if data is not None}


def in_rows(pictures: Sequence[Picture]) -> list[list[Picture]]:
    """An odd one out stands alone and large, a wide one first; the others stand in pairs."""
    rest = list(pictures)
    if len(rest) % 2 == 0:
        return in_pairs(rest)
    first = next((picture for picture in rest if is_wide(picture)), rest[0])
    rest.remove(first)
    return [[first], *in_pairs(rest)]


def in_pairs(pictures: list[Picture]) -> list[list[Picture]]:
    return [pictures[n : n + 2] for n in range(0, len(pictures), 2)]


def is_wide(picture: Picture) -> bool:
    return picture.width >= picture.height * WIDE
