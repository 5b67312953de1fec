"""Papers bound into a document: numbered, drawn page by page, found again by “page N”."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from budgets.models import Paper, PaperKind
from projects.files import PDF
from projects.scans import Scan, scanned
from projects.words import money, plural

LARGE, SMALL = 1400, 1100  # pixels on the long side of a page
MANY = 16  # more papers than this are all drawn small, to keep the file light
KINDS = {
    PaperKind.RECEIPT: "receipt",
    PaperKind.PAYMENT: "proof of payment",
    PaperKind.QUOTE: "quote",
    PaperKind.CONTRACT: "contract",
    PaperKind.LETTER: "giver's letter",
    PaperKind.TIMESHEET: "signed time sheet",
    PaperKind.OTHER: "paper",
}


@dataclass(frozen=True, kw_only=True)
class Leaf:
    """One page of the appendix: a picture, or a sentence in its place."""

    anchor: str
    caption: str
    alt: str = ""
    image: str = ""  # under which the picture is handed to the printer
    problem: str = ""
    is_first: bool = False


@dataclass(frozen=True, kw_only=True)
class Bound:
    """A paper in the appendix: its number there, and where it begins."""

    pk: int  # of the first paper with this file
    number: int
    anchor: str
    kind: str
    about: str  # payee, amount and day
    kept_as: str
    leaves: tuple[Leaf, ...]

    @property
    def name(self) -> str:
        return f"Paper {self.number}"


@dataclass(frozen=True)
class Appendix:
    """Papers in the order they were given; a file kept with two expenses is bound once."""

    papers: tuple[Bound, ...] = ()
    images: dict[str, bytes] = field(default_factory=dict)
    by_expense: dict[int, tuple[Bound, ...]] = field(default_factory=dict)

    def of(self, expense_id: int) -> tuple[Bound, ...]:
        return self.by_expense.get(expense_id, ())

    @property
    def unread(self) -> tuple[Bound, ...]:
        return tuple(bound for bound in self.papers if bound.leaves and bound.leaves[0].problem)


def kept_as(paper: Paper) -> str:
    """The name under which a paper is saved from here."""
    suffix = "pdf" if paper.media_type == PDF else "jpg"
    return f"{paper.expense.day}-{paper.kind}-{paper.pk}.{suffix}"


def appendix_of(papers: Iterable[Paper], currency: str, *, draw: bool = True) -> Appendix:
    """The appendix of these papers, which carry their expenses; undrawn, it only numbers them."""
    same: dict[str, list[Paper]] = {}
    for paper in papers:
        same.setdefault(paper.sha256 or f"paper {paper.pk}", []).append(paper)
    side = LARGE if len(same) <= MANY else SMALL
    images: dict[str, bytes] = {}
    bound: list[Bound] = []
    by_expense: dict[int, list[Bound]] = {}
    for number, copies in enumerate(same.values(), start=1):
        bound.append(bind(copies, number, currency, images, side if draw else 0))
        for pk in dict.fromkeys(copy.expense_id for copy in copies):
            by_expense.setdefault(pk, []).append(bound[-1])
    return Appendix(tuple(bound), images, {pk: tuple(rows) for pk, rows in by_expense.items()})


def bind(
    copies: list[Paper], number: int, currency: str, images: dict[str, bytes], side: int
) -> Bound:
    paper, anchor = copies[0], f"paper-{number}"
    kind = KINDS.get(PaperKind(paper.kind), "paper")
    about = " and ".join(dict.fromkeys(about_of(copy, currency) for copy in copies))
    start = f"Paper {number}"
    leaves: tuple[Leaf, ...] = ()
    if side:
        scan = scanned(paper.file.name or "", paper.media_type, side)
        told = Told(start, f"{kind}, {about}", kept_as(paper))
        leaves = leaves_of(scan, anchor, told, images)
    return Bound(
        pk=paper.pk,
        number=number,
        anchor=anchor,
        kind=kind,
        about=about,
        kept_as=kept_as(paper),
        leaves=leaves,
    )


def about_of(paper: Paper, currency: str) -> str:
    row = paper.expense
    return f"{row.payee}, {money(row.cents, currency)}, {row.day.day} {row.day:%B %Y}"


@dataclass(frozen=True)
class Told:
    """The words of a paper's captions."""

    name: str
    what: str
    kept_as: str

    def caption(self, page: int, pages: int) -> str:
        place = f", page {page} of {pages}" if pages > 1 else ""
        return f"{self.name}{place}: {self.what}"


def leaves_of(scan: Scan, anchor: str, told: Told, images: dict[str, bytes]) -> tuple[Leaf, ...]:
    if scan.problem:
        words = f"{scan.problem} It is kept with its expense, as {told.kept_as}."
        return (Leaf(anchor=anchor, caption=told.caption(1, 1), problem=words, is_first=True),)
    found, pages = [], len(scan.pages) + scan.left_out
    for page, picture in enumerate(scan.pages, start=1):
        place = anchor if page == 1 else f"{anchor}-{page}"
        images[place] = picture
        caption = told.caption(page, pages)
        found.append(
            Leaf(
                anchor=place,
                caption=caption,
                alt=f"{caption}, as a picture",
                image=place,
                is_first=page == 1,
            )
        )
    if scan.left_out:
        words = f"{plural(scan.left_out, 'more page')} not shown here: see {told.kept_as}."
        place = f"{anchor}-rest"
        found.append(Leaf(anchor=place, caption=f"{told.name}: {told.what}", problem=words))
    return tuple(found)
