"""The packets sheet, a packet's page and its limits."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from packets.forms.packets import PacketForm
from packets.kinds import KINDS
from packets.selectors.packets import packet_of, sheet_sentence, standings
from packets.services.asks import packet_save
from packets.services.start import packet_add
from packets.views.showing import packet_page, to_packet
from projects.access import project_for
from projects.clock import today
from projects.pages import Opened, data_of, sheet


@require_safe
def packets(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    found = standings(project, today(project))
    context = {
        "standings": found,
        "sentence": sheet_sentence(found),
        "kinds": KINDS.values(),
    }
    return sheet(request, project, "packets/packets.html", context, current="packets", part="sheet")


@require_POST
def packet_new(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    key = request.POST.get("kind", "")
    made = packet_add(
        project=project, user=request.user, key=key if key in KINDS else next(iter(KINDS))
    )
    return to_packet(request, project, made.pk, f"Started {made.title}.")


@require_safe
def packet(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return packet_page(request, project, packet_of(project, pk))


@require_http_methods(["GET", "HEAD", "POST"])
def packet_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = packet_of(project, pk)
    form = PacketForm(data_of(request), instance=found)
    if form.is_valid():
        packet_save(packet=form.save(commit=False), user=request.user)
        return to_packet(request, project, pk, "The limits are saved.")
    url = reverse("packets:packet-edit", args=[project.pk, pk])
    opened = Opened(what="limits", action=url, heading="Change the limits", form=form)
    return packet_page(request, project, packet_of(project, pk), opened=opened)
