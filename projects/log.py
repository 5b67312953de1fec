"""Write down who changed what, when and why."""

from __future__ import annotations

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser

from projects.models import LogEntry, Project


def short_name(user: AbstractBaseUser | AnonymousUser | None) -> str:
    if user is None:
        return "Giornata"
    full = getattr(user, "get_full_name", lambda: "")()
    return full or user.get_username()


def write(
    *,
    project: Project,
    user: AbstractBaseUser | AnonymousUser | None,
    about: str,
    sentence: str,
    reason: str = "",
) -> LogEntry:
    """One entry; ``about`` is the app the change belongs to."""
    return LogEntry.objects.create(
        project=project,
        who=short_name(user),
        about=about,
        sentence=sentence[:500],
        reason=reason[:500],
    )
