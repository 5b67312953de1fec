"""Two people change one expense: the second sees what the first changed and loses nothing."""

from __future__ import annotations

import html
import json
import re

import pytest

from budgets.services import expenses as services
from projects.meanwhile import Overtaken
from tests.budgets.factories import HTMX, expense, line, typed, url

pytestmark = pytest.mark.django_db


def opened(client, project, bill) -> dict[str, str]:
    """What the form carries when it is opened."""
    page = client.get(url("expense-edit", project, bill.pk)).content.decode()
    found = re.findall(r'type="hidden" name="(version|was)" value="([^"]*)"', page)
    return {name: html.unescape(value) for name, value in found}


def save(client, project, bill, carried, **changes):
    fields = typed(bill.line, cents="200", day="2031-03-01", **changes)
    return client.post(url("expense-edit", project, bill.pk), {**fields, **carried})


@pytest.fixture
def bill(project):
    return expense(project, 20_000, what="Primer", paid_on="2031-03-01")


def test_the_form_carries_its_version_and_what_it_showed(partner, project, bill):
    carried = opened(partner, project, bill)
    assert carried["version"] == "1"
    assert json.loads(carried["was"])["what"] == "Primer"


def test_what_only_the_first_changed_is_filled_in_and_said(owner, partner, project, bill):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    save(owner, project, bill, first, what="Primer", invoice_no="2207")
    answer = save(partner, project, bill, second, what="Primer, two tins")
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Changed meanwhile from nothing to “2207”." in html.unescape(page)
    assert 'value="2207"' in page and 'value="Primer, two tins"' in page
    bill.refresh_from_db()
    assert (bill.what, bill.invoice_no) == ("Primer", "2207")


def test_where_both_changed_a_field_both_values_are_shown_and_the_next_save_decides(
    owner, partner, project, bill
):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    save(owner, project, bill, first, what="Lime primer")
    answer = save(partner, project, bill, second, what="Silicate primer")
    page = html.unescape(answer.content.decode())
    assert answer.status_code == 409
    assert "Somebody saved “Lime primer” here meanwhile." in page
    assert 'value="Silicate primer"' in page and 'name="version" value="2"' in page
    again = dict(
        re.findall(r'type="hidden" name="(version|was)" value="([^"]*)"', answer.content.decode())
    )
    carried = {name: html.unescape(value) for name, value in again.items()}
    assert save(partner, project, bill, carried, what="Silicate primer").status_code == 302
    bill.refresh_from_db()
    assert (bill.what, bill.version) == ("Silicate primer", 3)


def test_choices_dates_and_ticks_are_told_in_words(owner, partner, project, bill):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    other = line(project, "Site paint")
    owner.post(
        url("expense-edit", project, bill.pk),
        {**typed(other, cents="200", day="2031-02-28", what="Primer", unpaid="on"), **first},
    )
    page = html.unescape(save(partner, project, bill, second, what="Primer").content.decode())
    assert "Changed meanwhile from “For materials” to “Site paint”." in page
    assert "Changed meanwhile from Sat 1 Mar 2031 to Fri 28 Feb 2031." in page
    assert "Changed meanwhile from not ticked to ticked." in page


def test_the_same_change_twice_asks_about_nothing_else(owner, partner, project, bill):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    save(owner, project, bill, first, what="Lime primer")
    page = html.unescape(save(partner, project, bill, second, what="Lime primer").content.decode())
    assert "Somebody else saved this" in page and "here meanwhile" not in page


def test_htmx_gets_the_piece_with_409(owner, partner, project, bill):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    save(owner, project, bill, first, what="Lime primer")
    fields = typed(bill.line, cents="200", day="2031-03-01", what="Grey primer")
    answer = partner.post(url("expense-edit", project, bill.pk), {**fields, **second}, headers=HTMX)
    assert answer.status_code == 409 and b"<html" not in answer.content


def test_a_form_that_was_tampered_with_breaks_nothing(owner, partner, project, bill):
    first = opened(owner, project, bill)
    save(owner, project, bill, first, what="Lime primer")
    for was in ("", "{", "[]", '{"what": 5}'):
        answer = save(partner, project, bill, {"version": "1", "was": was}, what="Grey")
        assert answer.status_code == 409


def test_html_that_the_first_wrote_is_shown_as_text(owner, partner, project, bill):
    first, second = opened(owner, project, bill), opened(partner, project, bill)
    save(owner, project, bill, first, what="Primer", place="<img src=x>")
    page = save(partner, project, bill, second, what="Primer").content.decode()
    assert "<img src=x>" not in page and "&lt;img src=x&gt;" in page


def test_of_two_saves_at_the_same_moment_one_is_refused(project, bill):
    other = type(bill).objects.select_related("project", "line").get(pk=bill.pk)
    services.save_expense(expense=bill, values={"what": "One"}, user=None)
    with pytest.raises(Overtaken):
        services.save_expense(expense=other, values={"what": "Two"}, user=None)
    bill.refresh_from_db()
    assert (bill.what, bill.version) == ("One", 2)
