"""Pictures made ready for paper: read safely, turned small enough, arranged in rows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from io import BytesIO
from pathlib import Path

from django.core.exceptions import SuspiciousOperation
from django.core.files.storage import Storage, default_storage
from PIL import Image

from projects.models import Picture

LARGE, SMALL = 1400, 900  # pixels on the long side: full width, and half width, at 200 an inch
MANY = 12  # more pictures than this are all printed small, to keep the file light
WIDE = 1.2  # width over height from which a picture fills the page


def readable(pictures: Iterable[Picture]) -> dict[str, bytes]:
    """The pictures that can be printed, by storage name, as small JPEG files."""
    names = list(dict.fromkeys(p.file.name for p in pictures if p.file.name))
    side = LARGE if len(names) <= MANY else SMALL
    found = {name: shrunk(name, side) for name in names}
    return {name: data for name, data in found.items() if data is not None}


def shrunk(name: str, side: int) -> bytes | None:
    """A picture of the store, or nothing when it is not there, broken, or a way out."""
    try:
        if not held(default_storage, name):
            return None
        with default_storage.open(name) as file, Image.open(file, formats=("JPEG", "PNG")) as image:
            return packed(image, side)
    except (OSError, SyntaxError, ValueError, SuspiciousOperation, Image.DecompressionBombError):
        return None


def packed(image: Image.Image, side: int) -> bytes:
    image.draft("RGB", (side, side))  # a JPEG is then read at the size it is needed in
    small = image.convert("RGB")
    small.thumbnail((side, side))
    out = BytesIO()
    small.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()


def held(storage: Storage, name: str) -> bool:
    """A file of the store's own folder: no link, no step upwards."""
    try:
        path, root = Path(storage.path(name)), Path(storage.path(""))
    except NotImplementedError:  # a store that is not a folder has no links
        return storage.exists(name)
    return path.is_file() and path.resolve() == root.resolve() / name


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
