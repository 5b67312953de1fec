"""The rules of a fund: choose a kind, fill its few fields, change it, take it off."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.fit import symbol_of
from budgets.forms.rules import KINDS, RuleForm, groups
from budgets.models import Fund, FundRule
from budgets.selectors.rules import sentence_of
from budgets.services import rules as services
from budgets.views.pages import fund_in, shown, to_fund
from projects.access import project_for
from projects.models import Project
from projects.pages import data_of, posted


def rule_in(fund: Fund, rule_id: int) -> FundRule:
    found: FundRule = get_object_or_404(FundRule, fund=fund, pk=rule_id)
    found.fund = fund
    return found


@require_GET
def rule_kinds(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    return shown(request, project, "rule_kinds.html", {"fund": fund, "groups": groups()})


@require_http_methods(["GET", "POST"])
def rule_add(request: HttpRequest, project_id: int, pk: int, kind: str) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    return rule_form(request, project, FundRule(fund=fund, code=kind), "Add a rule")


@require_http_methods(["GET", "POST"])
def rule_edit(request: HttpRequest, project_id: int, pk: int, rule_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    rule = rule_in(fund_in(project, pk), rule_id)
    return rule_form(request, project, rule, "Change a rule")


def rule_form(request: HttpRequest, project: Project, rule: FundRule, heading: str) -> HttpResponse:
    if rule.code not in KINDS:
        raise Http404("There is no such kind of rule.")
    form = RuleForm(data_of(request), kind=KINDS[rule.code], rule=rule)
    valid = posted(request) and form.is_valid()
    more = "more" in request.POST
    if valid and not more:
        new = FundRule(fund=rule.fund, **form.values())
        sentence = sentence_of(new, symbol_of(project))
        services.save_rule(rule=rule, values=form.values(), sentence=sentence, user=request.user)
        return to_fund(request, project, rule.fund, f"Saved: {sentence}")
    context = {
        "form": form,
        "kind": form.kind,
        "fund": rule.fund,
        "heading": heading,
        "rule_id": rule.pk,
    }
    status = 200 if not posted(request) or (valid and more) else 409 if form.overtaken else 422
    return shown(request, project, "rule_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def rule_delete(request: HttpRequest, project_id: int, pk: int, rule_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    fund = fund_in(project, pk)
    rule = rule_in(fund, rule_id)
    sentence = sentence_of(rule, symbol_of(project))
    if posted(request):
        services.delete_rule(rule=rule, sentence=sentence, user=request.user)
        return to_fund(request, project, fund, f"Taken off: {sentence}")
    context = {
        "heading": "Take this rule off?",
        "warning": f"{fund.name}: “{sentence}” Expenses are judged without it from then on.",
        "back": reverse("budgets:fund", args=[project.pk, pk]),
    }
    return shown(request, project, "confirm.html", context)
