"""A zone in a feed, against the worked example of RFC 5545, section 3.6.5 (2009)."""

from __future__ import annotations

from datetime import date

import pytest
from icalendar import Timezone

from schedules.selectors.ical_zone import time_zone

NEW_YORK_2007 = [
    ("DAYLIGHT", "20070311T020000", "-0500", "-0400", "EDT"),
    ("STANDARD", "20071104T020000", "-0400", "-0500", "EST"),
]


def told(zone: Timezone) -> list[tuple[str, ...]]:
    return [
        (
            str(one.name),
            f"{one['DTSTART'].dt:%Y%m%dT%H%M%S}",
            one["TZOFFSETFROM"].to_ical(),
            one["TZOFFSETTO"].to_ical(),
            str(one["TZNAME"]),
        )
        for one in zone.subcomponents
    ]


def test_the_clocks_of_new_york_change_as_the_standard_writes_it():
    first, *rest = told(time_zone("America/New_York", date(2007, 1, 1), date(2008, 1, 1)))
    assert rest == NEW_YORK_2007
    assert first == ("STANDARD", "20061231T190000", "-0500", "-0500", "EST")


@pytest.mark.parametrize(
    ("key", "name"), [("Australia/Brisbane", "AEST"), ("America/Phoenix", "MST")]
)
def test_a_zone_whose_clocks_never_change_has_one_offset(key, name):
    (only,) = told(time_zone(key, date(2031, 1, 1), date(2033, 1, 1)))
    assert only[0] == "STANDARD" and only[1:][-1] == name and only[2] == only[3]


def test_a_southern_summer_begins_in_october():
    changes = told(time_zone("Australia/Sydney", date(2031, 6, 1), date(2032, 6, 1)))[1:]
    assert [(c[0], c[1]) for c in changes] == [
        ("DAYLIGHT", "20311005T020000"),
        ("STANDARD", "20320404T030000"),
    ]
