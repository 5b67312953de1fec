"""Papers as they are uploaded: photos, PDFs of several pages, and what goes wrong with them."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator

import pikepdf
from django.core.files.base import ContentFile
from PIL import Image, ImageDraw

from budgets.models import Expense, Paper, PaperKind
from projects.files import JPEG, PDF


def sheet(words: str, size: tuple[int, int] = (850, 1100)) -> Image.Image:
    page = Image.new("RGB", size, "white")
    ImageDraw.Draw(page).text((60, 60), words, fill="black")
    return page


def photo_of(words: str, size: tuple[int, int] = (850, 1100)) -> bytes:
    out = io.BytesIO()
    sheet(words, size).save(out, "JPEG")
    return out.getvalue()


def pdf_of(*words: str) -> bytes:
    out, pages = io.BytesIO(), [sheet(page) for page in words]
    pages[0].save(out, "PDF", save_all=True, append_images=pages[1:])
    return out.getvalue()


def locked(data: bytes) -> bytes:
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as document:
        document.save(out, encryption=pikepdf.Encryption(owner="kiln", user="hearth"))
    return out.getvalue()


def keep(expense: Expense, data: bytes, kind: str = PaperKind.RECEIPT) -> Paper:
    media = PDF if data[:5] == b"%PDF-" else JPEG
    name = "file.pdf" if media == PDF else "file.jpg"
    return Paper.objects.create(
        expense=expense,
        kind=kind,
        file=ContentFile(data, name),
        media_type=media,
        size=len(data),
        sha256=hashlib.sha256(data).hexdigest(),
    )


def nodes(element) -> Iterator[pikepdf.Dictionary]:
    """Every tagged element below, in reading order."""
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from nodes(kid)
