"""Who belongs to a project."""

from __future__ import annotations

from projects.models import Membership, Project, Role

RANK = [Role.OWNER, Role.PARTNER, Role.READER]


def members_of(project: Project) -> list[Membership]:
    """Owners first, then partners, then readers."""
    found = Membership.objects.filter(project=project).select_related("user")
    return sorted(found, key=lambda member: (RANK.index(Role(member.role)), member.pk))
