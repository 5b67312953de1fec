"""One order: what was agreed, its bills, its changes, and its end."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.orders import BillForm, CancelForm, ChangeForm
from budgets.selectors.orders import OrderAccount, at_stake, order_account, rows_for, sentence
from budgets.services import orders as services
from budgets.views.pages import shown
from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from suppliers.models import OrderChange


def order_in(project: Project, pk: int) -> OrderAccount:
    return order_account(get_object_or_404(rows_for(project), pk=pk), today(project))


@require_GET
def order(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return order_page(request, project, order_in(project, pk))


def order_page(
    request: HttpRequest,
    project: Project,
    row: OrderAccount,
    *,
    opened: Opened | None = None,
    says: str = "",
) -> HttpResponse:
    context = {
        "row": row,
        "sentence": sentence(row),
        "opened": opened,
        "back": reverse("budgets:order", args=[project.pk, row.order.pk]),
    }
    status = opened.status if opened else 200
    return shown(request, project, "order.html", context, status=status, says=says)


def to_order(request: HttpRequest, project: Project, pk: int, says: str) -> HttpResponse:
    url = reverse("budgets:order", args=[project.pk, pk])
    return pages.after(
        request, url, says, lambda: order_page(request, project, order_in(project, pk), says=says)
    )


@require_http_methods(["GET", "POST"])
def bill(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Filled in with what is due: the deposit, the balance less what is kept back, its release."""
    project = project_for(request.user, project_id, change=True)
    row, day = order_in(project, pk), today(project)
    data, files = (request.POST, request.FILES) if posted(request) else (None, None)
    form = BillForm(data, files, row=row, today=day, initial=first_guess(row, day))
    if posted(request) and form.is_valid():
        values, paper = form.values(), form.cleaned_data["photo"]
        made = services.log_bill(order=row.order, values=values, paper=paper, user=request.user)
        return to_order(request, project, pk, f"Logged {made}.")
    url = reverse("budgets:order-bill", args=[project.pk, pk])
    opened = Opened(what="bill", action=url, heading="Log a bill", form=form)
    return order_page(request, project, row, opened=opened)


def first_guess(row: OrderAccount, day: object) -> dict[str, object]:
    found = {"day": day, "line": row.line.pk if row.line else None}
    if row.next is None:
        return found
    due = row.dues[0].day if row.dues else None
    return found | {
        "cents": row.next.cents,
        "retained_cents": row.next.retained if row.next.retained > 0 else None,
        "release": row.next.retained < 0,
        "is_deposit": row.next.is_deposit,
        "due_on": due,
    }


@require_http_methods(["GET", "POST"])
def change_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row, day = order_in(project, pk), today(project)
    form = ChangeForm(data_of(request), row=row, today=day, initial={"day": day})
    if posted(request) and form.is_valid():
        says = services.add_change(
            order=row.order,
            cents=form.signed,
            day=form.cleaned_data["day"],
            reason=form.cleaned_data["reason"],
            user=request.user,
        )
        return to_order(request, project, pk, says)
    url = reverse("budgets:order-change", args=[project.pk, pk])
    opened = Opened(what="change", action=url, heading="Log an agreed change", form=form)
    return order_page(request, project, row, opened=opened)


@require_http_methods(["GET", "POST"])
def change_delete(request: HttpRequest, project_id: int, pk: int, change_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    rows = OrderChange.objects.select_related("order__supplier__project")
    found = get_object_or_404(rows, order__supplier__project=project, order_id=pk, pk=change_id)
    if posted(request):
        says = services.delete_change(change=found, user=request.user)
        return to_order(request, project, pk, says)
    opened = Opened(
        what="unchange",
        action=reverse("budgets:order-unchange", args=[project.pk, pk, change_id]),
        heading=f"Take off “{found.reason}”?",
        question="The order's price goes back by it.",
        button="Take it off",
        pk=change_id,
    )
    return order_page(request, project, order_in(project, pk), opened=opened)


@require_http_methods(["GET", "POST"])
def cancel(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """What was paid on it is lost, or comes back."""
    project = project_for(request.user, project_id, change=True)
    row = order_in(project, pk)
    form = CancelForm(data_of(request), row=row)
    if posted(request) and form.is_valid():
        says = services.cancel(
            order=row.order,
            account=row.account,
            back=form.cleaned_data.get("back", 0),
            reason=form.cleaned_data["reason"],
            day=today(project),
            user=request.user,
        )
        return to_order(request, project, pk, says)
    url = reverse("budgets:order-cancel", args=[project.pk, pk])
    opened = Opened(
        what="cancel",
        action=url,
        heading="Cancel this order?",
        form=form,
        button="Cancel it",
        question=at_stake(row),
    )
    return order_page(request, project, row, opened=opened)
