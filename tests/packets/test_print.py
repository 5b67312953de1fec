"""The PDF itself: tags, text, figures, and what it may read."""

from __future__ import annotations

import io
import os
from datetime import date
from functools import cache
from itertools import pairwise

import pdfplumber
import pikepdf
import pytest
from django.core.files.storage import default_storage

from packets import pages, plates, render
from projects import paper
from projects.models import Picture, Text
from tests import factories as base
from tests.packets import factories

pytestmark = pytest.mark.django_db
DAY = date(2031, 3, 3)


@pytest.fixture
def quiet(caplog):
    """An ignored rule or a missing picture is only logged by the library."""
    yield
    found = [r.getMessage() for r in caplog.get_records("call") if r.name.startswith("weasyprint")]
    assert found == []


def printed(project):
    packet = factories.packet(project, reader="Wexcombe Arts Board")
    return render.print_packet(packet, letter="A", day=DAY)


@cache
def hearthlight() -> bytes:
    """The typical proposal, set once for all the tests that only read it."""
    return printed(factories.hearthlight()).data


def nodes(element):
    """Every structure element below, in reading order."""
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from nodes(kid)


def text_of(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return "\n".join(page.extract_text() for page in pdf.pages)


def test_a_proposal_is_tagged_titled_and_in_english(quiet):
    """PDF/UA-1, ISO 14289-1: tags, language, a title that is shown (from memory)."""
    with pikepdf.open(io.BytesIO(hearthlight())) as pdf:
        assert pdf.Root.MarkInfo.Marked and pdf.Root.Lang == "en"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.docinfo.Title) == "Hearthlight: Proposal, revision A"
        found = list(nodes(pdf.Root.StructTreeRoot))
        figures = [n for n in found if n.S == "/Figure"]
        assert len(figures) == 10 and all(str(n.get("/Alt", "")).strip() for n in figures)
        assert {"/TH", "/TD", "/H1", "/H2", "/H3", "/Caption"} <= {str(n.S) for n in found}
        assert b"pdfuaid" in pdf.Root.Metadata.read_bytes()
        assert str(pdf.docinfo.CreationDate).startswith("D:20310303")


def test_headings_go_down_one_step_at_a_time(quiet):
    with pikepdf.open(io.BytesIO(hearthlight())) as pdf:
        tags = [str(n.S) for n in nodes(pdf.Root.StructTreeRoot)]
    levels = [int(tag[2]) for tag in tags if tag in {"/H1", "/H2", "/H3", "/H4"}]
    assert levels[0] == 1
    assert all(low <= high + 1 for high, low in pairwise(levels))


def test_every_font_is_embedded_and_every_section_has_a_bookmark(quiet):
    with pikepdf.open(io.BytesIO(hearthlight())) as pdf:
        for page in pdf.pages:
            for font in page.resources.get("/Font", {}).values():
                descriptor = font.DescendantFonts[0].FontDescriptor
                assert "/FontFile2" in descriptor or "/FontFile3" in descriptor
                assert "Plex" in str(descriptor.FontName)
        with pdf.open_outline() as outline:
            titles = [item.title for item in outline.root[0].children]
    assert titles[:3] == ["Concept", "Site", "Drawings"] and titles[-1] == "Past work"


def test_the_text_reads_in_the_order_of_the_outline(quiet):
    text = text_of(hearthlight())
    order = ["Mill Lane Lantern Walk,", "bands of colour rise", "Parts as they"]
    order += ["Who does what", "Key dates", "Costs by line", "washed once a", "Makers and helpers"]
    at = [text.lower().index(words.lower()) for words in order]
    assert at == sorted(at)
    assert "Figure 1" in text and "Drawing: Ada" in text


def test_costs_and_income_add_up_on_paper(quiet):
    text = text_of(hearthlight())
    assert "Cost $31,500" in text and "Income $29,500" in text
    assert "Still to be found $2,000" in text and "1 for 1" in text


def test_every_page_has_its_title_block(quiet):
    data = hearthlight()
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        count = len(pdf.pages)
        for number, page in enumerate(pdf.pages, start=1):
            text = page.extract_text()
            wanted = ("Hearthlight", "3 Mar 2031", f"{number} of {count}")
            assert all(words in text for words in wanted)


def test_the_same_packet_letter_and_day_give_the_same_bytes(quiet, project):
    factories.PictureFactory(project=project)
    packet = factories.packet(project)
    first, again = (render.print_packet(packet, letter="B", day=DAY) for _ in range(2))
    assert first.data == again.data and first.sha256 == again.sha256


def inside(page) -> bool:
    words = page.extract_words()
    width, height = page.width - 20, page.height - 20
    return all(w["x0"] > 20 and w["x1"] < width and w["bottom"] < height for w in words)


def test_an_empty_project_prints_what_is_still_to_come(quiet, project):
    found = printed(project)
    text = text_of(found.data)
    assert "Still to come: no tasks yet." in text and "Still to come: no text yet." in text
    assert found.pages <= 5


@pytest.mark.large
def test_ten_times_the_rows_stay_on_the_page(quiet):
    found = printed(factories.hearthlight(times=10))
    with pdfplumber.open(io.BytesIO(found.data)) as pdf:
        assert all(inside(page) for page in pdf.pages)
    assert len(found.data) < 5_000_000


def test_long_words_and_html_stay_on_the_page_as_typed(quiet, project):
    base.PartFactory(project=project, name="W" * 120, material="x" * 200, finish="<b>bold</b>")
    body = "A" * 900 + "\n\n- one\n- <i>two</i>"
    Text.objects.create(project=project, topic="concept", body=body)
    data = printed(project).data
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        assert all(inside(page) for page in pdf.pages)
    assert "<i>two</i>" in text_of(data) and "<b>bold</b>" in text_of(data)


def test_the_longest_names_leave_the_cover_on_one_page(quiet):
    project = factories.hearthlight()
    project.name = ("A lantern " * 12)[:120]
    project.summary = ("that passers-by light by hand, " * 10)[:300]
    project.save()
    assert printed(project).section_pages["cover"] == 1


def test_a_broken_picture_gives_a_line_not_a_crash(quiet, project):
    picture = factories.PictureFactory(project=project)
    with default_storage.open(picture.file.name, "wb") as file:
        file.write(b"\xff\xd8\xff not a picture")
    text = text_of(printed(project).data)
    assert "could not be read" in text


def test_a_picture_that_is_gone_gives_a_line(quiet, project):
    picture = factories.PictureFactory(project=project, use="site")
    default_storage.delete(picture.file.name)
    assert "could not be read" in text_of(printed(project).data)


def test_a_picture_that_is_a_link_to_another_file_is_not_read(project, tmp_path):
    picture = factories.PictureFactory(project=project)
    secret = tmp_path / "secret.jpg"
    secret.write_bytes(factories.drawing("secret"))
    path = default_storage.path(picture.file.name)
    os.unlink(path)
    os.symlink(secret, path)
    assert plates.readable([picture]) == {}


@pytest.mark.parametrize(
    "name", ["../secret.jpg", "pictures/../../secret.jpg", "/etc/hostname", ""]
)
def test_a_name_that_climbs_out_of_the_store_is_not_read(project, name):
    assert plates.readable([Picture(project=project, file=name)]) == {}


@pytest.mark.parametrize(
    "address",
    [
        "http://127.0.0.1/x.png",
        "https://example.org/x.png",
        "file:///etc/hostname",
        "FILE:///etc/hostname",
        "ftp://example.org/x",
        "data:text/plain,hello",
        "picture:pictures/1/other.jpg",
        "picture:pictures/1/../1/mine.jpg",
        "font:../../manage.py",
        "font:/etc/hostname",
        "/etc/hostname",
    ],
)
def test_a_document_reads_nothing_but_its_own_pictures_and_fonts(address):
    fetch = paper.Fetcher({"pictures/1/mine.jpg": b"jpeg"}, paper.fonts())
    assert fetch("picture:pictures/1/mine.jpg").read() == b"jpeg"
    assert fetch("font:plex-serif.woff2").read()[:4] == b"wOF2"
    with pytest.raises(paper.Refused):
        fetch(address)


def test_pictures_of_another_project_are_never_handed_out(project):
    factories.PictureFactory(project=base.ProjectFactory(name="Two Herons"))
    packet = factories.packet(project)
    assert pages.pictures_of(pages.gather(packet, DAY)) == []
