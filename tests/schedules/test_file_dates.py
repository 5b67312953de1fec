"""Key dates from a calendar file: what RFC 5545 lets others write, and what is not a calendar."""

from __future__ import annotations

import re
from datetime import date, time

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from schedules.models import KeyDate
from tests import factories


def calendar(*events: str) -> str:
    body = "".join(f"BEGIN:VEVENT\n{event.strip()}\nEND:VEVENT\n" for event in events)
    text = f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Wexcombe Mills//Board//EN\n{body}END:VCALENDAR"
    return text.replace("\n", "\r\n") + "\r\n"


HEARING = """
UID:hearing-7@board.example
DTSTAMP:20310101T000000Z
DTSTART;TZID=America/New_York:20310408T190000
DTEND;TZID=America/New_York:20310408T210000
SUMMARY:Arts board\\, final design
"""
CLOSURE = """
UID:closure@town.example
DTSTAMP:20310101T000000Z
DTSTART;VALUE=DATE:20310512
DTEND;VALUE=DATE:20310517
SUMMARY:Path closed
"""
MONTHLY = """
UID:monthly@board.example
DTSTAMP:20310101T000000Z
DTSTART;TZID=America/New_York:20300108T190000
RRULE:FREQ=MONTHLY;BYDAY=2TU;UNTIL=20310715T000000Z
EXDATE;TZID=America/New_York:20310513T190000
SUMMARY:Board meets
"""
MOVED = """
UID:monthly@board.example
DTSTAMP:20310101T000000Z
RECURRENCE-ID;TZID=America/New_York:20310610T190000
DTSTART;TZID=America/New_York:20310617T180000
SUMMARY:Board meets, in June a week later
"""
IN_UTC = """
UID:utc@town.example
DTSTAMP:20310101T000000Z
DTSTART:20310409T010000Z
SUMMARY:Call with the town
"""


class Desk:
    """Sends files to the page and keeps what it offers."""

    def __init__(self, place, client):
        self.place, self.client = place, client

    def read(self, text: str | bytes, name: str = "board.ics"):
        data = text if isinstance(text, bytes) else text.encode()
        file = SimpleUploadedFile(name, data, "text/calendar")
        return self.client.post(self.place.url("dates-read"), {"file": file})

    def keep(self, text: str | bytes, *, tick=None, kind="hearing"):
        page = self.read(text).content.decode()
        found = re.search(r'name="found" value="([^"]+)"', page)[1]
        ticked = re.findall(r'name="tick" value="(\d+)" checked', page) if tick is None else tick
        data = {"found": found, "tick": ticked, "kind": kind}
        return self.client.post(self.place.url("dates-keep"), data)


@pytest.fixture
def desk(place, ada):
    return Desk(place, ada)


def kept(place):
    rows = KeyDate.objects.filter(project=place.project).exclude(source_uid="")
    return [(row.name, row.on, row.at) for row in rows]


def test_a_hearing_becomes_a_key_date_at_its_hour(place, desk):
    desk.keep(calendar(HEARING))
    assert kept(place) == [("Arts board, final design", date(2031, 4, 8), time(19))]
    row = KeyDate.objects.get(source_uid="hearing-7@board.example")
    assert (row.kind, row.effect, row.movable) == ("hearing", "none", False)
    assert place.last_log.sentence == (
        "Added 1 key date from a calendar file: “Arts board, final design”."
    )


def test_the_same_file_again_doubles_nothing(place, desk):
    desk.keep(calendar(HEARING))
    desk.keep(calendar(HEARING), tick=["0"])
    assert len(kept(place)) == 1
    assert "On the plan now" in desk.read(calendar(HEARING)).content.decode()


def test_a_hearing_that_was_put_off_moves_and_stays_tied_to_its_task(place, desk):
    desk.keep(calendar(HEARING))
    task = place.task("Cut")
    KeyDate.objects.exclude(source_uid="").update(task=task, effect="no_earlier")
    later = HEARING.replace("20310408", "20310422")
    assert "Tue 8 Apr 2031 19:00, would move" in desk.read(calendar(later)).content.decode()
    desk.keep(calendar(later))
    row = KeyDate.objects.exclude(source_uid="").get()
    assert (row.on, row.task, row.effect) == (date(2031, 4, 22), task, "no_earlier")
    assert place.task("Cut").early_start > task.early_start


def test_a_time_in_utc_is_shown_on_the_clock_of_the_project(place, desk):
    """01:00 UTC on 9 April is 21:00 on the day before in New York: UTC−4 by 15 U.S.C. 260a."""
    desk.keep(calendar(IN_UTC))
    assert kept(place) == [("Call with the town", date(2031, 4, 8), time(21))]


def test_a_floating_time_is_taken_as_the_clock_of_the_project(place, desk):
    """A time without a zone is the same on every clock: section 3.3.5, form 1."""
    desk.keep(calendar(IN_UTC.replace("010000Z", "093000")))
    assert kept(place) == [("Call with the town", date(2031, 4, 9), time(9, 30))]


def test_of_several_days_the_first_is_taken_and_the_page_says_so(place, desk):
    assert "It goes on until Fri 16 May; its first day is taken." in (
        desk.read(calendar(CLOSURE)).content.decode()
    )
    desk.keep(calendar(CLOSURE))
    assert kept(place) == [("Path closed", date(2031, 5, 12), None)]


def test_a_monthly_meeting_becomes_its_days_from_today_on(place, desk):
    """RRULE, EXDATE and RECURRENCE-ID: sections 3.8.5.3, 3.8.5.1 and 3.8.4.4."""
    desk.keep(calendar(MONTHLY, MOVED))
    assert [(on, at) for _, on, at in kept(place)] == [
        (date(2031, 3, 11), time(19)),
        (date(2031, 4, 8), time(19)),
        (date(2031, 6, 17), time(18)),
        (date(2031, 7, 8), time(19)),
    ]


def test_an_instance_that_is_moved_later_moves_its_own_key_date(place, desk):
    desk.keep(calendar(MONTHLY))
    desk.keep(calendar(MONTHLY, MOVED))
    days = [on for _, on, _ in kept(place)]
    assert date(2031, 6, 17) in days and date(2031, 6, 10) not in days and len(days) == 4


def test_what_was_cancelled_or_is_past_is_left_out_and_counted(desk):
    gone = HEARING.replace("hearing-7", "gone") + "STATUS:CANCELLED"
    past = IN_UTC.replace("20310409", "20300409")
    page = desk.read(calendar(HEARING, gone, past)).content.decode()
    assert "2 other events left out" in page and "1 day from today on" in page


def test_an_event_without_a_uid_is_told_by_its_day_and_name(place, desk):
    """A UID is required (section 3.6.1), but some files have none."""
    bare = HEARING.replace("UID:hearing-7@board.example\n", "")
    desk.keep(calendar(bare))
    desk.keep(calendar(bare), tick=["0"])
    assert len(kept(place)) == 1


def test_long_names_and_long_uids_are_kept_short(place, desk):
    long = HEARING.replace("hearing-7", "h" * 5000).replace("final design", "n" * 5000)
    desk.keep(calendar(long))
    ((name, _, _),) = kept(place)
    assert len(name) == 120 and name.endswith("…")


ODD_RULES = [
    "FREQ=SECONDLY",
    "FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30",
    "FREQ=DAILY;BYHOUR=0,1,2;BYSECOND=0,1",
    "FREQ=DAILY;BYMONTH=13",
    "FREQ=MONTHLY;BYDAY=9TU",
    "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
    "FREQ=SOMETIMES",
    "FREQ=DAILY;INTERVAL=0",
    "FREQ=WEEKLY;BYDAY=XX",
]


@pytest.mark.parametrize("rule", ODD_RULES)
def test_a_rule_that_is_not_read_leaves_its_first_day(desk, rule):
    page = desk.read(calendar(f"{HEARING}RRULE:{rule}")).content.decode()
    assert "Arts board, final design" in page or "damaged" in page


def test_a_daily_event_gives_at_most_sixty_days(place, desk):
    desk.keep(calendar(HEARING.replace("20310408", "20200408") + "RRULE:FREQ=DAILY"))
    days = [on for _, on, _ in kept(place)]
    assert len(days) == 60 and days[0] == factories.TODAY


BAD = [
    (b"", "This file is empty."),
    (b"%PDF-1.7 not a calendar", "This is not a calendar file."),
    (b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n", "in this calendar file"),
    (b"BEGIN:VCALENDAR\r\n\x00\xff;;;:::\r\nEND:VEVENT\r\n", "calendar file"),
    (calendar(HEARING.replace("America/New_York", "America")).encode(), "is damaged"),
    (calendar().encode(), "There are no events in this calendar file."),
    (calendar(HEARING.replace("2031", "2011")).encode(), "No event in this file lies between"),
    (calendar(HEARING.replace("DTSTART", "X-START")).encode(), "No event in this file lies"),
    (calendar(HEARING.replace("20310408T190000", "someday")).encode(), "in this file"),
    (b"BEGIN:VCALENDAR" + b"x" * 1_100_000, "larger than 1 MB"),
]


@pytest.mark.parametrize(("data", "said"), BAD)
def test_a_file_that_is_no_calendar_is_answered_beside_its_field(desk, data, said):
    answer = desk.read(data)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_nothing_ticked_keeps_the_page_and_says_so(place, desk):
    answer = desk.keep(calendar(HEARING), tick=[])
    assert answer.status_code == 422
    assert "Tick at least one day." in answer.content.decode()
    assert "Arts board, final design" in answer.content.decode()
    assert kept(place) == []


def test_the_public_date_is_not_made_by_a_file(place, desk):
    assert desk.keep(calendar(HEARING), kind="public").status_code == 422
    assert kept(place) == []


def test_what_was_read_for_another_project_or_changed_on_the_way_is_refused(place, ada, desk):
    page = desk.read(calendar(HEARING)).content.decode()
    found = re.search(r'name="found" value="([^"]+)"', page)[1]
    for text in (found[:-2] + "xx", "", "x" * 100):
        data = {"found": text, "tick": ["0"], "kind": "hearing"}
        answer = ada.post(place.url("dates-keep"), data)
        assert answer.status_code == 422
    assert kept(place) == []


def test_a_reader_brings_in_nothing(place, cyd, dee):
    for client, status in ((cyd, 403), (dee, 404)):
        assert Desk(place, client).read(calendar(HEARING)).status_code == status
        assert client.post(place.url("dates-keep"), {}).status_code == status
