"""A supplier's orders: add, change, delete."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from suppliers import services
from suppliers.forms import OrderForm
from suppliers.models import Order
from suppliers.views.pages import supplier_in, supplier_page, to_supplier


@require_http_methods(["GET", "POST"])
def order_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    order = Order(supplier=supplier_in(project, pk))
    url = reverse("suppliers:order-add", args=[project.pk, pk])
    return order_form(request, project, order, url, "Add an order")


@require_http_methods(["GET", "POST"])
def order_edit(request: HttpRequest, project_id: int, pk: int, order_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    order = order_in(project, pk, order_id)
    url = reverse("suppliers:order-edit", args=[project.pk, pk, order_id])
    return order_form(request, project, order, url, f"Change “{order.title}”")


def order_form(
    request: HttpRequest, project: Project, order: Order, url: str, heading: str
) -> HttpResponse:
    pk = order.pk
    data = data_of(request)
    form = OrderForm(data, instance=order, today=today(project))
    if posted(request) and form.is_valid():
        says = services.order_save(order=order, user=request.user)
        return to_supplier(request, project, order.supplier_id, says)
    button = "Save" if pk else "Add"
    opened = Opened(what="order", action=url, heading=heading, form=form, button=button, pk=pk)
    return supplier_page(request, project, order.supplier_id, opened=opened)


@require_http_methods(["GET", "POST"])
def order_delete(request: HttpRequest, project_id: int, pk: int, order_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    order = order_in(project, pk, order_id)
    problem = ""
    if posted(request):
        try:
            says = services.order_delete(order=order, user=request.user)
            return to_supplier(request, project, pk, says)
        except services.Refused as refused:
            problem = str(refused)
    opened = Opened(
        what="order-delete",
        action=reverse("suppliers:order-delete", args=[project.pk, pk, order_id]),
        heading=f"Delete “{order.title}”?",
        pk=order_id,
        question="The tasks tied to it stay in the schedule.",
        problem=problem,
    )
    return supplier_page(request, project, pk, opened=opened)


def order_in(project: Project, supplier_id: int, pk: int) -> Order:
    rows = Order.objects.select_related("supplier__project")
    return get_object_or_404(rows, supplier__project=project, supplier_id=supplier_id, pk=pk)
