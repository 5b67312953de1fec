"""Add, describe, remove and show pictures."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_http_methods, require_safe

from projects.access import project_for
from projects.files import JPEG, served
from projects.forms.pictures import PictureForm
from projects.models import Picture, PictureUse, Project
from projects.pages import done, sheet
from projects.services.pictures import add_picture, change_picture, delete_picture


def back_to(request: HttpRequest, project: Project) -> str:
    """The page of this project that the reader came from, else the overview."""
    place = request.POST.get("back") or request.GET.get("back", "")
    home = reverse("projects:overview", args=[project.pk])
    inside = url_has_allowed_host_and_scheme(place, allowed_hosts=None)
    return place if inside and place.startswith(home) else home


def form_page(
    request: HttpRequest, project: Project, form: PictureForm, picture: Picture | None = None
) -> HttpResponse:
    context = {"form": form, "picture": picture, "back": back_to(request, project)}
    status = 422 if form.is_bound else 200
    return sheet(
        request, project, "projects/picture.html", context, current="overview", status=status
    )


@require_http_methods(["GET", "HEAD", "POST"])
def picture_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    wanted = {"use": request.GET.get("use")} if request.GET.get("use") in PictureUse else {}
    form = PictureForm(request.POST or None, request.FILES or None, project=project, initial=wanted)
    if not form.is_valid():
        return form_page(request, project, form)
    add_picture(project=project, values=form.cleaned_data, user=request.user)
    messages.success(request, "The picture is kept.")
    return done(request, back_to(request, project))


@require_http_methods(["GET", "HEAD", "POST"])
def picture_edit(request: HttpRequest, project_id: int, picture_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    picture = get_object_or_404(Picture, pk=picture_id, project=project)
    form = PictureForm(
        request.POST or None, request.FILES or None, project=project, picture=picture
    )
    if not form.is_valid():
        return form_page(request, project, form, picture)
    change_picture(picture=picture, values=form.cleaned_data, user=request.user)
    messages.success(request, "The picture is saved.")
    return done(request, back_to(request, project))


@require_http_methods(["GET", "HEAD", "POST"])
def picture_delete(request: HttpRequest, project_id: int, picture_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    picture = get_object_or_404(Picture, pk=picture_id, project=project)
    back = back_to(request, project)
    if request.method != "POST":
        context = {"picture": picture, "back": back}
        return sheet(request, project, "projects/picture_delete.html", context, current="overview")
    delete_picture(picture=picture, user=request.user)
    messages.success(request, "The picture is removed.")
    return done(request, back)


@require_safe
def picture_file(request: HttpRequest, project_id: int, picture_id: int) -> HttpResponseBase:
    project = project_for(request.user, project_id)
    picture = get_object_or_404(Picture, pk=picture_id, project=project)
    return served(picture.file, name=f"{picture_id}.jpg", media_type=JPEG, attach=False)
