"""Accept the best fit, all or part of it, and put it back; nobody's work is overwritten."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from budgets.fit.best import best
from budgets.models import AcceptedFit, Counted, Share
from projects.models import LogEntry
from tests.budgets.factories import claim, counted, expense, fund, line, rule, url
from tests.budgets.test_best import flexible_and_lights
from tests.factories import TODAY

pytestmark = pytest.mark.django_db
USUAL = {"asked": "yes", "forecasts": "yes", "least": "1"}


def seen(client, project) -> str:
    page = client.get(url("best", project)).content.decode()
    return re.search(r'name="seen" value="(\w+)"', page)[1]


def accept(client, project, *changes, **more):
    fields = {**USUAL, "seen": more.pop("seen", None) or seen(client, project), **more}
    chosen = [bill.pk for bill in changes] or None
    data = {**fields, "change": chosen} if chosen else {**fields, "all": "yes"}
    return client.post(url("best-accept", project), data)


def payers() -> dict[int, dict[int, int]]:
    found: dict[int, dict[int, int]] = {}
    for row in Share.objects.all():
        found.setdefault(row.expense_id, {})[row.fund_id] = row.cents
    return found


def test_all_of_it_is_written_at_once_with_one_line_in_the_log(partner, project):
    flex, lights, lamp, paint = flexible_and_lights(project)
    answer = accept(partner, project)
    assert answer.status_code == 302
    assert payers() == {lamp.pk: {lights.pk: 500_000}, paint.pk: {flex.pk: 500_000}}
    (entry,) = LogEntry.objects.all()
    assert entry.sentence == "Accepted the best fit for 2 expenses: Lights fund +$5,000."
    assert best(project, TODAY).changes == ()


def test_match_is_written_with_its_payer(partner, project):
    board, ward = fund(project, "Arts board"), fund(project, "Ward fund", award_cents=20_000)
    rule(board, "match", numerator=1, denominator=1)
    rule(ward, "allowed_categories", categories=["install"])
    lift, paint = expense(project, 20_000, category="install"), expense(project, 20_000)
    accept(partner, project)
    (row,) = Counted.objects.all()
    assert (row.expense, row.fund, row.payer, row.cents) == (lift, board, ward, 20_000)
    assert payers()[paint.pk] == {board.pk: 20_000}


def test_a_part_that_stands_alone_is_accepted(partner, project):
    _, lights, lamp, _ = flexible_and_lights(project)
    assert accept(partner, project, lamp).status_code == 302
    assert payers() == {lamp.pk: {lights.pk: 500_000}}


def test_a_part_that_breaks_a_rule_alone_says_which_and_what_it_needs(partner, project):
    flex, _, lamp, paint = flexible_and_lights(project)
    permits = line(project, "Permits", category="permits", planned_cents=1_000)
    apart, ferns = expense(project, 1_000, line=permits), fund(project, "Fern Society")
    rule(ferns, "allowed_categories", categories=["permits"])
    answer = accept(partner, project, paint)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert payers() == {lamp.pk: {flex.pk: 500_000}} and not AcceptedFit.objects.exists()
    assert "These changes alone would break a rule" in page
    assert "Ward fund" in page.split("These changes alone")[1].split("</div>")[0]
    row = re.search(rf'value="{lamp.pk}" checked', page)
    assert row and page.count("needed with it") == 2  # in the sentence, and beside the lamp
    assert not re.search(rf'value="{apart.pk}" checked', page)
    assert accept(partner, project, paint, lamp).status_code == 302
    assert payers()[paint.pk] == {flex.pk: 500_000}


def test_nothing_ticked_writes_nothing(partner, project):
    flexible_and_lights(project)
    answer = partner.post(url("best-accept", project), {**USUAL, "seen": seen(partner, project)})
    assert answer.status_code == 422 and "No change was ticked" in answer.content.decode()
    assert not AcceptedFit.objects.exists()


@pytest.mark.parametrize("change", ["abc", "-1", "²", "999999999999999999999999", ""])
def test_a_change_that_is_none_is_no_change(partner, project, change):
    flexible_and_lights(project)
    fields = {**USUAL, "seen": seen(partner, project), "change": change}
    assert partner.post(url("best-accept", project), fields).status_code == 422


def test_books_that_changed_since_are_shown_anew_and_nothing_is_written(partner, project):
    flex, _, lamp, _ = flexible_and_lights(project)
    before = seen(partner, project)
    expense(project, 7_000)
    answer = accept(partner, project, seen=before)
    assert answer.status_code == 409
    assert "Somebody changed the books after you looked" in answer.content.decode()
    assert payers() == {lamp.pk: {flex.pk: 500_000}}


def test_of_two_people_who_accept_the_second_is_shown_what_is(partner, owner, project):
    flexible_and_lights(project)
    before = seen(owner, project)
    accept(partner, project)
    assert accept(owner, project, seen=before).status_code == 409
    assert AcceptedFit.objects.count() == 1


def test_a_what_if_cannot_be_accepted(partner, project):
    fund(project, "Fern Society", status="offered", award_cents=20_000)
    expense(project, 20_000)
    wish = {**USUAL, "offered": "yes"}
    page = partner.get(url("best", project), wish).content.decode()
    assert "This is a what-if" in page and "Accept all of it" not in page
    found = re.search(r'name="seen" value="(\w+)"', page)[1]
    answer = partner.post(url("best-accept", project), {**wish, "seen": found, "all": "yes"})
    assert answer.status_code == 409 and not Share.objects.exists()


def test_what_is_claimed_is_untouched(partner, project):
    flex, _, lamp, _ = flexible_and_lights(project)
    claim(flex, (lamp, 200_000))
    accept(partner, project)
    assert payers()[lamp.pk][flex.pk] >= 200_000


def test_a_reader_sees_the_fit_and_cannot_accept(reader, project):
    flexible_and_lights(project)
    page = reader.get(url("best", project)).content.decode()
    assert (
        "Lights fund" in page and "Accept" not in page.split("best-changes")[1].split("</table>")[0]
    )
    found = {"seen": seen(reader, project), "all": "yes", **USUAL}
    assert reader.post(url("best-accept", project), found).status_code == 403


def back(client, project):
    return client.post(url("best-back", project, AcceptedFit.objects.first().pk))


def test_it_is_put_back_as_it_was_to_the_cent(partner, project):
    flex, _, lamp, _ = flexible_and_lights(project)
    counted(lamp, flex, 100)
    accept(partner, project)
    assert back(partner, project).status_code == 302
    assert payers() == {lamp.pk: {flex.pk: 500_000}}
    assert Counted.objects.get().cents == 100
    assert LogEntry.objects.first().sentence.startswith("Put back as it was: accepted the best fit")
    assert back(partner, project).status_code == 409


def test_what_was_changed_since_is_not_put_back(partner, project):
    _, _, lamp, _ = flexible_and_lights(project)
    accept(partner, project)
    Share.objects.filter(expense=lamp).update(cents=499_999)
    answer = back(partner, project)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Who pays Spindle Electrical Supply, 2031-03-01 was changed since." in page
    assert AcceptedFit.objects.get().undone_at is None


def test_what_was_claimed_since_is_not_put_back(partner, project):
    _, lights, lamp, _ = flexible_and_lights(project)
    accept(partner, project)
    claim(lights, (lamp, 500_000))
    assert "is in a claim that was filed since" in back(partner, project).content.decode()


def test_a_fund_that_is_gone_is_not_put_back(partner, project):
    flex, _, _, _ = flexible_and_lights(project)
    accept(partner, project)
    flex.delete()
    assert back(partner, project).status_code == 409


def test_the_log_leads_to_the_way_back(partner, project):
    flexible_and_lights(project)
    accept(partner, project)
    page = partner.get(reverse("projects:log", args=[project.pk])).content.decode()
    assert f"{url('best', project)}#accepted" in page


def test_the_worth_of_papers_comes_as_a_piece_or_with_the_page(partner, project):
    board = fund(project, "Arts board")
    rule(board, "papers_needed", papers=["payment"])
    bill = expense(project, 20_000)
    piece = partner.get(url("best-worth", project), headers={"HX-Request": "true"})
    assert "Add the proof of payment." in piece.content.decode()
    whole = partner.get(url("best-worth", project), follow=True).content.decode()
    assert "<html" in whole and "Add the proof of payment." in whole
    why = partner.get(url("why-not", project, bill.pk)).content.decode()
    assert "Worth $200" in why


def forty_two_bills(project):
    """One a dollar larger than the other: $10, $11 and so on; the smallest is the last."""
    fund(project, "Ward fund", award_cents=500_000)
    return [expense(project, 1_000 + 100 * number) for number in range(41, -1, -1)]


def listed(page: str) -> list[int]:
    return [int(pk) for pk in re.findall(r'name="change"\s+value="(\d+)"', page)]


def test_the_largest_changes_stand_first_and_the_rest_are_a_link_away(partner, project):
    bills = forty_two_bills(project)
    page = partner.get(url("best", project)).content.decode()
    assert listed(page) == [bill.pk for bill in bills[:40]]
    assert "These are the 40 largest of 42 changes." in page
    assert "Accept all 42 changes" in page
    link = re.search(r'href="([^"]*every=yes)#best-changes"', page)[1].replace("&amp;", "&")
    whole = partner.get(link).content.decode()
    assert set(listed(whole)) == {bill.pk for bill in bills}
    assert "largest of" not in whole and "Accept all of it" in whole


def test_a_change_that_is_not_shown_is_accepted_with_all_or_from_the_whole_list(partner, project):
    *_, small, smallest = forty_two_bills(project)
    accept(partner, project, smallest, every="yes")
    assert list(payers()) == [smallest.pk]
    accept(partner, project)
    assert len(payers()) == 42 and small.pk in payers()


def test_the_whole_list_stays_whole_when_nothing_is_ticked(partner, project):
    forty_two_bills(project)
    fields = {**USUAL, "seen": seen(partner, project), "every": "yes"}
    answer = partner.post(url("best-accept", project), fields)
    assert answer.status_code == 422
    assert len(listed(answer.content.decode())) == 42
