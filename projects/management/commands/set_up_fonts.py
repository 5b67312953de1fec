"""Write the fonts that the pages and the PDFs share into the static files."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand
from fontTools import subset
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

SANS, SERIF = "fontpkg-ibm-plex-sans", "fontpkg-ibm-plex-serif"
FACES = {
    "plex-sans": (SANS, "IBMPlexSans[wdth,wght].ttf"),
    "plex-sans-italic": (SANS, "IBMPlexSans-Italic[wdth,wght].ttf"),
    "plex-serif": (SERIF, "IBMPlexSerif-Regular.ttf"),
    "plex-serif-italic": (SERIF, "IBMPlexSerif-Italic.ttf"),
    "plex-serif-semibold": (SERIF, "IBMPlexSerif-SemiBold.ttf"),
}
# The printed pages need each cut of a variable font as a file of its own.
CUTS = {
    "plex-sans-400": ("plex-sans", {"wght": 400, "wdth": 100}),
    "plex-sans-600": ("plex-sans", {"wght": 600, "wdth": 100}),
    "plex-sans-condensed-500": ("plex-sans", {"wght": 500, "wdth": 85}),
}
# Latin with its accents, punctuation, arrows, fractions and the signs the pages use.
SCRIPTS = (
    "U+0020-024F,U+02BB-02DC,U+1E00-1EFF,U+2000-206F,U+20A0-20BF,"
    "U+2100-215F,U+2190-21FF,U+2200-22FF,U+25A0-25FF"
)


class Command(BaseCommand):
    help = __doc__ or ""

    def handle(self, *args: Any, **options: Any) -> None:
        folder = Path(settings.STATICFILES_DIRS[0]) / "fonts"
        folder.mkdir(exist_ok=True)
        for name, (package, file) in FACES.items():
            if not (folder / f"{name}.woff2").exists():
                write_subset(file_of(package, file), folder / f"{name}.woff2")
        for name, (face, axes) in CUTS.items():
            if not (folder / f"{name}.woff2").exists():
                write_cut(file_of(*FACES[face]), axes, folder / f"{name}.woff2")
        shutil.copy(licence_of(SANS), folder / "OFL.txt")
        self.stdout.write("Fonts are in place.")


def file_of(package: str, name: str) -> Path:
    found = [f for f in distribution(package).files or [] if f.name == name]
    return Path(str(found[0].locate()))


def licence_of(package: str) -> Path:
    files = distribution(package).files or []
    found = [f for f in files if "OFL" in f.name or "LICENSE" in f.name.upper()]
    return Path(str(found[0].locate()))


def write_subset(source: Path, target: Path) -> None:
    subset.main(
        [
            str(source),
            f"--output-file={target}",
            "--flavor=woff2",
            f"--unicodes={SCRIPTS}",
            "--layout-features=kern,liga,lnum,tnum,ccmp,locl,mark,mkmk",
            "--no-hinting",
        ]
    )


def write_cut(source: Path, axes: Mapping[str, float], target: Path) -> None:
    whole = TTFont(source, recalcTimestamp=False)
    font = instantiateVariableFont(whole, axes, static=True)  # type: ignore[no-untyped-call]
    with tempfile.TemporaryDirectory() as folder:
        cut = Path(folder) / "cut.ttf"
        font.save(cut)
        write_subset(cut, target)
