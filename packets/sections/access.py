"""How people reach the work and stay safe by it, in the artist's words."""

from packets.outline import Section
from projects.models import Topic


class Access(Section):
    key = "access"
    title = "Access and safety"
    topics = (Topic.ACCESS,)


section = Access()
