"""Sections and kinds are found by module; hooks speak for packets."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.db import connection
from django.template.loader import get_template
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from packets import kinds, overview, ripples
from packets.kinds import KINDS
from packets.outline import Section, add, named
from packets.sections import SECTIONS
from packets.sections.cover import PARTLY, change_words
from packets.sections.making import span
from projects.hooks import Level
from schedules import plan
from tests import factories as base
from tests.packets import factories
from tests.packets.test_revisions import made

DAY = date(2031, 3, 3)


def test_every_section_file_is_found_and_has_a_template():
    assert set(KINDS["proposal"].sections) == set(SECTIONS)
    for section in SECTIONS.values():
        assert section.title and get_template(section.template)


def test_a_taken_key_refuses_to_start():
    class Second(Section):
        key = "budget"

    with pytest.raises(ValueError, match="“budget” is taken"):
        add(dict(SECTIONS), Second())


def test_a_kind_that_wants_an_unknown_section_refuses_to_start():
    with pytest.raises(ValueError, match=r"sections that are not there: \['flags'\]"):
        kinds.check(replace(KINDS["proposal"], sections=("cover", "flags")))


def test_two_tasks_of_one_name_keep_both_their_dates():
    assert named([("Paint", "Mon"), ("Paint", "Tue")]) == {"Paint": "Mon", "Paint (2)": "Tue"}


@pytest.mark.django_db
def test_papers_say_due_day_asks_and_stale_revisions():
    packet = factories.packet(factories.hearthlight(), due_on=date(2031, 3, 10))
    made(packet)
    packet.project.texts.filter(topic="care").delete()
    panel = overview.papers(packet.project, DAY)
    assert panel.rows[0].detail == "due Mon 10 Mar; 9 of 11 asks met; revision A is out of date"
    assert panel.rows[0].level == Level.NEAR
    assert panel.sentence.startswith("Proposal, due Mon 10 Mar, still needs 2 answers:")


@pytest.mark.django_db
def test_a_slip_marks_the_revisions_whose_dates_it_moves():
    project = factories.hearthlight()
    packet = factories.packet(project)
    rows = plan.read(project, DAY)
    before = plan.plan_days(rows, plan.solve(rows))
    assert ripples.wrong_dates(project, before, before) == []
    made(packet)
    after = replace(before, public_on=date(2031, 6, 21))
    (found,) = ripples.wrong_dates(project, before, after)
    assert (found.subject, found.says) == ("Proposal rev A", "shows dates that would be wrong.")
    assert ripples.wrong_dates(project, after, before) == []


@pytest.mark.django_db
def test_a_slip_marks_a_revision_that_shows_the_days_of_a_maker_alone():
    project = factories.hearthlight()
    rows = plan.read(project, DAY)
    before = plan.plan_days(rows, plan.solve(rows))
    task = next(iter(before.tasks.values()))
    shown = {"making": {f"{task.name} (Saltglaze Metalworks)": span(task.start, task.finish)}}
    revision = made(factories.packet(project))
    type(revision).objects.filter(pk=revision.pk).update(shown=shown)
    later = replace(task, finish=date(2031, 12, 1))
    after = replace(before, tasks={**before.tasks, task.pk: later})
    assert len(ripples.wrong_dates(project, before, after)) == 1
    assert ripples.wrong_dates(project, before, before) == []


WEIGHTS = [
    ("90 kg", "94 kg", "Weight was 90 kg and is now 94 kg."),
    (f"90 kg{PARTLY}", f"94 kg{PARTLY}", "Weight of the parts weighed was 90 kg and is now 94 kg."),
    (f"90 kg{PARTLY}", "94 kg", "Weight was 90 kg without the parts not weighed and is now 94 kg."),
    ("90 kg", f"94 kg{PARTLY}", "Weight was 90 kg and is now 94 kg without the parts not weighed."),
]


@pytest.mark.parametrize(("was", "now", "says"), WEIGHTS)
def test_a_weight_says_which_parts_it_counts(was, now, says):
    assert change_words("Weight", was, now) == says


@pytest.mark.django_db
def test_a_packet_due_after_a_public_date_brought_forward_is_near():
    project = base.planned_project()
    factories.packet(project, due_on=date(2031, 6, 1))
    rows = plan.read(project, DAY)
    before = plan.plan_days(rows, plan.solve(rows))
    (found,) = ripples.wrong_dates(project, before, replace(before, public_on=date(2031, 5, 24)))
    assert found.says == "is due Sun 1 Jun, after the public date."


@pytest.mark.django_db
def test_queries_of_a_packet_do_not_grow_with_rows(owner, project):
    packet = factories.packet(project)
    place = reverse("packets:packet", args=[project.pk, packet.pk])
    grow(project, "first")
    owner.get(place)
    with CaptureQueriesContext(connection) as few:
        owner.get(place)
    for n in range(10):
        grow(project, str(n))
    with CaptureQueriesContext(connection) as many:
        owner.get(place)
    assert len(many) == len(few) < 45


@pytest.mark.django_db
def test_a_packet_that_is_looked_at_reads_texts_pictures_and_lines_once(project, owner):
    packet = factories.packet(project)
    with CaptureQueriesContext(connection) as asked:
        owner.get(reverse("packets:packet", args=[project.pk, packet.pk]))
    for table in ("projects_text", "projects_picture", "budgets_budgetline"):
        assert sum(f'FROM "{table}"' in row["sql"] for row in asked) == 1, table


def grow(project, name):
    base.TaskFactory(project=project)
    base.PartFactory(project=project, name=f"Panel {name}")
    base.FundFactory(project=project, name=f"Fund {name}")
    base.LineFactory(project=project, name=f"Line {name}")
    base.SupplierFactory(project=project, name=f"Maker {name}")
    plan.recompute(project, DAY)
