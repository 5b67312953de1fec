"""Everything about the money, taken out in one archive."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO
from zipfile import ZipFile

import pytest
from django.apps import apps
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets.models import Paper
from budgets.selectors.export import tables
from tests.budgets.factories import expense, fund, photo, share, url
from tests.factories import ProjectFactory

pytestmark = pytest.mark.django_db
NOT_AUDITED = {"BankFile", "BankLayout", "Purchase"}  # how it came in, not what it is


def archive(client, project) -> ZipFile:
    answer = client.get(url("everything", project))
    assert answer.status_code == 200
    return ZipFile(BytesIO(b"".join(answer.streaming_content)))


def rows(found: ZipFile, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(found.read(f"{name}.csv").decode("utf-8-sig"))))


def test_every_cent_that_is_stored_comes_out(reader, project):
    ward = fund(project)
    paid = expense(project, 21_240, payee="Ledger Street Paints")
    share(paid, ward, 20_000)
    found = archive(reader, project)
    told = rows(found, "expenses")[0]
    assert (told["cents"], told["payee"], told["day"]) == (
        "21240", "Ledger Street Paints", "2031-03-01",
    )  # fmt: skip
    told = rows(found, "shares")[0]
    assert (told["cents"], told["fund is"]) == ("20000", "Riverside Ward improvement fund")
    assert "taken out on 2031-03-03" in found.read("about.txt").decode()


def test_no_kind_of_record_about_the_money_is_left_behind(project):
    out = {table.model.__name__ for table in tables(project).values()}
    every = {model.__name__ for model in apps.get_app_config("budgets").get_models()}
    assert every - out == NOT_AUDITED


def test_papers_come_with_their_names(reader, project):
    paid = expense(project)
    Paper.objects.create(expense=paid, file=photo(), media_type="image/jpeg", size=4, sha256="0")
    found = archive(reader, project)
    place = rows(found, "papers")[0]["file"]
    assert place.startswith("papers/") and place in found.namelist()
    assert found.read(place)[:2] == b"\xff\xd8"


def test_a_paper_that_is_lost_breaks_nothing(reader, project):
    Paper.objects.create(
        expense=expense(project), file="papers/1/lost.jpg", media_type="image/jpeg", size=4
    )
    assert not [name for name in archive(reader, project).namelist() if name.endswith("lost.jpg")]


def test_a_formula_comes_out_as_text(reader, project):
    expense(project, payee='=HYPERLINK("http://example.org")')
    assert rows(archive(reader, project), "expenses")[0]["payee"].startswith("'=")


def test_nothing_of_another_project_is_inside(reader, project):
    expense(ProjectFactory(name="Two Herons"), 99_999, payee="Lockgate Kiln")
    found = archive(reader, project)
    assert not [n for n in found.namelist() if b"Lockgate" in found.read(n)]


def test_a_stranger_takes_nothing_out(stranger, project):
    assert stranger.get(url("everything", project)).status_code == 404


def test_more_expenses_ask_no_more_questions(reader, project):
    def asked() -> int:
        with CaptureQueriesContext(connection) as found:
            archive(reader, project)
        return len(found)

    ward = fund(project)
    share(expense(project), ward, 100)
    asked()
    few = asked()
    for _ in range(10):
        share(expense(project), ward, 100)
    assert asked() == few
