"""The packet page, with at most one form or question open in place."""

from __future__ import annotations

from dataclasses import dataclass

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.urls import reverse

from packets.models import Packet
from packets.selectors.packets import packet_of, sentence, standing
from packets.selectors.page import rows_of
from packets.services.revisions import next_letter
from projects import pages
from projects.clock import today
from projects.models import Project


@dataclass(frozen=True, kw_only=True)
class Opened:
    """What stands open on the page."""

    what: str
    action: str
    heading: str
    form: forms.BaseForm | None = None
    pk: int | None = None
    question: str = ""

    @property
    def status(self) -> int:
        return 422 if self.form is not None and self.form.is_bound else 200


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


def posted(request: HttpRequest) -> QueryDict | None:
    """What a form is bound to: nothing before it was sent."""
    return request.POST if request.method == "POST" else None


def address(packet: Packet) -> str:
    return reverse("packets:packet", args=[packet.project_id, packet.pk])


def to_packet(request: HttpRequest, project: Project, pk: int, says: str) -> HttpResponse:
    """After a change: the packet's page, as a piece or by a redirect."""
    packet = packet_of(project, pk)
    if not pages.wants_part(request):
        messages.success(request, says)
        return pages.done(request, address(packet))
    response = packet_page(request, project, packet, says=says)
    response["HX-Push-Url"] = address(packet)
    return response
