"""Uploads: known by their content, limited in size, and served only to members."""

from __future__ import annotations

import hashlib
import warnings
from dataclasses import dataclass
from io import BytesIO

from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.core.files.uploadedfile import UploadedFile
from django.db.models.fields.files import FieldFile
from django.http import FileResponse, Http404
from PIL import Image, ImageOps, UnidentifiedImageError

from projects.words import megabytes

MAX_BYTES = 20_000_000
MAX_PIXELS = 80_000_000
LONG_SIDE = 2400
PDF, JPEG = "application/pdf", "image/jpeg"


@dataclass(frozen=True, slots=True)
class Clean:
    """A file that may be stored: re-encoded if it is a picture."""

    content: ContentFile[bytes]
    media_type: str
    size: int
    sha256: str
    width: int = 0
    height: int = 0


def check_size(upload: UploadedFile[bytes]) -> None:
    size = upload.size or 0
    if size > MAX_BYTES:
        raise ValidationError(
            f"This file has {megabytes(size)}; at most {megabytes(MAX_BYTES)} can be kept. "
            "Send a smaller copy."
        )
    if size == 0:
        raise ValidationError("This file is empty. Choose another.")


def clean_picture(upload: UploadedFile[bytes]) -> Clean:
    """A picture turned upright, made small enough, without its position data."""
    check_size(upload)
    data = upload.read()
    if data[:5] == b"%PDF-":
        raise ValidationError("This is a PDF, whatever its name says. Send a JPEG or PNG picture.")
    image = on_white(ImageOps.exif_transpose(opened(data)))
    image.thumbnail((LONG_SIDE, LONG_SIDE))
    out = BytesIO()
    image.save(out, "JPEG", quality=85, optimize=True)
    return packed(out.getvalue(), JPEG, image.width, image.height)


def on_white(image: Image.Image) -> Image.Image:
    """Drawings with a clear ground would turn black in a JPEG."""
    if not image.has_transparency_data:
        return image.convert("RGB")
    layer = image.convert("RGBA")
    ground = Image.new("RGB", layer.size, "white")
    ground.paste(layer, mask=layer.getchannel("A"))
    return ground


def opened(data: bytes) -> Image.Image:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(BytesIO(data), formats=("JPEG", "PNG", "WEBP", "GIF", "TIFF"))
            if image.width * image.height > MAX_PIXELS:
                raise ValidationError("This picture has too many pixels. Send a smaller copy.")
            image.load()
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise ValidationError(
            "This file is not a picture that can be read. Send a JPEG or PNG."
        ) from error
    except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
        raise ValidationError("This picture has too many pixels. Send a smaller copy.") from error
    return image


def clean_paper(upload: UploadedFile[bytes]) -> Clean:
    """A receipt or certificate: a picture, or a PDF as it is."""
    check_size(upload)
    head = upload.read(5)
    upload.seek(0)
    if head != b"%PDF-":
        if (upload.name or "").lower().endswith(".pdf"):
            raise ValidationError("This file is named .pdf but is not a PDF. Send the PDF itself.")
        return clean_picture(upload)
    if (upload.name or "").lower().endswith((".jpg", ".jpeg", ".png")):
        raise ValidationError("This is a PDF named as a picture. Name it .pdf, or send a picture.")
    return packed(upload.read(), PDF)


def packed(data: bytes, media_type: str, width: int = 0, height: int = 0) -> Clean:
    digest = hashlib.sha256(data).hexdigest()
    suffix = "pdf" if media_type == PDF else "jpg"
    content = ContentFile(data, name=f"file.{suffix}")
    return Clean(content, media_type, len(data), digest, width, height)


def served(file: FieldFile, *, name: str, media_type: str, attach: bool) -> FileResponse:
    """Send a stored file; the caller has checked that the reader is a member."""
    try:
        stored = file.open("rb")
    except FileNotFoundError as error:
        raise Http404("This file is no longer kept here.") from error
    response = FileResponse(stored, as_attachment=attach, filename=name, content_type=media_type)
    response["X-Content-Type-Options"] = "nosniff"
    response["Cache-Control"] = "private, max-age=3600"
    response["Content-Security-Policy"] = "default-src 'none'; sandbox"
    return response
