"""The texts of a project, and how many words each may have."""

from __future__ import annotations

from dataclasses import dataclass

from packets.models import Ask
from packets.sections import SECTIONS
from projects.models import Project, Text, Topic
from projects.words import plural


@dataclass(frozen=True, slots=True)
class Count:
    """Words against the strictest limit that is asked of their section."""

    words: int
    limit: int | None
    who: str  # which packet asks

    @property
    def over(self) -> int:
        return max(0, self.words - self.limit) if self.limit else 0

    @property
    def says(self) -> str:
        if self.limit is None:
            return plural(self.words, "word")
        counted = f"{self.words:,} of {plural(self.limit, 'word')} for {self.who}"
        return f"{counted}: {self.over:,} too many" if self.over else counted


def body_of(project: Project, topic: Topic) -> str:
    row = Text.objects.filter(project=project, topic=topic).first()
    return row.body if row else ""


def count_of(project: Project, topic: Topic, body: str) -> Count:
    """The words of this text; a section's other texts count towards the same limit."""
    keys = [key for key, section in SECTIONS.items() if topic in section.topics]
    asks = Ask.objects.filter(packet__project=project, section__in=keys, max_words__isnull=False)
    strictest = asks.select_related("packet").order_by("max_words").first()
    words = len(body.split())
    if strictest is None:
        return Count(words, None, "")
    others = set(SECTIONS[strictest.section].topics) - {topic}
    rows = Text.objects.filter(project=project, topic__in=others) if others else []
    words += sum(len(row.body.split()) for row in rows)
    return Count(words, strictest.max_words, strictest.packet.title)
