"""Write the advance widths of the shipped sans into the table that the timeline measures with."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand
from fontTools.ttLib import TTFont
from fontTools.varLib import instancer

WEIGHTS = {"REGULAR": 400, "SEMIBOLD": 600}
LETTERS = (range(0x20, 0x250), range(0x2000, 0x2070), range(0x20A0, 0x20C0), range(0x2190, 0x2194))
HEAD = """\
\"\"\"Advance widths, in thousandths of the size. Written by ``manage.py measure_letters``.\"\"\"
# fmt: off
# ruff: noqa: E501
"""


class Command(BaseCommand):
    help = __doc__ or ""

    def handle(self, *args: Any, **options: Any) -> None:
        font = Path(settings.STATICFILES_DIRS[0]) / "fonts" / "plex-sans.woff2"
        tables = [table(name, advances(font, weight)) for name, weight in WEIGHTS.items()]
        target = Path(settings.ROOT) / "schedules" / "timeline" / "widths.py"
        target.write_text(HEAD + "\n" + "\n".join(tables))
        self.stdout.write("The letters are measured.")


def advances(font: Path, weight: int) -> dict[int, str]:
    """Width to the characters that have it."""
    instantiate: Any = instancer.instantiateVariableFont
    face = instantiate(TTFont(font), {"wght": weight, "wdth": 100})
    found: dict[int, list[str]] = defaultdict(list)
    for code, glyph in sorted(face.getBestCmap().items()):
        if any(code in letters for letters in LETTERS):
            found[face["hmtx"][glyph][0]].append(chr(code))
    return {width: "".join(letters) for width, letters in sorted(found.items())}


def table(name: str, widths: dict[int, str]) -> str:
    rows = [f"    {width}: {letters!a}," for width, letters in widths.items()]
    return "\n".join([f"{name} = {{", *rows, "}", ""])
