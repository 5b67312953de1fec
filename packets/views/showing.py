"""The packet page, with at most one form or question open in place."""

from __future__ import annotations

from functools import partial

from django.http import HttpRequest, HttpResponse
from django.urls import reverse

from packets.models import Packet
from packets.selectors.packets import packet_of, sentence, standing
from packets.selectors.page import rows_of
from packets.services.revisions import next_letter
from projects import pages
from projects.clock import today
from projects.models import Project
from projects.pages import Opened


def packet_page(
    request: HttpRequest,
    project: Project,
    packet: Packet,
    *,
    opened: Opened | None = None,
    says: str = "",
    status: int = 200,
) -> HttpResponse:
    found = standing(packet, project, today(project))
    context = {
        "packet": packet,
        "standing": found,
        "sections": rows_of(found),
        "sentence": sentence(found),
        "next_letter": next_letter(packet),
        "opened": opened,
        "back": address(packet),
    }
    return pages.sheet(
        request,
        project,
        "packets/packet.html",
        context,
        current="packets",
        part="sheet",
        status=opened.status if opened else status,
        says=says,
    )


def address(packet: Packet) -> str:
    return reverse("packets:packet", args=[packet.project_id, packet.pk])


def to_packet(request: HttpRequest, project: Project, pk: int, says: str) -> HttpResponse:
    """After a change: the packet's page, as a piece or by a redirect."""
    packet = packet_of(project, pk)
    page = partial(packet_page, request, project, packet, says=says)
    return pages.after(request, address(packet), says, page)
