"""Who is told what: each party its own dates, the new and the old, and nothing of the others."""

from __future__ import annotations

from datetime import date
from urllib.parse import parse_qs, unquote, urlsplit

import pytest

from packets.models import Packet, Revision
from projects.models import Site
from schedules import overview
from schedules.models import AppliedSlip, Hammock, Notice, Task
from schedules.plan import recompute
from schedules.selectors.notices import Line
from tests import factories
from tests.conftest import logged_in
from tests.schedules.test_slip_options import apply, changes, task, walk
from tests.schedules.test_slip_undo import undo

SALTGLAZE, LOFT, LIFT = "Saltglaze Metalworks", "Third Bell Canvas Loft", "Millrace Lift Hire"


@pytest.fixture
def makers(place):
    """Saltglaze welds the frame, the loft sews the skin; both are lanes."""
    found = {}
    for name, start in ((SALTGLAZE, "Weld"), (LOFT, "Cut")):
        email = f"{name.split(maxsplit=1)[0].lower()}@shop.example"
        maker = factories.SupplierFactory(project=place.project, name=name, email=email)
        lane = factories.LaneFactory(project=place.project, name=name, supplier=maker)
        Task.objects.filter(name__startswith=start).update(lane=lane)
        found[name] = maker
    return found


def late_frame(place, client, days="9"):
    return apply(client, place, changes("a", task(place, "Weld", days=days)))


def week_later(place, client):
    return apply(client, place, changes("a", walk(place, days="7")))


def waiting():
    return {n.party: n for n in Notice.objects.filter(told_on=None)}


def tell(client, place, notice, how="mail", on="2031-03-03"):
    data = {f"n{notice.pk}-how": how, f"n{notice.pk}-on": on}
    return client.post(place.url("notice-tell", notice.pk), data)


def body_of(client, place):
    return client.get(place.url("notices")).content.decode()


# Who, and what


def test_each_maker_hears_of_its_own_days_alone(place, ada, makers):
    late_frame(place, ada)
    assert set(waiting()) == {SALTGLAZE, LOFT}
    words = waiting()[LOFT].body
    assert (
        "Cut and sew skin\n  was Mon 17 Mar to Fri 11 Apr 2031\n  now Fri 28 Mar to Thu 24 Apr"
        in words
    )
    assert "Weld" not in words and "steel" not in words and "$" not in words
    assert words.endswith("Thank you,\nada")


def test_nobody_writes_to_oneself(place, ada):
    late_frame(place, ada)
    assert not Notice.objects.exists()


def test_who_has_no_place_in_the_list_of_suppliers_is_told_by_the_name_of_the_lane(place, ada):
    lane = factories.LaneFactory(project=place.project, name="Arts board and town")
    Task.objects.filter(name__startswith="Cut").update(lane=lane)
    late_frame(place, ada)
    assert set(waiting()) == {"Arts board and town"}
    assert waiting()["Arts board and town"].supplier is None


def test_an_order_and_a_second_lane_tie_a_party_to_a_task(place, ada):
    lift = factories.SupplierFactory(project=place.project, name=LIFT)
    loft = factories.SupplierFactory(project=place.project, name=LOFT)
    skin = place.task("Cut")
    skin.also.add(factories.LaneFactory(project=place.project, name=LIFT, supplier=lift))
    skin.order = factories.OrderFactory(supplier=loft)
    skin.save()
    late_frame(place, ada)
    assert set(waiting()) == {LIFT, LOFT}


def test_a_hire_that_moves_is_told_with_its_whole_span(place, ada):
    lift = factories.SupplierFactory(project=place.project, name=LIFT)
    lane = factories.LaneFactory(project=place.project, name=LIFT, supplier=lift)
    hire = Hammock.objects.create(project=place.project, name="Platform lift", lane=lane)
    hire.from_tasks.add(place.task("Weld"))
    hire.to_tasks.add(place.task("Cut"))
    late_frame(place, ada)
    assert "Platform lift\n  was Mon 3 Mar to Fri 11 Apr 2031" in waiting()[LIFT].body


def test_a_booking_that_no_longer_covers_its_days_is_asked_about(place, ada, makers):
    order = factories.OrderFactory(
        supplier=makers[LOFT], title="Lantern skin", cents=265_000,
        window_start=date(2031, 3, 17), window_end=date(2031, 4, 14),
    )  # fmt: skip
    Task.objects.filter(name__startswith="Cut").update(order=order)
    late_frame(place, ada)
    asked = "The booking “Lantern skin” is for 17 Mar to 14 Apr. Can it move with the new days?"
    assert asked in waiting()[LOFT].body
    assert "2,650" not in waiting()[LOFT].body


@pytest.fixture
def payers(place):
    """A grant, its board which holds a packet, the owner of the wall, the crew."""
    project = place.project
    factories.FundFactory(project=project)
    factories.FundFactory(project=project, name="Own money", kind="own")
    packet = Packet.objects.create(
        project=project, kind="proposal", title="Proposal", reader="Wexcombe Arts Board"
    )
    Revision.objects.create(
        packet=packet, letter="A", made_by="ada", file="a.pdf", size=4, pages=1,
        sha256="0", sources={}, day=factories.TODAY,
    )  # fmt: skip
    Site.objects.create(project=project, name="Viaduct pier 4", owner="Parks department")
    factories.SupplierFactory(project=project, name="Volunteer crew", kind="crew")


def test_a_public_date_that_moves_is_told_to_who_pays_owns_permits_and_helps(place, ada, payers):
    week_later(place, ada)
    assert set(waiting()) == {"Wexcombe Arts Board", "Parks department", "Volunteer crew"}
    assert (
        "The public date of Hearthlight, Viaduct pier 4 has moved: Mill Lane Lantern Walk is now "
        "on Sat 21 Jun 2031. It was to be on Sat 14 Jun 2031." in waiting()["Parks department"].body
    )


def test_work_that_moves_before_the_same_public_date_is_nothing_to_them(place, ada, payers):
    late_frame(place, ada)
    assert waiting() == {}


def test_a_report_that_is_due_later_is_told_to_the_funder(place, ada, payers):
    due = factories.KeyDateFactory(
        project=place.project, name="Final report", kind="due", on=date(2031, 7, 10), effect="none"
    )
    recompute(place.project, factories.TODAY)
    apply(ada, place, changes("a", {"what": f"key-{due.pk}", "days": "14"}))
    assert set(waiting()) == {"Wexcombe Arts Board"}
    assert "Final report\n  was Thu 10 Jul 2031\n  now Thu 24 Jul 2031" in (
        waiting()["Wexcombe Arts Board"].body
    )


def test_what_is_finished_is_told_to_nobody(place, ada, makers):
    Task.objects.filter(name__startswith="Weld").update(
        started_on=date(2031, 2, 17), finished_on=date(2031, 2, 28)
    )
    apply(ada, place, changes("a", task(place, "Cut", days="4")))
    assert set(waiting()) == {LOFT}


# Ready to send


def mail(place, client, makers):
    late_frame(place, client)
    return Line(row=waiting()[LOFT], moved_again=False).mailto


def test_the_mail_is_written_by_a_link(place, ada, makers):
    """RFC 6068: a mailto link, percent-encoded, line breaks as %0D%0A."""
    link = mail(place, ada, makers)
    assert link.startswith("mailto:third@shop.example?subject=Hearthlight%3A%20new%20days%20for")
    assert "+" not in link and " " not in link and "%0D%0A%0D%0A" in link
    asked = parse_qs(urlsplit(link).query)
    assert asked["body"][0].replace("\r\n", "\n") == waiting()[LOFT].body


def test_a_name_with_signs_of_its_own_cannot_break_the_link(place, ada, makers):
    Task.objects.filter(name__startswith="Cut").update(name="Cut & sew? 50% #2 “skin”")
    link = mail(place, ada, makers)
    assert link.count("?") == 1 and link.count("&") == 1 and "#" not in link
    assert "Cut & sew? 50% #2 “skin”" in unquote(link)


def test_the_page_says_how_many_wait_and_gives_each_letter(place, ada, makers):
    late_frame(place, ada)
    page = body_of(ada, place)
    assert "2 notices to send: Saltglaze Metalworks and Third Bell Canvas Loft." in page
    assert page.count('<pre class="letter"') == 2


def test_the_letters_print_a_page_each(place, ada, makers):
    late_frame(place, ada)
    page = ada.get(place.url("letters")).content.decode()
    assert page.count('class="sheetofpaper"') == 2
    only = ada.get(place.url("letters"), {"only": waiting()[LOFT].pk}).content.decode()
    assert "To Third Bell Canvas Loft" in only and "To Saltglaze" not in only


def test_a_letter_is_put_into_ones_own_words_before_it_is_told(place, ada, makers):
    late_frame(place, ada)
    notice = waiting()[LOFT]
    words = {"email": "loft@thirdbell.example", "phone": "", "subject": "Skin", "body": "Dear loft"}
    assert ada.post(place.url("notice-edit", notice.pk), words).status_code == 302
    notice.refresh_from_db()
    assert (notice.email, notice.subject, notice.body) == tuple(
        words[k] for k in ("email", "subject", "body")
    )


def test_an_address_that_is_none_is_said_and_nothing_typed_is_lost(place, ada, makers):
    late_frame(place, ada)
    words = {"email": "loft at home", "phone": "", "subject": "Skin", "body": "Dear loft"}
    answer = ada.post(place.url("notice-edit", waiting()[LOFT].pk), words)
    assert answer.status_code == 422
    assert "or leave it empty." in answer.content.decode()
    assert "Dear loft" in answer.content.decode()


# Told


def test_what_was_told_is_kept_with_when_how_and_by_whom(place, ada, makers):
    late_frame(place, ada)
    tell(ada, place, waiting()[LOFT], how="phone")
    told = Notice.objects.get(told_on__isnull=False)
    assert (told.party, told.told_how, told.told_by) == (LOFT, "phone", "ada")
    assert set(waiting()) == {SALTGLAZE}
    assert place.last_log.sentence.startswith(
        "Told Third Bell Canvas Loft by telephone on Mon 3 Mar: Hearthlight: new days"
    )
    assert "Mon 3 Mar 2031, by telephone" in body_of(ada, place)


TOLD_BAD = [
    ({"how": ""}, "Choose how they were told."),
    ({"on": "2031-03-04"}, "That day is still to come. Mon 3 Mar is the latest."),
    ({"on": ""}, "Choose a day."),
]


@pytest.mark.parametrize(("change", "said"), TOLD_BAD)
def test_a_record_that_cannot_be_is_said_beside_its_field(place, ada, makers, change, said):
    late_frame(place, ada)
    answer = tell(ada, place, waiting()[LOFT], **change)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert len(waiting()) == 2


def test_what_was_told_is_never_changed_or_told_twice(place, ada, makers):
    late_frame(place, ada)
    notice = waiting()[LOFT]
    tell(ada, place, notice)
    assert tell(ada, place, notice).status_code == 404
    assert ada.post(place.url("notice-edit", notice.pk), {"body": "Never"}).status_code == 404
    assert ada.post(place.url("notice-aside", notice.pk)).status_code == 404


def test_who_need_not_be_told_is_left_out_and_the_log_says_so(place, ada, makers):
    late_frame(place, ada)
    ada.post(place.url("notice-aside", waiting()[LOFT].pk))
    assert set(waiting()) == {SALTGLAZE}
    assert place.last_log.sentence.startswith("Left Third Bell Canvas Loft untold: Hearthlight")


# Nobody is told a date that has moved again


def test_two_moves_before_anybody_was_told_are_one_letter_from_the_first_day(place, ada, makers):
    late_frame(place, ada, "4")
    late_frame(place, ada, "5")
    assert Notice.objects.count() == 2
    assert "was Mon 17 Mar to Fri 11 Apr 2031\n  now Fri 28 Mar to Thu 24 Apr 2031" in (
        waiting()[LOFT].body
    )


def test_a_second_move_after_they_were_told_begins_where_they_were_told(place, ada, makers):
    late_frame(place, ada, "4")
    tell(ada, place, waiting()[LOFT])
    late_frame(place, ada, "5")
    assert "was Fri 21 Mar to Thu 17 Apr 2031\n  now Fri 28 Mar" in waiting()[LOFT].body


def test_taken_back_before_anybody_was_told_nobody_need_be_told(place, ada, makers):
    late_frame(place, ada)
    undo(ada, place)
    assert not Notice.objects.exists()


def test_taken_back_who_was_told_is_told_again_and_nobody_else(place, ada, makers):
    late_frame(place, ada)
    tell(ada, place, waiting()[LOFT])
    undo(ada, place)
    assert set(waiting()) == {LOFT}
    assert "was Fri 28 Mar to Thu 24 Apr 2031\n  now Mon 17 Mar to Fri 11 Apr" in (
        waiting()[LOFT].body
    )
    assert Notice.objects.filter(told_on__isnull=False).count() == 1


def edited(place, days):
    Task.objects.filter(name__startswith="Weld").update(days=days)
    recompute(place.project, factories.TODAY)


def test_a_letter_whose_dates_moved_again_cannot_be_told_until_it_is_written_anew(
    place, ada, makers
):
    late_frame(place, ada)
    edited(place, 21)
    notice = waiting()[LOFT]
    page = body_of(ada, place)
    assert "The dates have moved again since this was written." in page
    assert "mailto:" not in page
    assert tell(ada, place, notice).status_code == 409
    ada.post(place.url("notice-anew", notice.pk))
    assert "was Mon 17 Mar to Fri 11 Apr 2031\n  now Tue 1 Apr" in waiting()[LOFT].body
    assert tell(ada, place, waiting()[LOFT]).status_code == 302


def test_a_letter_whose_dates_are_back_is_gone_when_written_anew(place, ada, makers):
    late_frame(place, ada)
    edited(place, 10)
    ada.post(place.url("notice-anew", waiting()[LOFT].pk))
    assert set(waiting()) == {SALTGLAZE}


def test_who_was_told_and_whose_dates_moved_since_can_be_written_to_anew(place, ada, makers):
    late_frame(place, ada)
    for notice in waiting().values():
        tell(ada, place, notice)
    assert "Everybody has heard of the dates that moved." in body_of(ada, place)
    edited(place, 21)
    assert "Dates have moved since" in body_of(ada, place)
    told = Notice.objects.get(party=LOFT)
    ada.post(place.url("notice-anew", told.pk))
    assert "was Fri 28 Mar to Thu 24 Apr 2031" in waiting()[LOFT].body
    told.refresh_from_db()
    assert told.told_on == factories.TODAY


def test_letters_that_are_out_of_date_are_not_printed(place, ada, makers):
    late_frame(place, ada)
    edited(place, 21)
    assert "sheetofpaper" not in ada.get(place.url("letters")).content.decode()


# Where it shows


def test_the_overview_says_how_many_wait(place, ada, makers):
    assert overview.to_be_told(place.project, factories.TODAY) is None
    late_frame(place, ada)
    (row,) = overview.to_be_told(place.project, factories.TODAY).rows
    assert (row.text, row.detail) == (
        "2 notices to send", "Saltglaze Metalworks and Third Bell Canvas Loft",
    )  # fmt: skip


def test_after_applying_the_page_names_who_waits(place, ada, makers):
    page = ada.get(late_frame(place, ada).headers["Location"]).content.decode()
    assert "2 notices to send:" in page and SALTGLAZE in page


def test_an_empty_page_says_what_belongs_there(place, ada):
    page = body_of(ada, place)
    assert "everybody who hangs on them gets a message here" in page
    assert place.url("slip") in page


def test_a_reader_sees_who_was_told_but_changes_nothing(place, ada, cyd, makers):
    late_frame(place, ada)
    page = body_of(cyd, place)
    assert LOFT in page and "They have been told" not in page and "Change the words" not in page
    assert tell(cyd, place, waiting()[LOFT]).status_code == 403


def test_notices_of_another_project_are_not_to_be_found(place, ada, makers):
    late_frame(place, ada)
    other = factories.ProjectFactory(name="Two Herons")
    slip = AppliedSlip.objects.create(project=other, on=factories.TODAY, who="eve", sentence="Late")
    theirs = Notice.objects.create(project=other, slip=slip, party="Foundry", subject="Late")
    assert "Foundry" not in body_of(ada, place)
    assert ada.get(place.url("notice-edit", theirs.pk)).status_code == 404


def test_the_questions_asked_do_not_grow_with_the_notices(
    place, ada, makers, django_assert_max_num_queries
):
    late_frame(place, ada)
    body_of(ada, place)
    with django_assert_max_num_queries(45):
        body_of(ada, place)
    slip = AppliedSlip.objects.get()
    for n in range(20):
        Notice.objects.create(project=place.project, slip=slip, party=f"Maker {n}", subject="Late")
    with django_assert_max_num_queries(45):
        body_of(ada, place)


def test_two_people_apply_and_everybody_is_told_once(place, ada, makers):
    late_frame(place, ada, "4")
    late_frame(place, logged_in("ben"), "5")
    assert sorted(n.party for n in Notice.objects.all()) == [SALTGLAZE, LOFT]
    assert waiting()[LOFT].body.endswith("Thank you,\nben")
