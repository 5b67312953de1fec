"""Stored papers as pages: pictures small enough to print, PDFs drawn page by page.

The only module that touches the PDF reader, and it loads it when needed.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from io import BytesIO
from pathlib import Path
from threading import Lock
from typing import Any

from django.core.exceptions import SuspiciousOperation
from django.core.files.storage import Storage, default_storage
from PIL import Image

from projects.files import PDF

PRINT_QUALITY, SCAN_QUALITY = 82, 70
PAGES_MOST = 30  # of one paper; the rest is named, not drawn
BROKEN = (OSError, SyntaxError, ValueError, SuspiciousOperation, Image.DecompressionBombError)
GONE = "The file is no longer kept here."
NOT_A_PICTURE = "The picture is damaged and could not be read."
LOCKED = "The PDF is locked with a password."
DAMAGED = "The PDF is damaged and could not be read."

_one_at_a_time = Lock()  # the reader keeps one state for the whole process


@dataclass(frozen=True, slots=True)
class Scan:
    """Pages as JPEG files; `left_out` were not drawn, `problem` says why none was."""

    pages: tuple[bytes, ...] = ()
    left_out: int = 0
    problem: str = ""


def scanned(name: str, media_type: str, side: int, *, most: int = PAGES_MOST) -> Scan:
    """A stored paper as pages of at most `side` pixels; never an exception for a bad file."""
    try:
        if not held(default_storage, name):
            return Scan(problem=GONE)
        with default_storage.open(name) as file:
            data = file.read()
    except BROKEN:
        return Scan(problem=GONE)
    if media_type == PDF:
        return drawn(data, side, most)
    picture = opened(data, side)
    return Scan((picture,)) if picture else Scan(problem=NOT_A_PICTURE)


def opened(data: bytes, side: int) -> bytes | None:
    try:
        with Image.open(BytesIO(data), formats=("JPEG", "PNG")) as image:
            return packed(image, side, SCAN_QUALITY)
    except BROKEN:
        return None


def drawn(data: bytes, side: int, most: int) -> Scan:
    """Each page of a PDF as a picture, with what is filled into its form."""
    reader: Any = import_module("pypdfium2")
    with _one_at_a_time:
        try:
            return all_pages(reader, data, side, most)
        except reader.PdfiumError as error:
            return Scan(problem=LOCKED if "password" in str(error).lower() else DAMAGED)
        except (*BROKEN, MemoryError):
            return Scan(problem=DAMAGED)


def all_pages(reader: Any, data: bytes, side: int, most: int) -> Scan:
    document = reader.PdfDocument(data)
    try:
        if document.get_formtype():
            document.init_forms()
        count = len(document)
        pages = tuple(page_of(document, number, side) for number in range(min(count, most)))
    finally:
        document.close()
    return Scan(pages, count - len(pages)) if pages else Scan(problem=DAMAGED)


def page_of(document: Any, number: int, side: int) -> bytes:
    page = document[number]
    try:
        bitmap = page.render(scale=side / max(*page.get_size(), 1))
        return packed(bitmap.to_pil(), side, SCAN_QUALITY)
    finally:
        page.close()


def shrunk(name: str, side: int) -> bytes | None:
    """A picture of the store, or nothing when it is not there, broken, or a way out."""
    try:
        if not held(default_storage, name):
            return None
        with default_storage.open(name) as file, Image.open(file, formats=("JPEG", "PNG")) as image:
            return packed(image, side)
    except BROKEN:
        return None


def packed(image: Image.Image, side: int, quality: int = PRINT_QUALITY) -> bytes:
    image.draft("RGB", (side, side))  # a JPEG is then read at the size it is needed in
    small = image.convert("RGB")
    small.thumbnail((side, side))
    out = BytesIO()
    small.save(out, "JPEG", quality=quality, optimize=True)
    return out.getvalue()


def held(storage: Storage, name: str) -> bool:
    """A file of the store's own folder: no link, no step upwards."""
    try:
        path, root = Path(storage.path(name)), Path(storage.path(""))
    except NotImplementedError:  # a store that is not a folder has no links
        return storage.exists(name)
    return path.is_file() and path.resolve() == root.resolve() / name
