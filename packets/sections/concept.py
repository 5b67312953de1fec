"""What the work is, in the artist's words."""

from packets.outline import Section
from projects.models import Topic


class Concept(Section):
    key = "concept"
    title = "Concept"
    topics = (Topic.CONCEPT,)


section = Concept()
