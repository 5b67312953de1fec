"""From HTML to PDF. The only module that touches the PDF library, and it loads it when needed."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

from django.contrib.staticfiles import finders
from django.template.loader import render_to_string

PICTURE, FONT = "picture:", "font:"
FONTS = (
    "plex-sans-400.woff2",
    "plex-sans-600.woff2",
    "plex-sans-condensed-500.woff2",
    "plex-serif.woff2",
    "plex-serif-italic.woff2",
    "plex-serif-semibold.woff2",
)


COMMENT = re.compile(r"/\*.*?\*/", re.S)
TOKEN = re.compile(r"--([a-z0-9-]+):\s*([^;]+);")
USE = re.compile(r"var\(--([a-z0-9-]+)\)")


class Refused(ValueError):
    """An address that a document may not read."""


class Fetcher:
    """Hands out what it was given, under its exact address, and nothing else.

    The PDF library's own fetcher reads local files and the network.
    """

    _fail_on_errors = False

    def __init__(self, images: Mapping[str, bytes], fonts: Mapping[str, Path]) -> None:
        self.images = {PICTURE + name: data for name, data in images.items()}
        self.fonts = {FONT + name: path for name, path in fonts.items()}

    def __call__(self, url: str) -> Any:
        response = library(".urls").URLFetcherResponse
        if url in self.images:
            return response(url, self.images[url], {"Content-Type": "image/jpeg"})
        if url in self.fonts:
            return response(url, self.fonts[url].read_bytes(), {"Content-Type": "font/woff2"})
        raise Refused(f"A document may not read {url[:80]}.")


def library(part: str = "") -> Any:
    """The PDF library, or a part of it: one and a half seconds the first time."""
    return import_module(f"weasyprint{part}")


def fonts() -> dict[str, Path]:
    return {name: static_file(f"fonts/{name}") for name in FONTS}


def static_file(name: str) -> Path:
    found = finders.find(name)
    if not found:
        raise FileNotFoundError(f"{name} is missing from the static files: run set_up_fonts.")
    return Path(found)


@cache
def rules_in_place(name: str) -> str:
    """A style sheet with the colours in place, for a drawing that knows no custom properties."""
    tokens = dict(TOKEN.findall(COMMENT.sub("", static_file("css/tokens.css").read_text())))
    rules = COMMENT.sub("", static_file(f"css/{name}").read_text())
    return USE.sub(lambda use: tokens[use[1]], rules).strip()


def in_drawing(svg: str, name: str) -> str:
    """A drawing that carries the rules of its marks within it, for paper."""
    head, mark, rest = svg.partition("</title>")
    return f"{head}{mark}<style>{rules_in_place(name)}</style>{rest}" if mark else svg


def lay_out(html: str, fetcher: Fetcher) -> Any:
    config = library(".text.fonts").FontConfiguration()
    sheets = [
        library().CSS(string=static_file(name).read_text(), font_config=config, url_fetcher=fetcher)
        for name in ("css/tokens.css", "css/print.css", "css/papers.css")
    ]
    page = library().HTML(string=html, url_fetcher=fetcher)
    return page.render(font_config=config, stylesheets=sheets, **options(html))


def options(html: str) -> dict[str, Any]:
    return {
        "pdf_variant": "pdf/ua-1",
        "pdf_identifier": hashlib.sha256(html.encode()).hexdigest()[:32].encode(),
    }


def to_pdf(document: Any, html: str) -> bytes:
    data: bytes = document.write_pdf(**options(html))
    return data


def print_page(
    template: str, context: Mapping[str, Any], images: Mapping[str, bytes] | None = None
) -> bytes:
    """A template as PDF/UA-1; it extends paper.html, and shows JPEG images as “picture:name”."""
    html = render_to_string(template, dict(context))
    return to_pdf(lay_out(html, Fetcher(images or {}, fonts())), html)
