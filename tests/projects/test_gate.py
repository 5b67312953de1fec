"""Who may see a project, change it, own it."""

import pytest
from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.urls import reverse

from projects.access import project_for
from projects.models import Membership
from tests import factories


def test_a_stranger_cannot_learn_that_a_project_exists(project):
    with pytest.raises(Http404):
        project_for(factories.user("dee"), project.pk)
    with pytest.raises(Http404):
        project_for(factories.user("dee"), project.pk + 999)


def test_a_reader_reads_but_does_not_change(project):
    assert project_for(factories.user("cyd"), project.pk).can_change is False
    with pytest.raises(PermissionDenied):
        project_for(factories.user("cyd"), project.pk, change=True)


def test_a_partner_changes_but_does_not_own(project):
    assert project_for(factories.user("ben"), project.pk, change=True).can_change is True
    with pytest.raises(PermissionDenied):
        project_for(factories.user("ben"), project.pk, own=True)


def test_the_gate_takes_one_query(project, django_assert_num_queries):
    user = factories.user("ada")
    with django_assert_num_queries(1):
        project_for(user, project.pk, change=True)


def test_who_was_removed_finds_nothing(project, reader):
    Membership.objects.filter(user__username="cyd").delete()
    assert reader.get(reverse("projects:overview", args=[project.pk])).status_code == 404
