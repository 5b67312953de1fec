"""The marks' rules with the colours in place, for a PDF that knows no custom properties here."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

from django.conf import settings

COMMENT = re.compile(r"/\*.*?\*/", re.S)
TOKEN = re.compile(r"--([a-z0-9-]+):\s*([^;]+);")
USE = re.compile(r"var\(--([a-z0-9-]+)\)")


@lru_cache(maxsize=1)
def print_style() -> str:
    folder = Path(settings.STATICFILES_DIRS[0]) / "css"
    tokens = dict(TOKEN.findall(COMMENT.sub("", (folder / "tokens.css").read_text())))
    rules = COMMENT.sub("", (folder / "timeline-marks.css").read_text())
    return USE.sub(lambda use: tokens[use[1]], rules).strip()
