"""Papers bound into a PDF: numbered pages with captions, found by their page, never a crash."""

from __future__ import annotations

import io
import re
from datetime import date

import pdfplumber
import pikepdf
import pytest
from django.core.files.storage import default_storage
from django.template import engines

from budgets.models import Paper, PaperKind
from budgets.selectors import appendix as bound_in
from budgets.selectors.appendix import appendix_of
from projects.paper import print_page
from projects.scans import scanned
from tests.budgets.factories import expense
from tests.budgets.papers import keep, locked, nodes, pdf_of, photo_of

pytestmark = pytest.mark.django_db
DAY = date(2031, 3, 3)
DOCUMENT = """{% extends "paper.html" %}{% block body %}<h1>{{ heading }}</h1>
{% for paper in appendix.papers %}
<p>{{ paper.name }}
<a class="at-page worded" href="#{{ paper.anchor }}" title="{{ paper.name }}"></a></p>
{% endfor %}{% include "budgets/paper/_appendix.html" %}{% endblock %}"""


@pytest.fixture
def quiet(caplog):
    """An ignored rule or a missing picture is only logged by the library."""
    yield
    found = [r.getMessage() for r in caplog.get_records("call") if r.name.startswith("weasyprint")]
    assert found == []


@pytest.fixture
def bill(project):
    return expense(project, 21_240, payee="Ledger Street Paints", day=DAY)


def papers_of(project):
    return Paper.objects.filter(expense__project=project).select_related("expense")


def printed(project, tmp_path) -> bytes:
    """A document that names each paper on its first page, and binds them in."""
    (tmp_path / "bound.html").write_text(DOCUMENT)
    engine = engines["django"].engine
    engine.dirs.insert(0, tmp_path)
    try:
        found = appendix_of(papers_of(project), project.currency)
        context = {"project": project, "heading": "Claim 2", "about": "Claim 2", "day": DAY}
        return print_page("bound.html", {**context, "appendix": found}, found.images)
    finally:
        engine.dirs.remove(tmp_path)


def pages_of(data: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_each_page_of_a_paper_has_its_own_page_caption_and_alt_text(quiet, project, bill, tmp_path):
    keep(bill, photo_of("RECEIPT"))
    keep(bill, pdf_of("BANK LINE", "BANK LINE TWO"), PaperKind.PAYMENT)
    data = printed(project, tmp_path)
    text = "\n".join(pages_of(data))
    assert "Paper 1: receipt, Ledger Street Paints, $212.40, 3 March 2031" in text
    assert "Paper 2, page 1 of 2: proof of payment, Ledger Street Paints" in text
    assert "Paper 2, page 2 of 2: proof of payment, Ledger Street Paints" in text
    with pikepdf.open(io.BytesIO(data)) as pdf:
        figures = [n for n in nodes(pdf.Root.StructTreeRoot) if n.S == "/Figure"]
        alts = [str(n.get("/Alt", "")) for n in figures if "/Alt" in n]
    assert len(alts) == 3 and all(alt.startswith("Paper ") for alt in alts)


def test_page_numbers_in_the_text_are_the_pages_where_the_papers_stand(
    quiet, project, bill, tmp_path
):
    keep(bill, pdf_of("ONE", "TWO", "THREE"))
    keep(bill, photo_of("RECEIPT"), PaperKind.PAYMENT)
    pages = pages_of(printed(project, tmp_path))
    named = dict(re.findall(r"Paper (\d) page (\d+)", pages[0]))
    where = {
        number: next(
            n for n, text in enumerate(pages, 1) if re.search(rf"^Paper {number}[:,]", text, re.M)
        )
        for number in ("1", "2")
    }
    assert {number: int(page) for number, page in named.items()} == where


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (locked(pdf_of("secret")), "The PDF is locked with a password."),
        (b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n", "The PDF is damaged and could not be read."),
        (pdf_of("half")[:400], "The PDF is damaged and could not be read."),
        (b"\xff\xd8\xff not a picture", "The picture is damaged and could not be read."),
    ],
    ids=["locked", "empty", "cut short", "broken picture"],
)
def test_a_paper_that_cannot_be_read_gives_a_page_that_says_so_and_where_it_is(
    quiet, project, bill, tmp_path, data, words
):
    paper = keep(bill, data)
    text = " ".join("\n".join(pages_of(printed(project, tmp_path))).split())
    assert words in text and bound_in.kept_as(paper) in text


def test_a_paper_that_is_gone_from_the_disk_says_so(project, bill):
    paper = keep(bill, photo_of("RECEIPT"))
    default_storage.delete(paper.file.name)
    found = appendix_of(papers_of(project), "USD")
    assert found.unread and "no longer kept here" in found.papers[0].leaves[0].problem


def test_a_file_kept_with_two_expenses_is_bound_once_and_found_from_both(project, bill):
    other = expense(project, 9_900, payee="Kiln Row Bakery", day=DAY)
    data = photo_of("ONE BILL FOR TWO")
    keep(bill, data)
    keep(other, data)
    found = appendix_of(papers_of(project), "USD")
    assert len(found.papers) == 1 and found.of(bill.pk) == found.of(other.pk) == found.papers
    assert "$212.40" in found.papers[0].about and "$99" in found.papers[0].about


def test_a_long_paper_is_drawn_in_part_and_the_rest_is_named(project, bill, monkeypatch):
    keep(bill, pdf_of("1", "2", "3", "4", "5"))
    monkeypatch.setattr(bound_in, "scanned", lambda *args: scanned(*args, most=2))
    leaves = appendix_of(papers_of(project), "USD").papers[0].leaves
    assert [bool(leaf.image) for leaf in leaves] == [True, True, False]
    assert "3 more pages not shown here" in leaves[-1].problem
    assert leaves[0].caption.startswith("Paper 1, page 1 of 5")


def test_pages_are_made_small_enough_to_send(project, bill):
    keep(bill, photo_of("RECEIPT", (2400, 1800)))
    (picture,) = appendix_of(papers_of(project), "USD").images.values()
    assert len(picture) < 200_000


def test_numbering_alone_draws_nothing(project, bill):
    keep(bill, photo_of("RECEIPT"))
    found = appendix_of(papers_of(project), "USD", draw=False)
    assert found.papers[0].number == 1 and not found.images
