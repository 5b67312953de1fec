"""Write links between tasks."""

from __future__ import annotations

from datetime import date

from projects.log import write
from projects.models import Project
from schedules.models import Link
from schedules.selectors.links import link_words
from schedules.services.planning import replanned
from schedules.services.tasks import User


def add_link(*, project: Project, user: User, today: date, link: Link) -> str:
    """Raises ``engine.Cycle`` when the link would close a loop; nothing is kept then."""
    with replanned(project, today):
        link.project = project
        link.save()
        sentence = f"“{link.after}” waits for “{link.before}”: {link_words(link)}."
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def delete_link(*, project: Project, user: User, today: date, link: Link) -> str:
    with replanned(project, today):
        sentence = f"“{link.after}” no longer waits for “{link.before}”."
        link.delete()
        write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
