"""The packets sheet and a packet's page, as people use them."""

from __future__ import annotations

import pytest
from django.urls import reverse

from packets.models import Ask
from projects.models import LogEntry, Text
from tests.packets import factories

pytestmark = pytest.mark.django_db


@pytest.fixture
def packet(project):
    return factories.packet(project)


def url(name, *args):
    return reverse(f"packets:{name}", args=args)


def test_the_sheet_lists_packets_with_due_day_and_asks_met(owner, project, packet):
    page = owner.get(url("packets", project.pk)).content.decode()
    assert "0 of 11 asks met" in page
    assert "no due date" in page and "none yet" in page


def test_an_empty_sheet_teaches_and_starts_a_proposal(owner, project):
    assert "Start a proposal" in owner.get(url("packets", project.pk)).content.decode()
    owner.post(url("packet-new", project.pk), {"kind": "proposal"})
    assert project.packets.get().asks.count() == 12


def test_each_ask_says_what_is_missing_and_links_to_it(owner, project, packet):
    page = owner.get(url("packet", project.pk, packet.pk)).content.decode()
    assert "No text yet" in page
    assert f"/projects/{project.pk}/texts/concept/?packet={packet.pk}" in page


def test_a_concept_over_its_words_is_over_by_the_difference(owner, project, packet):
    Text.objects.create(project=project, topic="concept", body="word " * 612)
    page = owner.get(url("packet", project.pk, packet.pk)).content.decode()
    assert "612 words, 112 over the 500 allowed" in page


def test_a_picture_too_many_links_to_where_one_is_removed(owner, project, packet):
    for _ in range(6):
        factories.PictureFactory(project=project, width=60, height=40)
    page = owner.get(url("packet", project.pk, packet.pk)).content.decode()
    assert "6 pictures, 1 over the 5 allowed" in page
    assert f'<a href="/projects/{project.pk}/">Remove a picture</a>' in page


def test_an_ask_is_added_in_place_and_logged(owner, project, packet):
    data = {"title": "References", "section": "team", "needed": "on", "max_words": "200"}
    answer = owner.post(url("ask-add", project.pk, packet.pk), data, headers={"HX-Request": "true"})
    assert answer.status_code == 200 and "References" in answer.content.decode()
    assert Ask.objects.get(title="References").max_words == 200
    assert "References" in LogEntry.objects.first().sentence


def test_an_ask_with_bad_numbers_keeps_what_was_typed(owner, project, packet):
    data = {"title": "Pictures", "section": "site", "min_pictures": "9", "max_pictures": "3"}
    answer = owner.post(url("ask-add", project.pk, packet.pk), data)
    page = answer.content.decode()
    assert answer.status_code == 422 and 'value="9"' in page
    assert "At most 3 is fewer than at least 9" in page


@pytest.mark.parametrize("words", ["-5", "1.5", "many", "9" * 30])
def test_a_limit_that_is_no_number_gets_a_sentence(owner, project, packet, words):
    data = {"title": "Concept", "section": "concept", "max_words": words}
    answer = owner.post(url("ask-add", project.pk, packet.pk), data)
    assert answer.status_code == 422
    assert "Write a whole number of words from 1 to 20,000" in answer.content.decode()


def test_an_ask_is_changed_and_deleted(owner, project, packet):
    ask = packet.asks.first()
    data = {"title": "Cover page", "section": "cover"}
    owner.post(url("ask-edit", project.pk, packet.pk, ask.pk), data)
    assert packet.asks.get(pk=ask.pk).title == "Cover page"
    question = owner.get(url("ask-delete", project.pk, packet.pk, ask.pk)).content.decode()
    assert "Delete “Cover page”?" in question
    owner.post(url("ask-delete", project.pk, packet.pk, ask.pk))
    assert not packet.asks.filter(pk=ask.pk).exists()


def test_limits_are_kept_in_bytes_and_shown_in_megabytes(owner, project, packet):
    data = {"title": "Proposal", "due_on": "2031-03-10", "max_pages": "12", "max_bytes": "2.5"}
    owner.post(url("packet-edit", project.pk, packet.pk), data)
    packet.refresh_from_db()
    assert (packet.max_bytes, packet.max_pages) == (2_500_000, 12)
    page = owner.get(url("packet", project.pk, packet.pk)).content.decode()
    assert "in 7 days" in page and "at most 12" in page


def test_a_due_date_that_does_not_exist_is_refused(owner, project, packet):
    data = {"title": "Proposal", "due_on": "2031-02-30"}
    answer = owner.post(url("packet-edit", project.pk, packet.pk), data)
    assert answer.status_code == 422 and "There is no such day" in answer.content.decode()


def test_a_text_is_written_once_and_comes_back_to_the_packet(owner, project, packet):
    place = f"{url('text-edit', project.pk, 'care')}?packet={packet.pk}"
    answer = owner.post(place, {"body": "Washed once a year."})
    assert answer.url == url("packet", project.pk, packet.pk)
    assert Text.objects.get(topic="care").body == "Washed once a year."


def test_a_text_of_100_000_characters_is_refused_and_not_lost(owner, project, packet):
    answer = owner.post(url("text-edit", project.pk, "care"), {"body": "wash " * 20_000})
    page = answer.content.decode()
    assert answer.status_code == 422 and "at most 20,000 can be kept" in page
    assert page.count("wash ") >= 20_000 and not Text.objects.exists()


def test_words_are_counted_while_a_text_is_typed(owner, project, packet):
    answer = owner.post(url("text-count", project.pk, "concept"), {"body": "one two " * 300})
    assert "600 of 500 words for Proposal: 100 too many" in answer.content.decode()


def test_html_in_a_text_is_shown_as_it_was_typed(owner, project, packet):
    Text.objects.create(project=project, topic="concept", body="<script>alert(1)</script>")
    page = owner.get(url("text-edit", project.pk, "concept")).content.decode()
    assert "<script>alert(1)" not in page and "&lt;script&gt;" in page


def test_there_is_no_text_on_a_topic_that_is_not_in_the_list(owner, project):
    assert owner.get(url("text-edit", project.pk, "weather")).status_code == 404


def pages(project, packet):
    ask = packet.asks.first().pk
    return [
        ("get", url("packets", project.pk), True),
        ("get", url("packet", project.pk, packet.pk), True),
        ("post", url("packet-new", project.pk), False),
        ("post", url("packet-edit", project.pk, packet.pk), False),
        ("post", url("ask-add", project.pk, packet.pk), False),
        ("post", url("ask-edit", project.pk, packet.pk, ask), False),
        ("post", url("ask-delete", project.pk, packet.pk, ask), False),
        ("post", url("revision-make", project.pk, packet.pk), False),
        ("get", url("text-edit", project.pk, "care"), False),
        ("post", url("text-count", project.pk, "care"), False),
    ]


def test_a_stranger_finds_nothing(stranger, project, packet):
    for method, place, _ in pages(project, packet):
        assert getattr(stranger, method)(place).status_code == 404, place


def test_a_reader_reads_and_changes_nothing(reader, project, packet):
    for method, place, may_read in pages(project, packet):
        expected = 200 if may_read else 403
        assert getattr(reader, method)(place).status_code == expected, place
    page = reader.get(url("packet", project.pk, packet.pk)).content.decode()
    assert "Make revision" not in page and "Add what is asked for" not in page


def test_a_packet_of_another_project_is_not_found(owner, project, packet):
    from tests.factories import ProjectFactory

    other = factories.packet(ProjectFactory(name="Two Herons"))
    assert owner.get(url("packet", project.pk, other.pk)).status_code == 404
