"""The one gate to a project: a stranger cannot learn that it exists, a reader cannot change it."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404

from projects.models import Membership, Project, Role

type_user = AbstractBaseUser | AnonymousUser


def projects_of(user: type_user) -> QuerySet[Project]:
    return Project.objects.filter(memberships__user_id=user.pk or 0)


def project_for(
    user: type_user, project_id: int, *, change: bool = False, own: bool = False
) -> Project:
    """The project, with ``role`` set; 404 for a stranger, 403 for who may only read.

    ``change`` asks for an owner or partner, ``own`` for an owner. Without either the request
    only looks: ``looked_at`` is where it may keep what it has read.
    """
    found = Membership.objects.select_related("project").filter(
        user_id=user.pk or 0, project_id=project_id
    )
    membership = found.first()
    if membership is None:
        raise Http404
    if own and membership.role != Role.OWNER:
        raise PermissionDenied("Only the owner of this project can do that.")
    if change and membership.role == Role.READER:
        raise PermissionDenied("You can read this project but not change it.")
    project = membership.project
    project.role = membership.role  # type: ignore[attr-defined]
    project.can_change = membership.role != Role.READER  # type: ignore[attr-defined]
    project.looked_at = None if change or own else {}  # type: ignore[attr-defined]
    return project
