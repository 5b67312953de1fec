"""The page of one supplier, and its contact in place."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from projects.access import project_for
from projects.pages import Opened, data_of, posted
from suppliers import services
from suppliers.forms import SupplierForm
from suppliers.views.pages import supplier_in, supplier_page, to_supplier


@require_GET
def supplier(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    return supplier_page(request, project_for(request.user, project_id), pk)


@require_http_methods(["GET", "POST"])
def supplier_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = supplier_in(project, pk)
    form = SupplierForm(data_of(request), instance=found)
    if posted(request) and form.is_valid():
        says = services.supplier_save(supplier=found, user=request.user)
        return to_supplier(request, project, pk, says)
    url = reverse("suppliers:supplier-edit", args=[project.pk, pk])
    opened = Opened(what="contact", action=url, heading="Change the contact", form=form, pk=pk)
    return supplier_page(request, project, pk, opened=opened)
