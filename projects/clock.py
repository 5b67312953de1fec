"""The only place that knows what day it is."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.conf import settings

from projects.models import Project


def today(project: Project) -> date:
    """Today in the project's own time zone, or the fixed day of the settings."""
    if settings.TODAY:
        return date.fromisoformat(settings.TODAY)
    return datetime.now(ZoneInfo(project.zone)).date()
