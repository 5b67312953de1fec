"""What the artist made before."""

from __future__ import annotations

from packets.outline import Context, Place, Section
from projects.models import PictureUse, Topic


class PastWork(Section):
    key = "past_work"
    title = "Past work"
    topics = (Topic.PAST_WORK,)
    uses = (PictureUse.PAST_WORK,)
    place = Place("projects:picture-add", "Add a picture of past work")

    def missing(self, context: Context) -> str:
        return "" if self.words(context) or context["pictures"] else "No past work yet"


section = PastWork()
