"""Write a text of the project, with its words counted against what is asked."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from packets.forms.texts import TextForm
from packets.models import Packet
from packets.selectors.texts import body_of, count_of
from packets.services.texts import text_write
from projects.access import project_for
from projects.models import Project, Topic
from projects.pages import data_of, done, sheet


@require_http_methods(["GET", "HEAD", "POST"])
def text_edit(request: HttpRequest, project_id: int, topic: str) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = topic_in(topic)
    body = body_of(project, found)
    form = TextForm(data_of(request), topic=found, initial={"body": body})
    if form.is_valid():
        text_write(project=project, user=request.user, topic=found, body=form.cleaned_data["body"])
        messages.success(request, f"The text “{found.label}” is saved.")
        return done(request, back_to(request, project))
    typed = str(form["body"].value() or "")
    context = {
        "form": form,
        "topic": found,
        "count": count_of(project, found, typed),
        "back": back_to(request, project),
    }
    status = 422 if form.is_bound else 200
    return sheet(request, project, "packets/text.html", context, current="packets", status=status)


@require_POST
def text_count(request: HttpRequest, project_id: int, topic: str) -> HttpResponse:
    """The words of a text that is being typed; nothing is kept."""
    project = project_for(request.user, project_id, change=True)
    count = count_of(project, topic_in(topic), request.POST.get("body", ""))
    return render(request, "packets/_count.html", {"count": count})


def topic_in(value: str) -> Topic:
    if value not in Topic.values:
        raise Http404
    return Topic(value)


def back_to(request: HttpRequest, project: Project) -> str:
    """The packet that the reader came from, else the packets sheet."""
    pk = request.GET.get("packet", "")
    if pk.isdecimal() and len(pk) < 18 and Packet.objects.filter(project=project, pk=pk).exists():
        return reverse("packets:packet", args=[project.pk, pk])
    return reverse("packets:packets", args=[project.pk])
