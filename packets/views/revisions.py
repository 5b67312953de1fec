"""Make a revision, and hand out the bytes of one."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404
from django.utils.text import slugify
from django.views.decorators.http import require_POST, require_safe

from packets.models import Revision
from packets.selectors.packets import packet_of
from packets.services.revisions import LetterTaken, revision_make
from packets.views.showing import packet_page, to_packet
from projects.access import project_for
from projects.clock import today
from projects.files import PDF, served
from projects.words import plural


@require_POST
def revision_make_it(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    packet = packet_of(project, pk)
    try:
        made = revision_make(packet=packet, user=request.user, today=today(project))
    except LetterTaken as error:
        return packet_page(request, project, packet, says=str(error), status=409)
    says = f"Revision {made.letter} is made: {plural(made.pages, 'page')}."
    return to_packet(request, project, pk, " ".join([says, *made.over]))


@require_safe
def revision_file(request: HttpRequest, project_id: int, pk: int, letter: str) -> HttpResponseBase:
    """The kept bytes, shown in the browser, or as a download with ``?download``."""
    project = project_for(request.user, project_id)
    rows = Revision.objects.filter(packet__project=project).select_related("packet")
    revision = get_object_or_404(rows, packet=pk, letter=letter)
    name = slugify(f"{project.name} {revision.packet.title} rev {letter}") + ".pdf"
    response = served(revision.file, name=name, media_type=PDF, attach="download" in request.GET)
    # Our own bytes; in a sandbox a browser's PDF reader would stay shut.
    response["Content-Security-Policy"] = "frame-ancestors 'none'"
    return response
