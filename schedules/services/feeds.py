"""Switch calendar feeds on and off, renew their addresses, and number what they say."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from django.core.signing import Signer
from django.db import transaction
from django.utils.crypto import constant_time_compare
from django.utils.text import slugify

from projects.log import write
from projects.models import Project
from schedules.models import Feed, FeedEntry
from schedules.selectors.feeds import Item, feed_items, of_supplier
from schedules.selectors.ical import calendar_file
from schedules.services.tasks import User
from suppliers.models import Supplier

SALT = "schedules.feeds"
UID_LENGTH = 32


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedFile:
    body: bytes
    name: str
    tag: str
    changed_at: datetime | None


def token_of(feed: Feed) -> str:
    """The secret part of the address: a new serial makes another one, the old one is dead."""
    signature = Signer(salt=SALT).signature(f"{feed.uid.hex}.{feed.serial}")
    return f"{feed.uid.hex}{signature}"


def feed_of(token: str) -> Feed | None:
    """The feed of an address, or nothing; how far a wrong one is from right takes no less time."""
    try:
        uid = UUID(hex=token[:UID_LENGTH])
    except ValueError:
        return None
    feed = Feed.objects.select_related("project", "supplier").filter(uid=uid).first()
    if feed is None or not constant_time_compare(token, token_of(feed)):
        return None
    return feed


@transaction.atomic
def switch_on(*, project: Project, user: User, supplier: Supplier | None) -> str:
    feed, made = Feed.objects.get_or_create(project=project, supplier=supplier)
    if not made:
        return f"The calendar feed of {party(feed)} is on already."
    sentence = f"Switched on the calendar feed of {party(feed)}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


@transaction.atomic
def switch_off(*, project: Project, user: User, feed: Feed) -> str:
    """The address is dead for good: switched on again, the feed has another."""
    feed.delete()
    sentence = f"Switched off the calendar feed of {party(feed)}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


@transaction.atomic
def renew(*, project: Project, user: User, feed: Feed) -> str:
    held = Feed.objects.select_for_update().get(pk=feed.pk)
    held.serial += 1
    held.save(update_fields=["serial"])
    sentence = f"Renewed the address of the calendar feed of {party(feed)}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def party(feed: Feed) -> str:
    return str(feed.supplier or "the whole project")


def feed_file(feed: Feed, today: date, now: datetime) -> FeedFile:
    """The file as it is now. What was taken out of the plan is left out: a reader replaces all."""
    project = feed.project
    items = feed_items(project, today)
    entries = numbered(project, items, now)
    name = f"{project}: {feed.supplier}" if feed.supplier else str(project)
    told = of_supplier(items, feed.supplier_id) if feed.supplier_id else items
    body = calendar_file(project, name, told, entries)
    return FeedFile(
        body=body,
        name=f"{slugify(name) or 'calendar'}.ics",
        tag=f'"{hashlib.sha256(body).hexdigest()[:32]}"',
        changed_at=max((entry.changed_at for entry in entries.values()), default=None),
    )


def numbered(project: Project, items: Iterable[Item], now: datetime) -> Mapping[str, FeedEntry]:
    """What was last said of each entry, after whatever is said anew has its next number."""
    said = {item.key: item.digest for item in items}
    entries = known(project)
    if changed(said, entries):
        with transaction.atomic():
            Project.objects.select_for_update().get(pk=project.pk)
            entries = known(project)
            renumber(project, entries, changed(said, entries), now)
            entries = known(project)
    return entries


def known(project: Project) -> dict[str, FeedEntry]:
    return {entry.key: entry for entry in FeedEntry.objects.filter(project=project)}


def changed(said: Mapping[str, str], entries: Mapping[str, FeedEntry]) -> dict[str, str]:
    """What is said now of every entry that differs; nothing of one that is gone."""
    gone = {key: "" for key in entries if key not in said}
    return {
        key: digest
        for key, digest in {**said, **gone}.items()
        if key not in entries or entries[key].said != digest
    }


def renumber(
    project: Project, entries: Mapping[str, FeedEntry], said: Mapping[str, str], now: datetime
) -> None:
    """A first word is sequence 0, each later one the next (RFC 5545, section 3.8.7.4)."""
    first = [key for key in said if key not in entries]
    FeedEntry.objects.bulk_create(
        FeedEntry(project=project, key=key, said=said[key], changed_at=now) for key in first
    )
    again = [entries[key] for key in said if key in entries]
    for entry in again:
        entry.sequence, entry.said, entry.changed_at = entry.sequence + 1, said[entry.key], now
    FeedEntry.objects.bulk_update(again, ["sequence", "said", "changed_at"])
