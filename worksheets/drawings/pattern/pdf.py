"""Pages drawn in mm, as a PDF that printers are asked not to scale."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pydyf  # type: ignore[import-untyped]

Point = tuple[float, float]
POINT = 72 / 25.4  # points to a mm
LONGEST = 5000.0  # mm; a longer page is counted in larger units, as the format asks
INK, GREY, PALE = (0.0, 0.0, 0.0), (0.35, 0.35, 0.35), (0.65, 0.65, 0.65)


class Page:
    """One sheet; the origin is its lower left corner."""

    def __init__(self, width: float, height: float) -> None:
        import pydyf

        self.width, self.height = width, height
        self.unit = max(1, -int(-max(width, height) // LONGEST))
        self.stream: pydyf.Stream = pydyf.Stream(compress=True)
        self.stream.set_line_cap(1)

    def points(self, value: float) -> float:
        return round(value * POINT / self.unit, 4)

    def line(
        self,
        start: Point,
        end: Point,
        *,
        thick: float = 0.3,
        dash: tuple[float, ...] = (),
        colour: tuple[float, float, float] = INK,
    ) -> None:
        self.stream.set_line_width(self.points(thick))
        self.stream.set_dash([self.points(each) for each in dash], 0)
        self.stream.set_color_rgb(*colour, stroke=True)
        self.stream.move_to(*(self.points(value) for value in start))
        self.stream.line_to(*(self.points(value) for value in end))
        self.stream.stroke()

    def frame(self, corner: Point, width: float, height: float, thick: float = 0.15) -> None:
        self.stream.set_line_width(self.points(thick))
        self.stream.set_dash([], 0)
        self.stream.set_color_rgb(*PALE, stroke=True)
        self.stream.rectangle(*(self.points(value) for value in (*corner, width, height)))
        self.stream.stroke()

    def text(
        self,
        at: Point,
        words: str,
        *,
        size: float = 3.2,
        bold: bool = False,
        colour: tuple[float, float, float] = INK,
    ) -> None:
        """``size`` is in mm."""
        self.stream.begin_text()
        self.stream.set_color_rgb(*colour)
        self.stream.set_font_size("bold" if bold else "plain", self.points(size))
        self.stream.set_text_matrix(1, 0, 0, 1, *(self.points(value) for value in at))
        told = words.encode("cp1252", "replace")
        for sign in (b"\\", b"(", b")"):
            told = told.replace(sign, b"\\" + sign)
        self.stream.stream.append(b"(" + told + b") Tj")
        self.stream.end_text()

    def cross(self, at: Point, arm: float = 3.0) -> None:
        x, y = at
        self.line((x - arm, y), (x + arm, y), thick=0.15)
        self.line((x, y - arm), (x, y + arm), thick=0.15)


def written(pages: list[Page], title: str) -> bytes:
    """The PDF. The same pages always give the same bytes."""
    import pydyf

    pdf = pydyf.PDF()
    fonts = pydyf.Dictionary(
        {"plain": _font(pdf, "Helvetica"), "bold": _font(pdf, "Helvetica-Bold")}
    )
    for page in pages:
        pdf.add_object(page.stream)
        told: dict[str, Any] = {
            "Type": "/Page",
            "Parent": pdf.pages.reference,
            "MediaBox": pydyf.Array([0, 0, page.points(page.width), page.points(page.height)]),
            "Contents": page.stream.reference,
            "Resources": pydyf.Dictionary({"Font": fonts}),
        }
        if page.unit > 1:
            told["UserUnit"] = page.unit
        pdf.add_page(pydyf.Dictionary(told))
    pdf.info["Title"] = pydyf.String(title)
    pdf.catalog["Lang"] = pydyf.String("en")
    pdf.catalog["ViewerPreferences"] = pydyf.Dictionary(
        {"DisplayDocTitle": "true", "PrintScaling": "/None"}
    )
    output = BytesIO()
    pdf.write(output)
    return output.getvalue()


def _font(pdf: pydyf.PDF, name: str) -> Any:
    """One of the fonts that every reader of the format has."""
    import pydyf

    font = pydyf.Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/Type1",
            "BaseFont": f"/{name}",
            "Encoding": "/WinAnsiEncoding",
        }
    )
    pdf.add_object(font)
    return font.reference
