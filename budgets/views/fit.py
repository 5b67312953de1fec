"""Which fund should pay what: the best there is, accepted whole or in part, and put back."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from budgets.engine import best as optimum
from budgets.fit.best import BestFit
from budgets.fit.best import best as best_fit
from budgets.fit.gain import gain as gain_of
from budgets.fit.part import Part
from budgets.forms.fits import WishForm, chosen
from budgets.models import AcceptedFit
from budgets.selectors.best import best_sheet, part_words
from budgets.selectors.worth import own_by_worth
from budgets.services import fits as services
from budgets.views.pages import shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import wants_part


@require_GET
def best(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return page(request, project, WishForm(request.GET))


def page(
    request: HttpRequest,
    project: Project,
    form: WishForm,
    *,
    part: Part | None = None,
    status: int = 200,
    says: str = "",
    **more: Any,
) -> HttpResponse:
    try:
        found = as_wished(project, form)
    except optimum.BestError as error:
        return shown(request, project, "best.html", {"why": str(error)}, status=status)
    every = bool(request.GET.get("every") or request.POST.get("every"))
    context = {"b": best_sheet(found, part, every=every), "form": form, "worth": None, **more}
    status = 422 if form.errors and status == 200 else status
    if part is not None:
        context["part"] = part_words(found, part)
    if request.GET.get("worth"):
        context["worth"] = own_by_worth(found)
    return shown(request, project, "best.html", context, status=status, says=says)


def as_wished(project: Project, form: WishForm) -> BestFit:
    """Where too many expenses are to be kept whole, the form says so, and they are not."""
    try:
        return best_fit(project, today(project), form.wish())
    except optimum.TooManyToKeepWhole as error:
        form.cannot_keep_whole(error.choices, error.most)
        return best_fit(project, today(project), replace(form.wish(), whole=False))


@require_GET
def gain(request: HttpRequest, project_id: int) -> HttpResponse:
    """What the Money sheet says of it; it may take long, so it comes late."""
    project = project_for(request.user, project_id)
    if not wants_part(request):
        return redirect("budgets:best", project.pk)
    try:
        found = gain_of(project, today(project))
    except optimum.BestError:
        return HttpResponse("")
    context = {"project": project, "gain": found, "alone": request.GET.get("alone")}
    return render(request, "budgets/_gain.html", context)


@require_GET
def worth(request: HttpRequest, project_id: int) -> HttpResponse:
    """Own money by what could be recovered: each paper is reckoned with anew, so it comes late."""
    project = project_for(request.user, project_id)
    form = WishForm(request.GET)
    if not wants_part(request):
        whole = reverse("budgets:best", args=[project.pk])
        return redirect(f"{whole}?{request.GET.urlencode()}&worth=yes#best-own")
    rows = own_by_worth(as_wished(project, form))
    return render(request, "budgets/_best_worth.html", {"project": project, "worth": rows})


@require_POST
def accept(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = WishForm(request.POST)
    try:
        made = services.accept(
            project=project,
            user=request.user,
            today=today(project),
            wish=form.wish(),
            chosen=None if request.POST.get("all") else chosen(request.POST),
            seen=request.POST.get("seen", ""),
        )
    except services.BooksChanged:
        return page(request, project, form, status=409, stale=True)
    except services.NothingChosen:
        return page(request, project, form, status=422, none=True)
    except optimum.BestError:
        return page(request, project, form)
    except services.PartBreaks as error:
        return page(request, project, form, part=error.part, status=422)
    return to_best(request, project, form, made.sentence)


@require_POST
def back(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = get_object_or_404(AcceptedFit, project=project, pk=pk)
    try:
        says = services.put_back(project=project, user=request.user, fit=found)
    except services.ChangedSince as error:
        form = WishForm(request.GET)
        return page(request, project, form, status=409, kept_because=error.sentences)
    return to_best(request, project, WishForm(request.GET), says)


def to_best(request: HttpRequest, project: Project, form: WishForm, says: str) -> HttpResponse:
    url = f"{reverse('budgets:best', args=[project.pk])}?{form.query}"
    return pages.after(request, url, says, lambda: page(request, project, form, says=says))
