"""Add, change and delete what a packet's reader asks for."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from packets.forms.asks import AskForm
from packets.models import Ask
from packets.selectors.packets import packet_of
from packets.services.asks import ask_delete, ask_save
from packets.views.showing import packet_page, to_packet
from projects.access import project_for
from projects.pages import Opened, data_of


@require_http_methods(["GET", "HEAD", "POST"])
def ask_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    packet = packet_of(project, pk)
    form = AskForm(data_of(request), packet=packet, instance=Ask(packet=packet))
    if form.is_valid():
        ask = ask_save(packet=packet, user=request.user, ask=form.save(commit=False))
        return to_packet(request, project, pk, f"Added “{ask.title}”.")
    url = reverse("packets:ask-add", args=[project.pk, pk])
    opened = Opened(what="ask", action=url, heading="Add what is asked for", form=form)
    return packet_page(request, project, packet, opened=opened)


@require_http_methods(["GET", "HEAD", "POST"])
def ask_edit(request: HttpRequest, project_id: int, pk: int, ask_pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    packet = packet_of(project, pk)
    form = AskForm(
        data_of(request), packet=packet, instance=get_object_or_404(packet.asks, pk=ask_pk)
    )
    if form.is_valid():
        ask = ask_save(packet=packet, user=request.user, ask=form.save(commit=False))
        return to_packet(request, project, pk, f"Saved “{ask.title}”.")
    url = reverse("packets:ask-edit", args=[project.pk, pk, ask_pk])
    opened = Opened(
        what="ask", action=url, heading="Change what is asked for", form=form, pk=ask_pk
    )
    return packet_page(request, project, packet, opened=opened)


@require_http_methods(["GET", "HEAD", "POST"])
def ask_delete_it(request: HttpRequest, project_id: int, pk: int, ask_pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    packet = packet_of(project, pk)
    ask = get_object_or_404(packet.asks, pk=ask_pk)
    if request.method == "POST":
        ask_delete(packet=packet, user=request.user, ask=ask)
        return to_packet(request, project, pk, f"Deleted “{ask.title}”.")
    opened = Opened(
        what="question",
        action=reverse("packets:ask-delete", args=[project.pk, pk, ask_pk]),
        heading=f"Delete “{ask.title}”?",
        question="The section stays in the packet as long as it has something to show.",
        pk=ask_pk,
    )
    return packet_page(request, project, packet, opened=opened)
