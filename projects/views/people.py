"""Who belongs to a project. Everybody in it may look; only an owner changes it."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from django_htmx.http import HttpResponseClientRedirect

from projects.access import project_for
from projects.forms.accounts import MemberAccountForm
from projects.forms.people import MemberForm, RoleForm
from projects.models import Membership, Project, Role
from projects.pages import done, sheet, wants_part
from projects.selectors.people import members_of
from projects.services.people import add_account, add_member, change_role, remove_member


def page(
    request: HttpRequest,
    project: Project,
    *,
    form: Form | None = None,
    problem: str = "",
    says: str = "",
) -> HttpResponse:
    context = {
        "members": members_of(project),
        "form": form or MemberForm(project=project),
        "problem": problem,
        "roles": Role.choices,
        "is_owner": project.role == Role.OWNER,  # type: ignore[attr-defined]
    }
    status = 422 if form or problem else 200
    return sheet(
        request, project, "projects/people.html", context,
        current="overview", part="sheet", status=status, says=says,
    )  # fmt: skip


def after(request: HttpRequest, project_id: int, says: str) -> HttpResponse:
    """The page anew, or home for who is no longer a member."""
    if wants_part(request) and Membership.objects.filter(
        project_id=project_id, user_id=request.user.pk or 0
    ):
        return page(request, project_for(request.user, project_id), says=says)
    messages.success(request, says)
    if wants_part(request):
        return HttpResponseClientRedirect(reverse("projects:home"))
    return done(request, reverse("projects:people", args=[project_id]))


@require_safe
def people(request: HttpRequest, project_id: int) -> HttpResponse:
    return page(request, project_for(request.user, project_id))


@require_POST
def person_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, own=True)
    form = MemberForm(request.POST, project=project)
    if not form.is_valid():
        return page(request, project, form=form)
    member, role = form.cleaned_data["who"], form.cleaned_data["role"]
    add_member(project=project, member=member, role=role, user=request.user)
    return after(request, project_id, f"{member} is now a member.")


@require_http_methods(["GET", "HEAD", "POST"])
@sensitive_post_parameters("password1", "password2")
def person_new(request: HttpRequest, project_id: int) -> HttpResponse:
    """An account for somebody who has none."""
    project = project_for(request.user, project_id, own=True)
    form = MemberAccountForm(request.POST or None)
    if not form.is_valid():
        status = 422 if form.is_bound else 200
        context = {"form": form}
        return sheet(
            request, project, "projects/person_new.html", context, current="overview", status=status
        )
    account, role = form.save(commit=False), form.cleaned_data["role"]
    add_account(project=project, account=account, role=role, user=request.user)
    messages.success(request, f"{account.first_name} has an account and is a member.")
    return done(request, reverse("projects:people", args=[project_id]))


@require_POST
def person_role(request: HttpRequest, project_id: int, membership_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, own=True)
    membership = get_object_or_404(Membership, pk=membership_id, project=project)
    form = RoleForm(request.POST)
    if not form.is_valid():
        return page(request, project, problem="Choose owner, partner or reader.")
    try:
        change_role(membership=membership, role=form.cleaned_data["role"], user=request.user)
    except ValidationError as error:
        return page(request, project, problem=str(error.message))
    return after(request, project_id, f"The role of {membership.user} is now {membership.role}.")


@require_POST
def person_remove(request: HttpRequest, project_id: int, membership_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, own=True)
    membership = get_object_or_404(Membership, pk=membership_id, project=project)
    try:
        remove_member(membership=membership, user=request.user)
    except ValidationError as error:
        return page(request, project, problem=str(error.message))
    if membership.user_id == request.user.pk and not wants_part(request):
        messages.success(request, "You have left the project.")
        return done(request, reverse("projects:home"))
    return after(request, project_id, f"{membership.user} is no longer a member.")
