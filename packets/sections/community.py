"""Who takes part, how and when."""

from packets.outline import Section
from projects.models import Topic


class Community(Section):
    key = "community"
    title = "Community part"
    topics = (Topic.COMMUNITY,)


section = Community()
