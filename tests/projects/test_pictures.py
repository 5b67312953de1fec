"""Pictures: what is kept of a file, and what is answered to a file that cannot be kept."""

import struct
import zlib
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from projects.models import LogEntry, Picture
from tests import factories

SAID = {
    "use": "site",
    "caption": "North pier from the footpath",
    "alt": "A brick pier, twice as high as a person",
    "credit": "Ada Quill",
    "part": "",
}


def jpeg(width=60, height=40, exif=None):
    out = BytesIO()
    Image.new("RGB", (width, height), "sienna").save(out, "JPEG", exif=exif or Image.Exif())
    return SimpleUploadedFile("pier.jpg", out.getvalue(), "image/jpeg")


def png_that_claims(width, height):
    """A small file whose head says that it is a huge picture."""

    def chunk(kind, data):
        crc = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + crc

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    parts = chunk(b"IHDR", head), chunk(b"IDAT", zlib.compress(b"0" * 99)), chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def add(client, project, file, **said):
    url = reverse("projects:picture-add", args=[project.pk])
    return client.post(url, SAID | said | {"file": file})


def address(picture, name):
    return reverse(f"projects:picture-{name}", args=[picture.project_id, picture.pk])


@pytest.fixture
def picture(project, owner):
    add(owner, project, jpeg())
    return Picture.objects.get()


def test_a_picture_is_kept_with_what_is_said_about_it(project, owner):
    part = factories.PartFactory(project=project)
    assert add(owner, project, jpeg(), part=part.pk).status_code == 302
    kept = Picture.objects.get()
    assert (kept.caption, kept.part, kept.width, kept.height) == (SAID["caption"], part, 60, 40)
    assert LogEntry.objects.get().sentence == f"Added the picture “{SAID['caption']}”."


def test_where_a_picture_was_taken_is_not_kept(project, owner):
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (41.0, 30.0, 0.0)}  # GPS position, Exif 2.3 section 4.6.6
    add(owner, project, jpeg(exif=exif))
    kept = Image.open(Picture.objects.get().file)
    assert dict(kept.getexif()) == {}


def test_a_picture_held_sideways_is_turned_upright(project, owner):
    exif = Image.Exif()
    exif[0x0112] = 6  # Orientation: rotate 90 degrees clockwise, Exif 2.3 section 4.6.4
    add(owner, project, jpeg(60, 40, exif))
    kept = Picture.objects.get()
    assert (kept.width, kept.height) == (40, 60)


def test_a_drawing_on_a_clear_ground_is_kept_on_white_and_not_on_black(project, owner):
    out = BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(out, "PNG")
    add(owner, project, SimpleUploadedFile("drawing.png", out.getvalue(), "image/png"))
    assert Image.open(Picture.objects.get().file).getpixel((4, 4)) == (255, 255, 255)


BAD = {
    "text named .jpg": (b"This is no picture.", "not a picture that can be read"),
    "PDF named .jpg": (b"%PDF-1.7\n%more", "This is a PDF, whatever its name says."),
    "60 MB": (b"\xff\xd8" + b"0" * 60_000_000, "60.0 MB; at most 20.0 MB"),
    "decompression bomb": (png_that_claims(60_000, 60_000), "too many pixels"),
    "empty": (b"", "This file is empty."),
    "broken JPEG": (jpeg().read()[:200], "not a picture that can be read"),
    "SVG with a script": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a picture"),
}


@pytest.mark.parametrize("kind", BAD)
def test_a_file_that_is_no_picture_is_answered_and_everything_else_kept(project, owner, kind):
    data, sentence = BAD[kind]
    page = add(owner, project, SimpleUploadedFile("pier.jpg", data, "image/jpeg"))
    shown = page.content.decode()
    assert page.status_code == 422
    assert sentence in shown
    assert all(shown.count(SAID[name]) == 1 for name in ("caption", "alt", "credit"))
    assert not Picture.objects.exists()


def test_no_file_at_all_is_answered(project, owner):
    url = reverse("projects:picture-add", args=[project.pk])
    assert "Choose a picture from your computer" in owner.post(url, SAID).content.decode()


def test_a_caption_of_a_hundred_thousand_letters_is_answered_and_kept(project, owner):
    page = add(owner, project, jpeg(), caption="x" * 100_000)
    assert page.status_code == 422
    assert "This has 100000 characters; at most 240 can be kept." in page.content.decode()
    assert "x" * 100_000 in page.content.decode()


def test_html_in_a_caption_is_shown_and_not_obeyed(project, owner):
    add(owner, project, jpeg(), caption="<script>alert(1)</script>", alt='"><b>x')
    page = owner.get(reverse("projects:overview", args=[project.pk])).content.decode()
    assert "&lt;script&gt;alert(1)" in page
    assert "<script>alert" not in page and "<b>x" not in page


def test_a_part_of_another_project_is_refused(project, owner):
    stray = factories.PartFactory(project=factories.ProjectFactory(name="Two Herons"))
    assert add(owner, project, jpeg(), part=stray.pk).status_code == 422


def test_members_see_the_file_and_strangers_do_not(picture, reader, stranger, client):
    shown = reader.get(address(picture, "file"))
    assert shown.headers["Content-Type"] == "image/jpeg"
    assert Image.open(BytesIO(b"".join(shown.streaming_content))).size == (60, 40)
    assert stranger.get(address(picture, "file")).status_code == 404
    assert client.get(address(picture, "file")).status_code == 302


def test_a_file_that_was_lost_is_not_found(picture, owner):
    picture.file.storage.delete(picture.file.name)
    assert owner.get(address(picture, "file")).status_code == 404


def test_words_are_changed_without_sending_the_picture_again(picture, owner):
    owner.post(address(picture, "edit"), SAID | {"caption": "South pier"})
    picture.refresh_from_db()
    assert (picture.caption, picture.width) == ("South pier", 60)


def test_another_picture_takes_the_place_of_the_old_file(
    picture, owner, django_capture_on_commit_callbacks
):
    old, storage = picture.file.name, picture.file.storage
    with django_capture_on_commit_callbacks(execute=True):
        owner.post(address(picture, "edit"), SAID | {"file": jpeg(80, 20)})
    picture.refresh_from_db()
    assert (picture.width, picture.height) == (80, 20)
    assert storage.exists(picture.file.name) and not storage.exists(old)


def test_removing_asks_first_and_then_takes_the_file_too(
    picture, owner, django_capture_on_commit_callbacks
):
    assert "Remove this picture?" in owner.get(address(picture, "delete")).content.decode()
    assert Picture.objects.exists()
    with django_capture_on_commit_callbacks(execute=True):
        owner.post(address(picture, "delete"))
    assert not Picture.objects.exists()
    assert not picture.file.storage.exists(picture.file.name)


@pytest.mark.parametrize("place", ["https://elsewhere.example/", "//elsewhere.example", "/logout/"])
def test_the_way_back_stays_inside_the_project(project, owner, place):
    page = add(owner, project, jpeg(), back=place)
    assert page.headers["Location"] == reverse("projects:overview", args=[project.pk])


def test_a_link_from_an_ask_chooses_what_the_picture_shows(owner, project):
    page = owner.get(f"/projects/{project.pk}/pictures/add/?use=past_work").content.decode()
    assert '<option value="past_work" selected>' in page
