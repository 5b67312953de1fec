"""The directory: all suppliers of a project, and what is added or changed in it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from projects.access import project_for
from projects.clock import today
from projects.pages import Opened, data_of, posted
from suppliers import services
from suppliers.forms import AnyOrderForm, BringForm, SupplierForm
from suppliers.models import Order, Supplier
from suppliers.views.pages import directory_page, supplier_in, to_directory


@require_GET
def suppliers(request: HttpRequest, project_id: int) -> HttpResponse:
    return directory_page(request, project_for(request.user, project_id))


@require_http_methods(["GET", "POST"])
def supplier_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = SupplierForm(data_of(request), instance=Supplier(project=project))
    if posted(request) and form.is_valid():
        says = services.supplier_save(supplier=form.instance, user=request.user)
        return to_directory(request, project, says)
    url = reverse("suppliers:supplier-add", args=[project.pk])
    opened = Opened(what="add", action=url, heading="Add a supplier", form=form, button="Add")
    return directory_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def supplier_edit_row(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    supplier = supplier_in(project, pk)
    name = supplier.name
    form = SupplierForm(data_of(request), instance=supplier)
    if posted(request) and form.is_valid():
        says = services.supplier_save(supplier=supplier, user=request.user)
        return to_directory(request, project, says)
    url = reverse("suppliers:supplier-edit-row", args=[project.pk, pk])
    opened = Opened(what="edit", action=url, heading=f"Change {name}", form=form, pk=pk)
    return directory_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def supplier_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """A question in the row; the answer deletes, unless money hangs on it."""
    project = project_for(request.user, project_id, change=True)
    supplier = supplier_in(project, pk)
    problem = ""
    if posted(request):
        try:
            says = services.supplier_delete(supplier=supplier, user=request.user)
            return to_directory(request, project, says)
        except services.Refused as refused:
            problem = str(refused)
    opened = Opened(
        what="delete",
        action=reverse("suppliers:supplier-delete", args=[project.pk, pk]),
        heading=f"Delete {supplier.name}?",
        pk=pk,
        question="Its papers and orders go with it. Its tasks and parts stay, with nobody named.",
        problem=problem,
    )
    return directory_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def supplier_bring(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    data = data_of(request)
    form = BringForm(data, user=request.user, project=project)
    if posted(request) and form.is_valid():
        _, says = services.supplier_bring(
            source=form.cleaned_data["supplier"],
            project=project,
            user=request.user,
            today=today(project),
        )
        return to_directory(request, project, says)
    url = reverse("suppliers:supplier-bring", args=[project.pk])
    heading = "Bring in a supplier from another of your projects"
    opened = Opened(what="add", action=url, heading=heading, form=form, button="Bring in")
    return directory_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def order_add_any(request: HttpRequest, project_id: int) -> HttpResponse:
    """An order for a supplier who is still to be chosen."""
    project = project_for(request.user, project_id, change=True)
    data = data_of(request)
    form = AnyOrderForm(data, instance=Order(), project=project, today=today(project))
    if posted(request) and form.is_valid():
        says = services.order_save(order=form.instance, user=request.user)
        return to_directory(request, project, says)
    url = reverse("suppliers:order-add", args=[project.pk])
    opened = Opened(what="add", action=url, heading="Add an order", form=form, button="Add")
    return directory_page(request, project, opened=opened)
