"""Money that came back: added to its expense, or taken out again."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from budgets.forms.credits import CreditForm
from budgets.models import Credit
from budgets.selectors.held import claims_named, claims_of
from budgets.services import credits as services
from budgets.views.pages import expense_in, shown, to_expense
from projects.access import project_for
from projects.clock import today
from projects.meanwhile import Overtaken
from projects.pages import data_of, posted
from projects.words import money

QUICKER = "Somebody changed this expense at the same moment. Look it over and send it again."


@require_http_methods(["GET", "POST"])
def credit_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    expense, status = expense_in(project, pk), 422 if posted(request) else 200
    form = CreditForm(
        data_of(request), request.FILES or None, expense=expense, today=today(project)
    )
    claims = claims_of(expense)
    if posted(request) and form.is_valid():
        values = {name: form.cleaned_data[name] for name in ("cents", "day", "what")}
        try:
            services.add_credit(
                expense=expense, values=values, paper=form.cleaned_data["slip"], user=request.user
            )
            return to_expense(request, project, expense, "Added what came back.")
        except Overtaken:
            status = 409
            form.add_error(None, QUICKER)
    back = reverse("budgets:expense", args=[project.pk, pk])
    context = {"form": form, "expense": expense, "claims": claims_named(claims), "back": back}
    return shown(request, project, "credit_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def credit_delete(request: HttpRequest, project_id: int, credit_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    credits = Credit.objects.select_related("expense__project")
    credit = get_object_or_404(credits, expense__project=project, pk=credit_id)
    if posted(request):
        services.delete_credit(credit=credit, user=request.user)
        return to_expense(request, project, credit.expense, "Taken out.")
    amount = money(credit.cents, project.currency)
    context = {
        "heading": f"Take out the {amount} that came back?",
        "warning": "What funds pay of the expense stays as it is; look at it afterwards.",
        "back": reverse("budgets:expense", args=[project.pk, credit.expense_id]),
    }
    return shown(request, project, "confirm.html", context)
