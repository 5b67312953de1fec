"""The longer search beside the page: its progress, its end, and what may come between."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.utils import timezone

from tests import factories
from worksheets.models import Run, Worksheet
from worksheets.run import record, work_saved
from worksheets.services import searching
from worksheets.services.searching import Job, progress, start

# The first answer costs no more than the best, but cuts every bar in another way.
FRAME = {
    "sections": [{"name": "Tube", "shape": "tube", "width": "1 in", "wall": "0.065 in",
                  "metal": "steel"}],
    "stock": [{"length": "20 ft", "price": "31"}, {"length": "24 ft", "price": "38.50"}],
    "pieces": [{"count": "6", "length": "60 in", "mark": "P1"},
               {"count": "12", "length": "24 in", "mark": "R1"},
               {"count": "12", "length": "18 1/2 in", "mark": "R2"}],
}  # fmt: skip


def ada() -> User:
    return factories.user("ada")


def at_once(work) -> None:
    work()


def kept(project) -> Worksheet:
    made = Worksheet.objects.create(project=project, sheet="metal", title="Frame", typed=FRAME)
    record(made, work_saved(made), who="Ada")
    return made


def searched(worksheet: Worksheet, django_capture_on_commit_callbacks) -> bool:
    with django_capture_on_commit_callbacks(execute=True):
        return start(worksheet=worksheet, user=ada(), launch=at_once)


def address(worksheet: Worksheet, tail: str = "search/") -> str:
    return f"/projects/{worksheet.project_id}/worksheets/{worksheet.pk}/{tail}"


def running(worksheet: Worksheet, *, ago: int = 0, token: str = "one") -> None:
    at = timezone.now() - timedelta(seconds=ago)
    worksheet.searching = {"state": "running", "share": 0.4, "says": "4 bars to buy.",
                           "at": at.isoformat(), "token": token}  # fmt: skip
    worksheet.save()


def test_what_a_search_finds_is_kept_as_a_new_version(project, django_capture_on_commit_callbacks):
    worksheet = kept(project)
    assert searched(worksheet, django_capture_on_commit_callbacks)
    worksheet.refresh_from_db()
    last = worksheet.runs.first()
    assert (last.number, last.why) == (2, searching.WHY)
    cuts = {run.number: figure(run, "different") for run in worksheet.runs.all()}
    assert cuts[2] < cuts[1]
    assert progress(worksheet).state == "done"
    assert work_saved(worksheet).result.figure("different").value == cuts[2]


def figure(run: Run, key: str) -> float:
    return next(each["value"] for each in run.figures if each["key"] == key)


def test_a_search_that_finds_nothing_better_makes_no_version(
    project, django_capture_on_commit_callbacks
):
    worksheet = kept(project)
    searched(worksheet, django_capture_on_commit_callbacks)
    searched(worksheet, django_capture_on_commit_callbacks)
    worksheet.refresh_from_db()
    assert worksheet.runs.count() == 2
    assert progress(worksheet).says == "The search found nothing better."


def test_two_searches_never_run_for_one_worksheet(project):
    worksheet = kept(project)
    running(worksheet)
    assert not start(worksheet=worksheet, user=ada(), launch=at_once)
    worksheet.refresh_from_db()
    assert worksheet.searching["token"] == "one"


def test_a_search_that_died_with_its_server_shows_as_stopped_and_can_be_started_again(
    project, django_capture_on_commit_callbacks
):
    worksheet = kept(project)
    running(worksheet, ago=31)
    assert progress(worksheet).state == "stopped"
    assert searched(worksheet, django_capture_on_commit_callbacks)
    worksheet.refresh_from_db()
    assert progress(worksheet).state == "done"


def test_a_search_overtaken_by_another_keeps_nothing(project):
    worksheet = kept(project)
    running(worksheet, token="another")
    Job(worksheet.pk, "one", worksheet.version, "Ada", ada()).run()
    worksheet.refresh_from_db()
    assert worksheet.searching["token"] == "another"
    assert worksheet.runs.count() == 1


def test_a_search_whose_inputs_were_changed_meanwhile_keeps_nothing(project):
    worksheet = kept(project)
    running(worksheet)
    Job(worksheet.pk, "one", worksheet.version - 1, "Ada", ada()).run()
    worksheet.refresh_from_db()
    assert worksheet.runs.count() == 1
    assert "changed meanwhile" in progress(worksheet).says


def test_a_search_that_breaks_says_so(project, monkeypatch):
    worksheet = kept(project)
    running(worksheet)

    def breaks(worksheet):
        raise RuntimeError("a bug")

    monkeypatch.setattr(searching.run, "work_saved", breaks)
    Job(worksheet.pk, "one", worksheet.version, "Ada", ada()).run()
    worksheet.refresh_from_db()
    assert progress(worksheet).state == "failed"
    assert "start it again" in progress(worksheet).says


def test_a_sheet_without_a_search_does_not_start_one(project):
    planters = Worksheet.objects.create(project=project, sheet="planters", title="Troughs")
    assert not start(worksheet=planters, user=ada(), launch=at_once)


def test_the_page_offers_the_search_and_shows_how_far_it_is(owner, project):
    worksheet, client = kept(project), owner
    assert "Search longer" in client.get(address(worksheet, "")).content.decode()
    running(worksheet)
    page = client.get(address(worksheet)).content.decode()
    assert "Looking on, 40 %" in page
    assert "Look again" in page
    piece = client.get(address(worksheet), headers={"HX-Request": "true"}).content.decode()
    assert 'hx-trigger="every 1s"' in piece
    assert "<html" not in piece


def test_without_script_the_button_leads_to_the_page_of_the_search(owner, project, monkeypatch):
    begun = []
    monkeypatch.setattr(searching, "in_thread", begun.append)
    worksheet = kept(project)
    answer = owner.post(address(worksheet))
    assert answer.status_code == 302
    assert answer["Location"] == address(worksheet)


def test_what_was_found_shows_while_somebody_types_in_the_kept_worksheet(
    owner, project, django_capture_on_commit_callbacks
):
    worksheet = kept(project)
    searched(worksheet, django_capture_on_commit_callbacks)
    sent = {
        f"{table}-{n}-{name}": text
        for table in FRAME
        for n, row in enumerate(FRAME[table])
        for name, text in row.items()
    }
    sent |= {"kerf": "1/8 in", "trim": "1/4 in", "useful": "12 in", "allowance": "4 %",
             "aim": "cost", "tables": "us-tables", "title": "Frame"}  # fmt: skip
    url = f"/projects/{project.pk}/worksheets/new/metal/try/"
    fewest = "no plan as good has fewer"
    assert fewest not in owner.post(url, sent).content.decode()
    assert fewest in owner.post(url, {**sent, "kept": worksheet.pk}).content.decode()


def test_a_reader_cannot_start_a_search(project, reader):
    worksheet = kept(project)
    assert reader.post(address(worksheet)).status_code == 403


@pytest.mark.django_db(transaction=True)
def test_a_search_in_its_own_thread_ends_and_gives_its_connection_back(settings):
    if connection.vendor == "sqlite" and "memory" in str(connection.settings_dict["NAME"]):
        pytest.skip("a database in memory belongs to one thread")
    project = factories.ProjectFactory()
    worksheet = kept(project)
    threads = []

    def launch(work) -> None:
        from threading import Thread

        threads.append(Thread(target=work))
        threads[0].start()

    assert start(worksheet=worksheet, user=None, launch=launch)
    threads[0].join(30)
    worksheet.refresh_from_db()
    assert progress(worksheet).state == "done"
    assert worksheet.runs.count() == 2
