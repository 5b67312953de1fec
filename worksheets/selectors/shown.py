"""A worksheet as its page shows it."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from projects.models import Part, Project
from worksheets import run
from worksheets.engine.result import Figure, Finding, Grid, Picture, Standing
from worksheets.engine.sheet import Caution, Sheet
from worksheets.models import Worksheet
from worksheets.run import Worked
from worksheets.sheets import sheets

WORDS = {
    Standing.OVER: "over the limit",
    Standing.NEAR: "needs a look",
    Standing.WITHIN: "within the limit",
    Standing.NOTE: "",
}
SCREENED = {
    **WORDS,
    Standing.OVER: "over the entered limit",
    Standing.WITHIN: "within the entered limit",
}
LEVELS = {Standing.OVER: "broken", Standing.NEAR: "near", Standing.WITHIN: "holds"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownFigure:
    figure: Figure
    words: str
    level: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownFinding:
    finding: Finding
    level: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPicture:
    svg: SafeString
    caption: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownGrid:
    title: str
    head: list[tuple[str, bool]]
    rows: list[list[tuple[str, bool]]]
    foot: list[tuple[str, bool]]
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """The right half of the page."""

    sheet: Sheet
    says: str
    problems: list[tuple[str, str, str]]  # field, label, sentence
    main: list[ShownFigure]
    figures: list[ShownFigure]
    findings: list[ShownFinding]
    pictures: list[ShownPicture]
    grids: list[ShownGrid]
    assumptions: tuple[str, ...]
    caution: str
    screening: bool


def level_of(caution: Caution, standing: Standing) -> str:
    """A screening that may hurt somebody never shows the mark of what holds."""
    if standing == Standing.WITHIN and caution >= Caution.COMPETENT:
        return "plain"
    return LEVELS.get(standing, "plain")


def said_of(caution: Caution, standing: Standing) -> str:
    return (SCREENED if caution >= Caution.COMPETENT else WORDS)[standing]


def outcome(worked: Worked) -> Outcome:
    sheet, result, caution = worked.sheet, worked.result, worked.caution
    figures = [shown_figure(worked, figure) for figure in result.figures] if result else []
    return Outcome(
        sheet=sheet,
        says=result.says if result else "",
        problems=[] if result else problem_list(worked),
        main=[shown for shown in figures if shown.figure.main],
        figures=[shown for shown in figures if not shown.figure.main],
        findings=[
            ShownFinding(
                finding=f,
                level=level_of(caution, f.standing),
                said=f.word or said_of(caution, f.standing),
            )
            for f in (result.findings if result else ())
        ],
        pictures=[picture(each) for each in (result.pictures if result else ())],
        grids=[grid(each) for each in (result.grids if result else ())],
        assumptions=result.assumptions if result else (),
        caution=caution.words,
        screening=caution == Caution.LICENSED,
    )


def shown_figure(worked: Worked, figure: Figure) -> ShownFigure:
    given = worked.reading.given
    return ShownFigure(
        figure=figure,
        words=run.figure_words(figure, given.system, given.currency),
        level=level_of(worked.caution, figure.standing),
        said=said_of(worked.caution, figure.standing),
    )


def picture(each: Picture) -> ShownPicture:
    """The canvas escapes every text that it is given."""
    return ShownPicture(svg=mark_safe(each.svg), caption=each.caption)


def grid(each: Grid) -> ShownGrid:
    def cells(row: tuple[str, ...]) -> list[tuple[str, bool]]:
        return [(text, place in each.numeric) for place, text in enumerate(row)]

    return ShownGrid(
        title=each.title,
        head=cells(each.head),
        rows=[cells(row) for row in each.rows],
        foot=cells(each.foot),
        note=each.note,
    )


def problem_list(worked: Worked) -> list[tuple[str, str, str]]:
    labels = {each.name: each.label for each in worked.sheet.inputs}
    return [
        (name, labels.get(name.split("-")[0], ""), says) for name, says in worked.problems.items()
    ]


def sheet_of(worksheet: Worksheet) -> Sheet | None:
    """None for a kind that this version of the planner no longer has."""
    return sheets().get(worksheet.sheet)


def parts_for(project: Project, sheet: Sheet) -> list[Part]:
    """Those it is made for stand first."""
    parts = list(project.parts.all())
    return sorted(parts, key=lambda part: part.kind not in sheet.kinds)


def first_part(project: Project, sheet: Sheet) -> Part | None:
    parts = parts_for(project, sheet)
    return parts[0] if parts and parts[0].kind in sheet.kinds else None
