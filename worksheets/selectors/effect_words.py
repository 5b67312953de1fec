"""What a purchase list does to a request for quotes, and sentences to the maintenance plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from projects.words import day_year, listed, plural
from suppliers.models import QuoteRequest
from worksheets.selectors.desk import Change, Desk, Effect
from worksheets.selectors.handed import care_text


def joined(body: str, old: str, new: str) -> str:
    """A text with its earlier paragraph replaced, or with a new one at its end.

    >>> joined("Wash it.", "", "Water it.")
    'Wash it.\\n\\nWater it.'
    >>> joined("Wash it.\\n\\nWater it.", "Water it.", "Water it twice.")
    'Wash it.\\n\\nWater it twice.'
    """
    body = body.replace("\r\n", "\n")
    if old and old in body:
        return body.replace(old, new, 1)
    if new and new in body:
        return body
    return "\n\n".join(filter(None, (body.strip(), new)))


def on_care(desk: Desk, values: Mapping[str, Any]) -> Effect:
    body, old = care_text(desk.project), desk.handed.put if desk.handed else ""
    return Effect(
        where="the maintenance plan",
        target="care",
        changes=(
            Change(
                label="Its words",
                was=counted(body),
                becomes=counted(joined(body, old, values["text"])),
            ),
        ),
        notes=tuple(replaced(body, old)),
        words=desk.words,
    )


def counted(body: str) -> str:
    return plural(len(body.split()), "word") if body.strip() else "nothing yet"


def replaced(body: str, old: str) -> Iterator[str]:
    if old and old in body:
        yield "What was handed on before is replaced; the rest stays as it is."
    elif old:
        yield (
            "What was handed on before has been changed there by hand, so it stays: look it over "
            "afterwards."
        )
    elif body.strip():
        yield "It comes after what is there already."


def on_request(desk: Desk, values: Mapping[str, Any]) -> Effect:
    found = values["request"]
    if found is None:
        lines = plural(len(values["what"].splitlines()), "line")
        change = Change(label="What is asked for", was="no such request yet", becomes=lines)
        return Effect(
            where=f"a new request “{values['title']}”", target="request-new",
            changes=(change,), words=desk.words,
        )  # fmt: skip
    old = put_there(desk, found)
    body = joined(found.what, old, values["what"])
    changes = [Change(label="What is asked for", was=line_count(found.what),
                      becomes=line_count(body))]  # fmt: skip
    if values["wanted_on"]:
        was = day_year(found.wanted_on) if found.wanted_on else "no day"
        day = day_year(values["wanted_on"])
        changes.append(Change(label="Wanted on site by", was=was, becomes=day))
    return Effect(
        where=f"the request “{found.title}”",
        target=f"request-{found.pk}",
        changes=tuple(changes),
        warnings=tuple(asked_words(found)),
        notes=tuple(replaced(found.what, old)),
        words=desk.words,
    )


def put_there(desk: Desk, found: QuoteRequest) -> str:
    """The list that went to this very request before."""
    if desk.handed and desk.handed.request_id == found.pk:
        return desk.handed.put
    return ""


def line_count(body: str) -> str:
    return plural(len([line for line in body.splitlines() if line.strip()]), "line")


def asked_words(found: QuoteRequest) -> Iterator[str]:
    names = [
        row.supplier.name
        for row in found.quotes.exclude(asked_on=None).select_related("supplier").order_by("pk")
    ]
    if names:
        were = "was" if len(names) == 1 else "were"
        yield f"{listed(names)} {were} asked in the old words already: send the new ones too."
