"""The drawings of the proposed work."""

from packets.outline import Place, Section
from projects.models import PictureUse


class Drawings(Section):
    key = "drawings"
    title = "Drawings"
    uses = (PictureUse.DRAWING,)
    place = Place("projects:picture-add", "Add a drawing")


section = Drawings()
