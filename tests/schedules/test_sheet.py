"""The schedule sheet: what it says first, its table, and the piece that htmx gets."""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from schedules.models import Task
from schedules.plan import recompute
from tests import factories

HTMX = {"HX-Request": "true"}


def page_of(client, url, **kwargs):
    return client.get(url, **kwargs).content.decode()


def test_it_opens_with_the_days_in_hand_and_the_next_step(place, ada):
    page = page_of(ada, place.url())
    assert "45 days in hand. “Weld lantern frame” and “Cut and sew skin” carry the date." in page
    assert "Artist finishes “Weld lantern frame” by Fri 14 Mar." in page


def test_a_late_plan_says_how_many_tasks_to_start_at_once(place, ada):
    place.task("Cut").links_in.update(lag=60)
    recompute(place.project, factories.TODAY)
    page = page_of(ada, place.url())
    assert "Late by 15 working days: start 1 task at once, or move the date." in page
    row = page.split(f'id="task-{place.public.task_id}"')[1].split("</tr>")[0]
    assert 'data-label="In hand" class="n">−15<' in row


def test_without_a_public_date_it_asks_for_one(place, ada):
    place.public.delete()
    assert "There is no public date yet." in page_of(ada, place.url())


def test_an_empty_plan_teaches_what_a_task_is(project, owner):
    page = page_of(owner, f"/projects/{project.pk}/schedule/")
    assert "Nothing is planned yet." in page
    assert "waits for “Weld lantern frame”" in page
    assert "Add the first lane" in page


def test_after_the_opening_it_says_how_long_ago_it_was(place, ada):
    place.project.key_dates.update(on=date(2031, 2, 1))
    page = page_of(ada, place.url())
    assert "Mill Lane Lantern Walk was on Sat 1 Feb, 30 days ago. 4 tasks not marked" in page
    assert "opened 30 days ago" in page


def test_each_task_has_its_dates_its_days_in_hand_and_its_state(place, ada):
    page = page_of(ada, place.url())
    assert "Mon 3 – Fri 14 Mar" in page
    assert "carries the date" in page
    assert "public date does not wait for it" in page


def test_the_table_goes_by_phase_or_by_lane_and_remembers(place, ada):
    Task.objects.filter(project=place.project).update(phase="Shop work")
    assert '<th colspan="8" scope="rowgroup">Shop work</th>' in page_of(ada, place.url())
    ada.get(place.url() + "?by=lane")
    assert '<th colspan="8" scope="rowgroup">Artist</th>' in page_of(ada, place.url())


@pytest.mark.parametrize("word", ["phases", "<b>", "1"])
def test_an_unknown_grouping_is_passed_over(place, ada, word):
    assert ada.get(place.url(), {"by": word, "zoom": word}).status_code == 200


def test_htmx_gets_the_sheet_with_the_title_block_and_no_page_around_it(place, ada):
    page = page_of(ada, place.url(), headers=HTMX)
    assert page.lstrip().startswith('<div id="sheet"')
    assert 'id="titleblock" hx-swap-oob="true"' in page
    assert "<html" not in page


def test_going_back_in_the_browser_gets_the_whole_page(place, ada):
    page = page_of(ada, place.url(), headers=HTMX | {"HX-History-Restore-Request": "true"})
    assert "<html" in page


def test_a_stranger_learns_nothing_and_a_reader_sees_no_buttons(place, cyd, dee):
    assert dee.get(place.url()).status_code == 404
    page = page_of(cyd, place.url())
    assert "Add a task" not in page
    assert "Try a slip" in page


def test_html_in_a_name_stays_text(place, ada):
    Task.objects.filter(name__startswith="Weld").update(name="<script>alert(1)</script>")
    page = page_of(ada, place.url())
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page


def test_queries_do_not_grow_with_the_tasks(place, ada, django_assert_max_num_queries):

    ada.get(place.url())
    with CaptureQueriesContext(connection) as few:
        ada.get(place.url())
    asked = len(few)
    for n in range(40):
        factories.LinkFactory(
            before=place.task("Weld"),
            after=factories.TaskFactory(project=place.project, name=f"Panel {n}"),
        )
    recompute(place.project, factories.TODAY)
    with django_assert_max_num_queries(asked):
        ada.get(place.url())


def test_the_title_block_follows_the_plan(place, ada):
    page = page_of(ada, place.url())
    assert "Sat 14 Jun" in page and "103 days" in page
    assert "45 days" in page
    assert "none kept" in page


def test_what_is_finished_is_folded_away_until_asked_for(place, ada):
    weld = place.task("Weld lantern frame")
    Task.objects.filter(pk=weld.pk).update(
        started_on=date(2031, 2, 3), finished_on=date(2031, 2, 14)
    )
    page = page_of(ada, place.url())
    assert "1 finished task folded away" in page and f'id="task-{weld.pk}"' not in page
    assert f'href="?shown=all#task-{weld.pk}"' in page  # its bar unfolds it
    assert f'id="task-{weld.pk}"' in page_of(ada, place.url() + "?shown=all")
    assert f'id="task-{weld.pk}"' in page_of(ada, place.url())  # as it was left


def test_what_was_finished_today_stays_in_the_table_for_the_day(place, ada):
    weld = place.task("Weld lantern frame")
    Task.objects.filter(pk=weld.pk).update(started_on=factories.TODAY, finished_on=factories.TODAY)
    assert f'id="task-{weld.pk}"' in page_of(ada, place.url())


def test_a_project_with_only_a_date_is_not_asked_for_one(place, ada):
    place.project.tasks.all().delete()
    page = page_of(ada, place.url())
    assert "Nothing is planned yet before Mill Lane Lantern Walk on Sat 14 Jun." in page
    assert "Try a slip</a>" not in page.split('class="sheethead"')[1].split("</div>")[0]
