"""Reports on paper: tagged, titled, every figure with its words, page numbers that are right."""

from __future__ import annotations

import io
import re
from datetime import date

import pdfplumber
import pikepdf
import pytest

from budgets.models import PaperKind
from tests.budgets.factories import expense, fund, rule, share, url
from tests.budgets.papers import keep, locked, nodes, pdf_of, photo_of

pytestmark = pytest.mark.django_db
DAY = date(2031, 2, 20)


@pytest.fixture
def quiet(caplog):
    """An ignored rule or a missing picture is only logged by the library."""
    yield
    found = [r.getMessage() for r in caplog.get_records("call") if r.name.startswith("weasyprint")]
    assert found == []


@pytest.fixture
def board(project):
    """A grant that pays three expenses; the papers of two are bound in, one of them unreadable."""
    found = fund(project, "Wexcombe Arts Board small works grant", award_cents=2000_00)
    rule(found, "match", numerator=1, denominator=1)
    paint = expense(project, 212_40, payee="Ledger Street Paints", day=DAY, paid_on=DAY)
    frame = expense(project, 900_00, "fabrication", payee="Saltglaze Metalworks", day=DAY)
    lift = expense(project, 300_00, "install", payee="Millrace Lift Hire", day=DAY)
    keep(paint, photo_of("RECEIPT"))
    keep(paint, pdf_of("BANK", "BANK TWO"), PaperKind.PAYMENT)
    keep(frame, locked(pdf_of("SECRET")))
    for bill in (paint, frame, lift):
        share(bill, found, bill.cents)
    return found


def printed(client, name, *args, **asked) -> bytes:
    answer = client.get(url(name, *args), asked)
    assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf"
    return answer.content


def pages_of(data: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_an_expenditure_list_is_tagged_titled_and_in_english(quiet, reader, project, board):
    """PDF/UA-1, ISO 14289-1: tags, language, a title that is shown (from memory)."""
    data = printed(reader, "report-spending-pdf", project, board.pk)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.MarkInfo.Marked and pdf.Root.Lang == "en"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        title = "Hearthlight: Expenditure list, Wexcombe Arts Board small works grant"
        assert str(pdf.docinfo.Title) == title
        assert b"pdfuaid" in pdf.Root.Metadata.read_bytes()
        found = list(nodes(pdf.Root.StructTreeRoot))
    assert {"/TH", "/TD", "/H1", "/H2", "/Table", "/Figure", "/Caption", "/Link"} <= {
        str(node.S) for node in found
    }
    pictures = [node for node in found if node.S == "/Figure" and "/Alt" in node]
    assert len(pictures) == 3 and all(str(node.Alt).startswith("Paper ") for node in pictures)


def test_the_pages_named_in_the_list_are_where_the_papers_stand(quiet, reader, project, board):
    pages = pages_of(printed(reader, "report-spending-pdf", project, board.pk))
    named = {int(n): int(page) for n, page in re.findall(r"\b(\d), page (\d+)", pages[0])}
    stands = {
        int(found[1]): number
        for number, text in reversed(list(enumerate(pages, 1)))
        if (found := re.search(r"^Paper (\d)[:,]", text, re.M))
    }
    assert named == stands and len(named) == 3
    assert "no paper" in pages[0]


def test_links_lead_to_the_page_they_name(quiet, reader, project, board):
    data = printed(reader, "report-spending-pdf", project, board.pk)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        numbers = {page.obj.objgen: n for n, page in enumerate(pdf.pages, 1)}
        names = named_places(pdf)
        links = [a for a in pdf.pages[0].get("/Annots", []) if a.Subtype == "/Link"]
        places = dict.fromkeys(str(link.Dest) for link in links)
        targets = [numbers[names[place].objgen] for place in places]
    text = pages_of(data)[0]
    assert targets == [int(page) for page in re.findall(r"\b\d, page (\d+)", text)]


def named_places(pdf) -> dict[str, pikepdf.Object]:
    """The page of every named place."""
    flat = list(pdf.Root.Names.Dests.Names)
    return {str(name): place[0] for name, place in zip(flat[::2], flat[1::2], strict=True)}


def test_a_paper_that_cannot_be_read_says_so_on_its_page(quiet, reader, project, board):
    text = "\n".join(pages_of(printed(reader, "report-spending-pdf", project, board.pk)))
    assert "The PDF is locked with a password." in text
    assert "1 paper cannot be read here; a page says which and where it is." in text


def test_every_font_is_embedded_and_papers_have_bookmarks(quiet, reader, project, board):
    data = printed(reader, "report-spending-pdf", project, board.pk)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            for font in page.resources.get("/Font", {}).values():
                descriptor = font.DescendantFonts[0].FontDescriptor
                assert "/FontFile2" in descriptor or "/FontFile3" in descriptor
        with pdf.open_outline() as outline:
            titles = [item.title for item in outline.root[0].children]
    assert titles[0] == "What was paid" and titles[-1] == "Papers"


@pytest.mark.parametrize("key", ["budget", "match", "spending"])
def test_figures_on_paper_are_those_of_the_page(quiet, reader, project, board, key):
    page = reader.get(url(f"report-{key}", project, board.pk)).content.decode()
    text = "\n".join(pages_of(printed(reader, f"report-{key}-pdf", project, board.pk)))
    figures = set(re.findall(r"\d[\d,]*\.\d\d", text))
    assert figures and all(figure in page for figure in figures)


def test_whole_dollars_show_no_cents_on_paper(quiet, reader, project, board):
    data = printed(reader, "report-budget-pdf", project, board.pk, whole="on")
    assert not re.search(r"\d\.\d\d\b(?! %)", "\n".join(pages_of(data)))


def test_the_same_report_of_the_same_day_gives_the_same_bytes(reader, project, board):
    first, again = (printed(reader, "report-spending-pdf", project, board.pk) for _ in range(2))
    assert first == again


def test_long_names_stay_on_the_page(quiet, reader, project, board):
    project.expenses.update(payee="W" * 120, what="x" * 200, invoice_no="9" * 60)
    data = printed(reader, "report-spending-pdf", project, board.pk)
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            assert all(word["x1"] < page.width - 20 for word in page.extract_words())


def test_an_empty_project_prints_what_is_still_to_come(quiet, reader, project):
    text = "\n".join(pages_of(printed(reader, "report-project-pdf", project)))
    assert "There is no budget and no expense yet." in text
