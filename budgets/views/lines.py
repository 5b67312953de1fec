"""The sheet itself, its budget lines, and the lines of orders: all changed in place."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.lines import LineForm, OrderLineForm
from budgets.models import BudgetLine
from budgets.services import lines as services
from budgets.views.pages import line_in, money_page, to_money
from projects.access import project_for
from projects.pages import Opened, data_of, posted
from projects.words import plural
from suppliers.models import Order


@require_GET
def money(request: HttpRequest, project_id: int) -> HttpResponse:
    return money_page(request, project_for(request.user, project_id))


@require_http_methods(["GET", "POST"])
def line_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    line = BudgetLine(project=project)
    form = LineForm(data_of(request), instance=line)
    if posted(request) and form.is_valid():
        services.save_line(line=line, values=form.cleaned_data, user=request.user)
        return to_money(request, project, f"Added the line {line.name}.")
    url = reverse("budgets:line-add", args=[project.pk])
    opened = Opened(what="line-add", action=url, heading="Add a budget line", form=form)
    return money_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def line_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    line = line_in(project, pk)
    name = line.name
    form = LineForm(data_of(request), instance=line)
    if posted(request) and form.is_valid():
        services.save_line(line=line, values=form.cleaned_data, user=request.user)
        return to_money(request, project, f"Changed the line {line.name}.")
    url = reverse("budgets:line-edit", args=[project.pk, pk])
    opened = Opened(what="line-edit", action=url, heading=f"Change {name}", form=form, pk=pk)
    return money_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def line_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    line, problem = line_in(project, pk), ""
    if posted(request):
        try:
            services.delete_line(line=line, user=request.user)
            return to_money(request, project, f"Deleted the line {line.name}.")
        except services.LineInUse as used:
            booked = plural(used.count, "expense is", "expenses are")
            problem = f"{booked} booked on this line. Move them to another line first."
    opened = Opened(
        what="line-delete",
        action=reverse("budgets:line-delete", args=[project.pk, pk]),
        heading=f"Delete {line.name}?",
        pk=pk,
        question="Orders paid from it stay, without a line.",
        problem=problem,
    )
    return money_page(request, project, opened=opened)


@require_http_methods(["GET", "POST"])
def order_line(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """The line that an order is paid from."""
    project = project_for(request.user, project_id, change=True)
    orders = Order.objects.select_related("supplier__project", "commitment")
    order = get_object_or_404(orders, supplier__project=project, pk=pk)
    lines = list(BudgetLine.objects.filter(project=project))
    form = OrderLineForm(
        data_of(request),
        project=project,
        lines=lines,
        initial={"line": getattr(getattr(order, "commitment", None), "line_id", None)},
    )
    if posted(request) and form.is_valid():
        line = form.cleaned_data["line"]
        services.assign_order(order=order, line=line, user=request.user)
        return to_money(request, project, f"{order.title}: {line.name if line else 'no line'}.")
    url = reverse("budgets:order-line", args=[project.pk, pk])
    opened = Opened(what="order-line", action=url, heading=order.title, form=form, pk=pk)
    return money_page(request, project, opened=opened)
