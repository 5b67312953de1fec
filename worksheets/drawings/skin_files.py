"""The pattern of a sewn skin, to take away."""

from __future__ import annotations

from collections.abc import Callable

from worksheets.drawings.pattern.marked import Marked, marked
from worksheets.drawings.pattern.pages import big, tiled
from worksheets.drawings.pattern.tiles import A4, LETTER
from worksheets.drawings.pattern.vector import dxf_file, svg_file
from worksheets.engine.given import Given
from worksheets.engine.sheet import File
from worksheets.engine.skin_case import built, with_allowances


def panels(given: Given) -> list[Marked]:
    return [marked(each) for each in with_allowances(given, built(given))]


def named(name: str, label: str, make: Callable[[list[Marked]], bytes]) -> File:
    return File(name=name, label=label, make=lambda given: make(panels(given)))


FILES = (
    named(
        "pattern-letter.pdf", "Pattern on letter paper (PDF)", lambda found: tiled(found, LETTER)
    ),
    named("pattern-a4.pdf", "Pattern on A4 paper (PDF)", lambda found: tiled(found, A4)),
    named("pattern-one-sheet.pdf", "Pattern on one big sheet (PDF)", big),
    named("pattern.svg", "Pattern in mm (SVG)", svg_file),
    named("pattern.dxf", "Pattern in mm (DXF)", dxf_file),
)
