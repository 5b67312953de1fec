"""Elevation and section to scale, with what the rules on reach say and where they come from."""

from __future__ import annotations

from collections import Counter
from datetime import date
from functools import partial

from django.utils.safestring import SafeString, mark_safe

from packets.outline import Context, Place, Section
from projects.models import Project
from projects.paper import in_drawing
from worksheets.drawings.scene import Piece
from worksheets.selectors.drawn import Drawn, drawn


class Elevation(Section):
    key = "elevation"
    title = "Elevation and section"
    place = Place("worksheets:drawing", "Open the elevation")

    def rows(self, project: Project, today: date) -> Context:
        found = drawn(project)
        return {
            "d": found,
            "elevation": partial(on_paper, found, "elevation"),
            "section_drawn": partial(on_paper, found, "section"),
        }

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        found: Drawn = context["d"]
        placed = [(f"{p.name} on the elevation", where(found, p)) for p in found.scene.pieces]
        said = Counter(each.word or "to know" for each in found.said)
        told = ", ".join(f"{number} {word}" for word, number in sorted(said.items()))
        rules = [("Rules on reach", found.rules_title), ("Reach is shown for", found.users)]
        return [*placed, *rules, ("Findings on reach", told or "none")]

    def missing(self, context: Context) -> str:
        return "No part has its size yet" if context["d"].empty else ""


def on_paper(found: Drawn, which: str) -> SafeString:
    """Drawn when it is printed, with the rules of its marks within it."""
    return mark_safe(in_drawing(getattr(found, which), "drawing.css"))


def where(found: Drawn, piece: Piece) -> str:
    show = found.scene.show
    left = "place not written" if piece.left is None else f"{show(piece.left)} from the left"
    used = f", hands at {show(piece.used)}" if piece.used is not None else ""
    return f"{left}, lower edge at {show(piece.bottom)}, out {show(piece.out)}{used}"


section = Elevation()
