"""The log: by day in the project's own time, filtered, paged, in a constant number of queries."""

from datetime import UTC, datetime

from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from projects import log
from projects.models import LogEntry
from projects.selectors.log import log_page
from tests import factories

HX = {"HX-Request": "true"}


def write(project, sentence, *, about="schedules", who="ada", reason="", at=None):
    entry = log.write(
        project=project, user=factories.user(who), about=about, sentence=sentence, reason=reason
    )
    if at:
        LogEntry.objects.filter(pk=entry.pk).update(at=at)
    return entry


def page(client, project, **query):
    return client.get(reverse("projects:log", args=[project.pk]), query).content.decode()


def test_an_entry_says_who_what_and_why(project, reader):
    write(project, "Moved the Lantern Walk by 7 days.", reason="Storm warning.")
    shown = page(reader, project)
    assert "Moved the Lantern Walk by 7 days." in shown
    assert "Reason: Storm warning." in shown


def test_late_evening_belongs_to_the_day_of_the_project_and_not_of_greenwich(project):
    write(project, "Ticked a stage.", at=datetime(2031, 3, 4, 2, 30, tzinfo=UTC))
    [(day, [row])] = log_page(project).days
    assert f"{day} {row.at:%H:%M}" == "2031-03-03 21:30"  # New York is five hours behind


def test_the_page_shows_the_clock_of_the_project(project, reader):
    write(project, "Ticked a stage.", at=datetime(2031, 3, 4, 2, 30, tzinfo=UTC))
    assert ">21:30</time>" in page(reader, project)


def test_the_newest_day_comes_first(project):
    for day in (3, 5, 4):
        write(project, f"Day {day}.", at=datetime(2031, 3, day, 15, tzinfo=UTC))
    assert [day.day for day, _ in log_page(project).days] == [5, 4, 3]


def test_the_log_is_filtered_by_sheet_and_by_person(project, owner):
    write(project, "Added a task.", about="schedules", who="ada")
    write(project, "Paid for paint.", about="budgets", who="ben")
    money, of_ada = page(owner, project, about="budgets"), page(owner, project, who="ada")
    assert "Paid for paint." in money and "Added a task." not in money
    assert "Added a task." in of_ada and "Paid for paint." not in of_ada


def test_a_filter_or_page_that_does_not_exist_shows_what_there_is(project, owner):
    write(project, "Added a task.")
    assert "Added a task." in page(owner, project, about="nonsense", who="zoe", page="-3x")


def test_the_log_of_another_project_stays_there(project, owner):
    write(factories.ProjectFactory(name="Two Herons"), "Poured the footing.")
    assert "Poured the footing." not in page(owner, project)


def test_fifty_entries_make_a_page_and_the_filter_goes_with_the_pages(project, owner):
    for n in range(51):
        write(project, f"Entry number {n}.")
    first = page(owner, project, about="schedules")
    assert first.count("Entry number") == 50
    assert "about=schedules&amp;page=2" in first
    assert page(owner, project, page="2").count("Entry number") == 1


def test_html_in_an_entry_is_shown_and_not_obeyed(project, owner):
    write(project, "Added the task “<script>alert(1)</script>”.")
    assert "&lt;script&gt;alert(1)" in page(owner, project)


def test_more_entries_take_no_more_queries(project, owner):
    def queries():
        with CaptureQueriesContext(connection) as found:
            page(owner, project)
        return len(found)

    write(project, "First.")
    page(owner, project)
    before = queries()
    for n in range(40):
        write(project, f"Entry {n}.", who="ben")
    assert queries() == before


def test_htmx_gets_the_sheet_alone(project, owner):
    url = reverse("projects:log", args=[project.pk])
    body = owner.get(url, headers=HX).content.decode()
    assert body.lstrip().startswith('<div id="sheet"') and "<html" not in body


def test_going_back_in_the_browser_gets_the_whole_page(project, owner):
    url = reverse("projects:log", args=[project.pk])
    body = owner.get(url, headers=HX | {"HX-History-Restore-Request": "true"}).content.decode()
    assert "<html" in body
