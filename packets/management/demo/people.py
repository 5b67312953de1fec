"""The demo's logins."""

from __future__ import annotations

from django.contrib.auth.models import User

from projects.models import Membership, Project, Role

PASSWORD = "lantern-walk"
LOGINS = {"artist": Role.OWNER, "maker": Role.PARTNER, "ward": Role.READER}


def make_logins() -> None:
    for name in LOGINS:
        User.objects.create_user(name, password=PASSWORD)


def join(project: Project) -> None:
    users = {user.username: user for user in User.objects.filter(username__in=LOGINS)}
    Membership.objects.bulk_create(
        [Membership(project=project, user=users[n], role=r) for n, r in LOGINS.items()]
    )
