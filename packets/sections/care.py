"""Who looks after the work, how often and at what cost."""

from packets.outline import Section
from projects.models import Topic


class Care(Section):
    key = "care"
    title = "Maintenance plan"
    topics = (Topic.CARE,)


section = Care()
