"""Who has checked which version of a worksheet, and what is still open before the installation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.db.models import OuterRef, Q, QuerySet, Subquery

from projects.models import Mounting, Part, PartKind, Project, Site
from projects.words import day_year, listed
from worksheets import run
from worksheets.engine.example import RULE as STILL_EXAMPLE
from worksheets.engine.result import Standing
from worksheets.engine.sheet import Caution, Sheet
from worksheets.facts import Known
from worksheets.models import Review, Run, Worksheet
from worksheets.sheets import sheets

OFF_THE_GROUND = (Mounting.WALL, Mounting.HUNG)
ALWAYS = (PartKind.FRAME, PartKind.SCULPTURE)
CARRIED = (PartKind.SKIN, PartKind.MURAL)  # held by another part, or paint
SHELTERED = (PartKind.LIGHT, PartKind.PLANTER, PartKind.TILE)  # small in the wind
TITLES = {"wind": "wind", "anchors": "anchors"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """How far one worksheet has been checked by a person."""

    worksheet: Worksheet
    sheet: Sheet
    last: Run | None
    review: Review | None  # the newest, of whichever version
    stale: bool  # the project has changed since the last version
    caution: Caution
    assumptions: tuple[str, ...] = ()

    @property
    def needed(self) -> bool:
        return self.caution == Caution.LICENSED

    @property
    def holds(self) -> bool:
        """The review is of the very version that is shown."""
        if self.review is None or self.last is None or self.stale:
            return False
        return self.review.run_id == self.last.pk

    @property
    def over(self) -> bool:
        told = (*self.last.figures, *self.last.findings) if self.last else ()
        return any(found["standing"] == Standing.OVER for found in told)

    @property
    def hindrance(self) -> str:
        """Why nobody can check it as it stands; empty when somebody can."""
        if self.last is None or self.last.problem:
            return "It has no result yet."
        if any(found["rule"] == STILL_EXAMPLE for found in self.last.findings):
            return "It still has values of the example in it."
        if self.stale:
            return f"What it rests on has changed since version {self.last.number}. Save it first."
        return ""

    @property
    def says(self) -> str:
        """One sentence: by whom and when, or what is missing."""
        if self.holds:
            return signed(self.review)
        if self.hindrance:
            return self.hindrance
        if self.review is not None and self.last is not None:
            return (
                f"Not checked: {self.review.reviewer} checked version {self.review.run.number}; "
                f"this is version {self.last.number}."
            )
        return "Not checked by anybody yet."


def signed(review: Review | None) -> str:
    if review is None:
        return ""
    paper = f", {review.paper}" if review.paper else ""
    return (
        f"Checked by {review.reviewer}, {review.licence}, {day_year(review.day)}{paper} "
        f"(version {review.run.number})."
    )


def checked(worksheet: Worksheet, worked: run.Worked) -> Checked:
    """``worked`` is the worksheet with what the project knows now."""
    reviews = Review.objects.filter(run__worksheet=worksheet).select_related("run")
    newest = reviews.order_by("-run__number").first()
    return judged(worksheet, worked, run.last_run(worksheet), newest)


def judged(
    worksheet: Worksheet, worked: run.Worked, last: Run | None, review: Review | None
) -> Checked:
    return Checked(
        worksheet=worksheet,
        sheet=worked.sheet,
        last=last,
        review=review,
        stale=last is not None and not run.unchanged(last, worked),
        caution=worked.caution,
        assumptions=worked.result.assumptions if worked.result else (),
    )


def checked_of(project: Project, least: Caution = Caution.COMPETENT) -> list[Checked]:
    """Every worksheet of the project whose caution asks for a look on site, or for a licence.

    In a fixed number of queries.
    """
    rows = run.with_last(worksheets_of(project, least))
    if not rows:
        return []
    reviews = newest_reviews([row for row, _ in rows])
    known = Known(project)
    found = []
    for row, last in rows:
        worked = run.work_kept(row, last, known.of(row.part))
        found.append(judged(row, worked, last, reviews.get(row.pk)))
    return found


def worksheets_of(project: Project, least: Caution) -> QuerySet[Worksheet]:
    raised = Run.objects.filter(worksheet=OuterRef("pk")).values("licensed")[:1]
    rows = project.worksheets.filter(sheet__in=sheets()).annotate(raised=Subquery(raised))
    return rows.filter(Q(sheet__in=keys_from(least)) | Q(raised=True))


def newest_reviews(rows: Iterable[Worksheet]) -> dict[int, Review]:
    """By worksheet, the review of its highest version."""
    reviews = Review.objects.filter(run__worksheet__in=rows).select_related("run")
    return {each.run.worksheet_id: each for each in reviews.order_by("run__number")}


def keys_from(least: Caution) -> list[str]:
    return [key for key, sheet in sheets().items() if sheet.caution >= least]


def unreviewed(project: Project) -> list[Checked]:
    """Worksheets that ask for a licensed person, without a review of the version that is shown."""
    return [each for each in checked_of(project, Caution.LICENSED) if not each.holds]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartReady:
    """A part with its worksheets; ``missing`` are kinds of worksheet that nobody has made."""

    part: Part | None
    name: str
    sheets: list[Checked]
    missing: list[str]

    @property
    def says(self) -> str:
        if not self.missing:
            return ""
        return f"Not checked yet: there is no worksheet on {listed(self.missing)}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """The page “Ready to install”: ``reasons`` stand against it, ``remarks`` do not."""

    parts: list[PartReady]
    reasons: list[str]
    remarks: list[str]

    @property
    def sentence(self) -> str:
        if self.reasons:
            count = len(self.reasons)
            return f"{count} {'thing is' if count == 1 else 'things are'} still open."
        if any(each.needed for part in self.parts for each in part.sheets):
            return (
                "Every worksheet that asks for a licensed person has a review of the version "
                "shown. The reviewers’ papers bind, not this page."
            )
        return "No worksheet here asks for a licensed person. Local codes still decide."


def ready(project: Project) -> Ready:
    found = checked_of(project)
    site = Site.objects.filter(project=project).first()
    parts = [part_ready(part, found, site) for part in project.parts.all()]
    rest = [each for each in found if each.worksheet.part_id is None]
    if rest:
        parts.append(PartReady(part=None, name="The whole work", sheets=rest, missing=[]))
    shown = [part for part in parts if part.sheets or part.missing]
    return Ready(parts=shown, reasons=list(reasons(shown)), remarks=list(remarks(shown)))


def part_ready(part: Part, found: Iterable[Checked], site: Site | None) -> PartReady:
    own = [each for each in found if each.worksheet.part_id == part.pk]
    there = {each.sheet.key for each in own}
    missing = [TITLES[key] for key in asked_for(part, site) if key not in there]
    return PartReady(part=part, name=part.name, sheets=own, missing=missing)


def asked_for(part: Part, site: Site | None) -> list[str]:
    """The worksheets without which nobody can say that a part was checked."""
    if part.kind in CARRIED or part.mounting == Mounting.PAINTED:
        return []
    hangs = part.mounting in OFF_THE_GROUND
    in_wind = part.kind in ALWAYS or (
        part.kind not in SHELTERED and (hangs or over_path(part, site))
    )
    return [key for key, needed in (("wind", in_wind), ("anchors", hangs)) if needed]


def over_path(part: Part, site: Site | None) -> bool:
    """It reaches further from the wall than the path’s edge."""
    reach = part.depth_mm or 0
    return site is not None and site.path_from_mm is not None and reach > site.path_from_mm


def reasons(parts: Iterable[PartReady]) -> Iterator[str]:
    for part in parts:
        for each in part.sheets:
            if each.needed and not each.holds:
                yield f"{each.worksheet.title}: {lower(each.says)}"
        if part.missing:
            yield f"{part.name}: {lower(part.says)}"


def remarks(parts: Iterable[PartReady]) -> Iterator[str]:
    for each in (each for part in parts for each in part.sheets):
        if each.over:
            tail = " Its reviewer’s paper decides." if each.holds else ""
            yield f"{each.worksheet.title}: over the entered limit.{tail}"


def lower(text: str) -> str:
    return text[:1].lower() + text[1:]
