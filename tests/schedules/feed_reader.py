"""Read a calendar feed back, through the icalendar library and as the lines that it is."""

from __future__ import annotations

from icalendar import Calendar


def events(body: bytes) -> dict[str, object]:
    """The entries by their name."""
    return {str(e["SUMMARY"]): e for e in Calendar.from_ical(body).walk("VEVENT")}


def lines(body: bytes) -> list[bytes]:
    assert body.endswith(b"\r\n")
    return body.split(b"\r\n")[:-1]


def unfolded(body: bytes) -> list[str]:
    """Content lines with the folds taken out (section 3.1)."""
    return body.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]
