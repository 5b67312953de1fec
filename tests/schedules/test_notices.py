"""Who is told what: each party its own dates, the new and the old, and nothing of the others."""

from __future__ import annotations

from datetime import date
from urllib.parse import parse_qs, unquote, urlsplit

import pytest

from packets.models import Packet, Revision
from projects.models import Site
from schedules.models import Hammock, Notice, Task
from schedules.plan import recompute
from schedules.selectors.notices import Line
from tests import factories
from tests.schedules.conftest import LOFT, SALTGLAZE
from tests.schedules.test_slip_options import apply, changes, task, walk

LIFT = "Millrace Lift Hire"


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


def test_a_walk_that_moves_alone_is_nothing_to_the_makers_whose_days_stay(place, ada, makers):
    week_later(place, ada)
    assert waiting() == {}


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
