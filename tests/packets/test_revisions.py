"""Revisions: letters, kept bytes, and how they go out of date."""

from __future__ import annotations

import hashlib
from datetime import date, timedelta

import pytest
from django.urls import reverse

from budgets.models import BudgetLine
from packets import services
from packets.models import Revision
from packets.pages import gather
from packets.render import Printed
from packets.selectors.packets import packet_of, standing
from packets.services.revisions import keep, letter_of, next_letter, number_of, revision_make
from projects.models import LogEntry, Text
from schedules import plan
from schedules.models import KeyDate
from tests import factories as base
from tests.packets import factories

pytestmark = pytest.mark.django_db
DAY = date(2031, 3, 3)


def made(packet, **pages):
    """A revision kept without setting pages: its facts are real, its bytes are not."""
    parts = [part for part in gather(packet_of(packet.project, packet.pk), DAY) if part.printed]
    printed = Printed(
        data=b"%PDF-1.7 kept",
        pages=9,
        section_pages={"cover": 1, **pages},
        sources={part.key: part.fingerprint for part in parts},
        shown={part.key: part.facts for part in parts},
    )
    return keep(
        packet=packet, user=base.user("ada"), day=DAY, letter=next_letter(packet), printed=printed
    )


def changes_of(packet):
    return standing(packet_of(packet.project, packet.pk), packet.project, DAY).changes


def test_letters_follow_one_another_past_z():
    assert [letter_of(n) for n in (1, 2, 26, 27, 52, 53)] == ["A", "B", "Z", "AA", "AZ", "BA"]
    assert all(number_of(letter_of(n)) == n for n in range(1, 800))


def test_making_a_revision_keeps_its_bytes_and_its_hash(owner, project):
    packet = factories.packet(project)
    owner.post(reverse("packets:revision-make", args=[project.pk, packet.pk]))
    revision = packet.revisions.get()
    data = revision.file.read()
    assert (revision.letter, revision.size) == ("A", len(data)) and data[:5] == b"%PDF-"
    assert revision.sha256 == hashlib.sha256(data).hexdigest()
    assert "Made revision A of Proposal" in LogEntry.objects.first().sentence


def test_a_second_revision_is_b_and_a_stays_as_it_was(project):
    packet = factories.packet(project)
    first, second = made(packet), made(packet)
    assert (first.letter, second.letter) == ("A", "B")
    assert Revision.objects.get(letter="A").sha256 == first.sha256


def test_a_revision_over_the_limits_is_kept_and_says_so(owner, project):
    packet = factories.packet(project, max_pages=5, max_bytes=10)
    assert made(packet, cover=2).over == [
        "9 pages; at most 5 are taken.",
        "1 kB; at most 1 kB are taken.",
    ]
    page = owner.get(reverse("packets:packet", args=[project.pk, packet.pk])).content.decode()
    assert "Over: 9 pages; at most 5 are taken." in page


def test_a_timeline_on_two_pages_where_one_is_asked_is_over():
    packet = factories.packet(factories.hearthlight())
    made(packet, timeline=2)
    asks = standing(packet_of(packet.project, packet.pk), packet.project, DAY).asks
    assert "2 pages in the last revision, 1 allowed" in [asked.figure for asked in asks]


def test_nothing_changed_nothing_stale():
    packet = factories.packet(factories.hearthlight())
    made(packet)
    assert changes_of(packet) == []


def test_a_day_that_passes_makes_nothing_stale():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    later = standing(packet_of(project, packet.pk), project, DAY + timedelta(days=2))
    assert later.changes == []


def test_a_longer_weld_is_told_days_later_too():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    project.tasks.filter(name="Weld lantern frame").update(days=12)
    later = standing(packet_of(project, packet.pk), project, DAY + timedelta(days=2))
    says = {change.title: change.says for change in later.changes}
    assert "Weld lantern frame moved from Mon 3 Mar to Fri 14 Mar to" in says["Timeline"]


def test_a_moved_walk_makes_the_timeline_and_the_cover_stale_and_says_how():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    walk = KeyDate.objects.get(project=project, kind="public")
    walk.on += timedelta(days=7)
    walk.save()
    plan.recompute(project, DAY)
    says = {change.title: change.says for change in changes_of(packet)}
    assert set(says) == {"Cover", "Fabrication and installation", "Timeline"}
    expected = "Timeline: Mill Lane Lantern Walk moved from Sat 14 Jun to Sat 21 Jun."
    assert says["Timeline"].startswith(expected)


def test_a_new_price_makes_the_budget_and_the_cover_stale():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    BudgetLine.objects.filter(project=project, name="Sewn skin").update(planned_cents=300_000)
    found = [change.says for change in changes_of(packet)]
    assert found == [
        "Cover: Cost was $31,500 and is now $31,700.",
        "Budget and income: Sewn skin changed from $2,800 to $3,000.",
    ]


def test_a_rewritten_concept_is_told_without_its_text():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    Text.objects.filter(project=project, topic="concept").update(body="Shorter.")
    assert [change.says for change in changes_of(packet)] == [
        "Concept: The text “Concept” was changed."
    ]


def test_many_changes_are_counted_after_three():
    project = factories.hearthlight()
    packet = factories.packet(project)
    made(packet)
    for n in range(6):
        base.LineFactory(project=project, name=f"Brush {n}")
    says = changes_of(packet)[-1].says
    assert "Brush 0 was added. Brush 0: category" not in says
    assert says.startswith("Budget and income: Brush 0 was added.") and "more changes." in says


def test_another_takes_the_letter_while_the_pages_are_set(project, monkeypatch):
    packet = factories.packet(project)
    blank = Printed(b"%PDF-", 1, {}, {}, {})

    def slow(packet, *, letter, day):
        if letter == "A":
            keep(packet=packet, user=base.user("ben"), day=DAY, letter="A", printed=blank)
        return blank

    monkeypatch.setattr(services.revisions, "print_packet", slow)
    assert revision_make(packet=packet, user=base.user("ada"), today=DAY).letter == "B"


def test_the_file_goes_to_members_only(owner, reader, stranger, project):
    packet = factories.packet(project)
    made(packet)
    place = reverse("packets:revision-file", args=[project.pk, packet.pk, "A"])
    shown, sent = reader.get(place), owner.get(place + "?download")
    assert shown["Content-Type"] == "application/pdf"
    assert shown["X-Content-Type-Options"] == "nosniff"
    assert shown["Content-Disposition"].startswith("inline")
    assert sent["Content-Disposition"] == 'attachment; filename="hearthlight-proposal-rev-a.pdf"'
    assert stranger.get(place).status_code == 404
    assert owner.get(place.replace("/A/", "/B/")).status_code == 404
