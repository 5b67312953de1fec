"""The first account, logging in and out, a new password."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import login as start_session
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.models import User
from django.contrib.auth.views import LoginView, LogoutView, PasswordChangeView
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse_lazy
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from projects.forms.accounts import AccountForm, LoginForm, NewPasswordForm
from projects.services.people import make_first_account

BACKEND = "django.contrib.auth.backends.ModelBackend"


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@sensitive_post_parameters("password1", "password2")
def setup(request: HttpRequest) -> HttpResponse:
    """Make the owner's account; there is no such page once somebody has one."""
    if User.objects.exists():
        raise Http404
    form = AccountForm(request.POST or None)
    if not form.is_valid():
        status = 422 if form.is_bound else 200
        return render(request, "registration/setup.html", {"form": form}, status=status)
    account = form.save(commit=False)
    if not make_first_account(account=account):
        raise Http404
    start_session(request, account, BACKEND)
    return redirect("projects:home")


class NewPassword(PasswordChangeView):
    """Django's own change of a password: whoever changes it stays logged in."""

    template_name = "registration/password.html"
    form_class = NewPasswordForm
    success_url = reverse_lazy("projects:home")

    def form_valid(self, form: NewPasswordForm) -> HttpResponse:  # type: ignore[override]
        messages.success(self.request, "Your password is changed.")
        return super().form_valid(form)

    def form_invalid(self, form: NewPasswordForm) -> HttpResponse:  # type: ignore[override]
        return self.render_to_response(self.get_context_data(form=form), status=422)


class Login(LoginView):
    template_name = "registration/login.html"
    authentication_form = LoginForm
    redirect_authenticated_user = True

    def form_invalid(self, form: LoginForm) -> HttpResponse:  # type: ignore[override]
        return self.render_to_response(self.get_context_data(form=form), status=422)


login = login_not_required(Login.as_view())
logout = LogoutView.as_view()
password = NewPassword.as_view()
