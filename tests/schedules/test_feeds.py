"""Calendar feeds, read back with the icalendar library and against RFC 5545 by its sections."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest
from icalendar import Calendar

from projects.models import Site
from schedules.models import Feed, FeedEntry, KeyDate, Lane, Task
from schedules.plan import recompute
from schedules.selectors.feeds import feed_items
from schedules.services.feeds import feed_file
from tests import factories
from tests.schedules.feed_reader import events, lines, unfolded

NOW = datetime(2031, 3, 3, 12, tzinfo=UTC)
LATER = NOW + timedelta(hours=2)
MOST_OCTETS = 75


@pytest.fixture
def maker(place):
    """Saltglaze Metalworks welds the frame; the order and a hire are theirs, too."""
    made = factories.SupplierFactory(project=place.project)
    lane = Lane.objects.create(project=place.project, name="Saltglaze Metalworks", supplier=made)
    Task.objects.filter(name__startswith="Weld").update(lane=lane)
    factories.OrderFactory(
        supplier=made, title="Frame", window_start=date(2031, 3, 3), window_end=date(2031, 3, 14)
    )
    hire = place.project.hammocks.create(name="Welding bench", lane=lane, day_cents=123_45)
    hire.from_tasks.set([place.task("Weld")])
    hire.to_tasks.set([place.task("Cut")])
    recompute(place.project, factories.TODAY)
    return made


@pytest.fixture
def feed(place):
    return Feed.objects.create(project=place.project)


def written(feed, now=NOW):
    return feed_file(feed, factories.TODAY, now).body


def late(place, days):
    Task.objects.filter(name__startswith="Weld").update(days=10 + days)
    recompute(place.project, factories.TODAY)


def test_a_project_feed_holds_tasks_hires_booked_days_and_key_dates(feed, maker):
    assert set(events(written(feed))) == {
        "Weld lantern frame",
        "Cut and sew skin",
        "Encroachment permit review",
        "Welding bench",
        "Frame: days of the order",
        "Mill Lane Lantern Walk",
    }


def test_a_task_lasts_to_the_end_of_its_last_day(feed):
    """DTEND is not part of the event: section 3.6.1. A date is a VALUE=DATE: 3.3.4."""
    weld = events(written(feed))["Weld lantern frame"]
    assert weld["DTSTART"].dt == date(2031, 3, 3)
    assert weld["DTEND"].dt == date(2031, 3, 15)
    assert "DTSTART;VALUE=DATE:20310303" in unfolded(written(feed))


def test_an_entry_says_where_and_how_much_room_there_is(place, feed):
    Site.objects.create(project=place.project, name="North pier", address="Mill Lane")
    weld = events(written(feed))["Weld lantern frame"]
    assert weld["DESCRIPTION"] == (
        "Hearthlight. Done by: Artist. 45 days in hand: it must end by Fri 16 May."
    )
    assert weld["LOCATION"] == "North pier, Mill Lane"
    assert (weld["STATUS"], weld["TRANSP"]) == ("TENTATIVE", "TRANSPARENT")


def test_a_task_under_way_is_confirmed(place, feed):
    Task.objects.filter(name__startswith="Weld").update(started_on=date(2031, 2, 24))
    recompute(place.project, factories.TODAY)
    weld = events(written(feed))["Weld lantern frame"]
    assert weld["STATUS"] == "CONFIRMED"
    assert "It is under way." in weld["DESCRIPTION"]


def test_a_slip_raises_the_sequence_and_keeps_the_uid(place, feed):
    """UID: section 3.8.4.7. SEQUENCE: 3.8.7.4. LAST-MODIFIED: 3.8.7.3."""
    before = events(written(feed))["Weld lantern frame"]
    late(place, 3)
    after = events(written(feed, LATER))["Weld lantern frame"]
    assert after["UID"] == before["UID"]
    assert (before["SEQUENCE"], after["SEQUENCE"]) == (0, 1)
    assert (before["LAST-MODIFIED"].dt, after["LAST-MODIFIED"].dt) == (NOW, LATER)
    assert after["DTEND"].dt == date(2031, 3, 20)


def test_what_did_not_move_keeps_its_sequence(place, feed):
    before = written(feed)
    assert written(feed, LATER) == before
    late(place, 3)
    permit = events(written(feed, LATER))["Encroachment permit review"]
    assert (permit["SEQUENCE"], permit["DTSTAMP"].dt) == (0, NOW)


def test_new_words_alone_raise_the_sequence(place, feed):
    written(feed)
    Task.objects.filter(name__startswith="Weld").update(name="Weld the frame")
    assert events(written(feed, LATER))["Weld the frame"]["SEQUENCE"] == 1


def test_a_removed_task_is_left_out_and_its_number_is_kept(place, feed):
    """A published calendar is the whole of it, so that a reader who asks again drops the rest."""
    written(feed)
    place.task("Encroachment").delete()
    file = feed_file(feed, factories.TODAY, LATER)
    assert "Encroachment permit review" not in events(file.body)
    assert file.changed_at == LATER
    assert FeedEntry.objects.filter(said="").get().sequence == 1


def test_uids_are_told_apart_and_name_no_machine(place, feed, maker):
    """Globally unique, and without a host name: section 3.8.4.7 and RFC 7986, section 5.3."""
    other = factories.ProjectFactory(name="Two Herons")
    factories.CalendarFactory(project=other)
    factories.KeyDateFactory(project=other)
    found = [
        str(e["UID"])
        for one in (feed, Feed.objects.create(project=other))
        for e in events(written(one)).values()
    ]
    assert len(set(found)) == len(found) == 7
    assert len({uid.split("@")[1] for uid in found}) == 2
    assert not any("localhost" in uid or "." in uid for uid in found)


def test_a_timed_date_is_on_the_clock_of_its_place(place, feed):
    """TZID with its VTIMEZONE: sections 3.2.19 and 3.6.5."""
    KeyDate.objects.filter(pk=place.public.pk).update(at=time(18, 30))
    recompute(place.project, factories.TODAY)
    body = written(feed)
    walk = events(body)["Mill Lane Lantern Walk"]
    assert "DTSTART;TZID=America/New_York:20310614T183000" in unfolded(body)
    assert walk["DTSTART"].dt.astimezone(UTC) == datetime(2031, 6, 14, 22, 30, tzinfo=UTC)
    assert "DTEND" not in walk and walk["TRANSP"] == "OPAQUE"


def test_the_time_zone_of_the_file_changes_its_clock_by_the_law(place, feed):
    """Clocks go on on 9 March and back on 2 November 2031: 15 U.S.C. 260a."""
    KeyDate.objects.filter(pk=place.public.pk).update(at=time(18, 30))
    (zone,) = Calendar.from_ical(written(feed)).walk("VTIMEZONE")
    assert zone["TZID"] == "America/New_York"
    clock = zone.to_tz()
    offsets = [
        datetime(2031, *day, 12, tzinfo=clock).utcoffset() / timedelta(hours=1)
        for day in ((3, 8), (3, 10), (11, 1), (11, 3))
    ]
    assert offsets == [-5, -4, -4, -5]


def test_a_file_without_times_needs_no_time_zone(feed):
    assert not Calendar.from_ical(written(feed)).walk("VTIMEZONE")


def hard(place):
    """Names with everything that must be escaped or folded."""
    name = "Weld; cut, bend \\ grind: «" + "é" * 60 + "»"
    Task.objects.filter(name__startswith="Weld").update(name=name)
    Site.objects.create(project=place.project, name="Pier 4", address="Mill Lane\nWexcombe Mills")
    recompute(place.project, factories.TODAY)
    return name


def test_no_line_is_longer_than_75_octets_and_each_ends_in_crlf(place, feed):
    """Section 3.1; a fold must not cut a letter in two."""
    hard(place)
    body = written(feed)
    assert max(map(len, lines(body))) <= MOST_OCTETS
    assert body.count(b"\n") == body.count(b"\r\n") == body.count(b"\r")
    for line in lines(body):
        line.decode()


def test_text_is_escaped_and_read_back_as_it_was(place, feed):
    """Backslash, semicolon, comma and new line: section 3.3.11."""
    name = hard(place)
    body = written(feed)
    assert "SUMMARY:Weld\\; cut\\, bend \\\\ grind: «" in "\n".join(unfolded(body))
    assert "LOCATION:Pier 4\\, Mill Lane\\nWexcombe Mills" in unfolded(body)
    assert str(events(body)[name]["SUMMARY"]) == name


def test_what_must_stand_once_stands_once(place, feed, maker):
    """VERSION and PRODID: section 3.6. UID, DTSTAMP and DTSTART of an event: 3.6.1."""
    body = written(feed)
    whole = Calendar.from_ical(body)
    assert (whole["VERSION"], whole["CALSCALE"]) == ("2.0", "GREGORIAN")
    assert whole["PRODID"] == "-//Giornata//Schedule//EN"
    text = unfolded(body)
    for name in ("UID", "DTSTAMP", "DTSTART", "SEQUENCE", "SUMMARY", "STATUS"):
        count = sum(line.startswith((f"{name}:", f"{name};")) for line in text)
        assert count == len(events(body)) == 6
    assert text.count("DTSTAMP:20310303T120000Z") == 6


def test_statuses_are_those_of_an_event(feed, maker):
    """Section 3.8.1.11 knows three for an event."""
    found = {str(e["STATUS"]) for e in events(written(feed)).values()}
    assert found <= {"TENTATIVE", "CONFIRMED", "CANCELLED"}


def test_a_supplier_reads_only_its_own_and_the_public_date(place, maker):
    theirs = Feed.objects.create(project=place.project, supplier=maker)
    weld = place.task("Weld")
    KeyDate.objects.create(
        project=place.project, name="Steel comes", kind="delivery", on=date(2031, 3, 4), task=weld
    )
    KeyDate.objects.create(project=place.project, name="Board", kind="hearing", on=date(2031, 4, 1))
    assert set(events(written(theirs))) == {
        "Weld lantern frame",
        "Welding bench",
        "Frame: days of the order",
        "Steel comes",
        "Mill Lane Lantern Walk",
    }


def test_a_task_that_needs_the_lift_besides_is_told_to_the_lift_hire(place, maker):
    lift = factories.SupplierFactory(project=place.project, name="Millrace Lift Hire")
    lane = Lane.objects.create(project=place.project, name="Lift", supplier=lift)
    place.task("Cut").also.add(lane)
    theirs = Feed.objects.create(project=place.project, supplier=lift)
    assert set(events(written(theirs))) == {"Cut and sew skin", "Mill Lane Lantern Walk"}


def test_no_feed_shows_money(place, feed, maker):
    theirs = Feed.objects.create(project=place.project, supplier=maker)
    for body in (written(feed), written(theirs)):
        text = body.decode()
        assert "$" not in text and "1500" not in text and "123.45" not in text


def test_a_cancelled_order_is_left_out(feed, maker):
    maker.orders.update(state="cancelled")
    assert "Frame: days of the order" not in events(written(feed))


def test_entries_take_a_constant_number_of_queries(place, maker, django_assert_max_num_queries):
    for n in range(5):
        factories.TaskFactory(project=place.project, name=f"More {n}")
        factories.OrderFactory(supplier=maker, title=f"Order {n}", window_end=date(2031, 4, 1))
    recompute(place.project, factories.TODAY)
    with django_assert_max_num_queries(14):
        feed_items(place.project, factories.TODAY)
