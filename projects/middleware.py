"""The first account, headers for private pages, a login from inside a piece of a page."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.cache import patch_vary_headers
from django_htmx.http import HttpResponseClientRedirect


def first_account(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """While nobody has an account, every address leads to the page that makes the first one."""

    def answer(request: HttpRequest) -> HttpResponse:
        setup = reverse("projects:setup")
        if request.path == setup or request.user.is_authenticated or User.objects.exists():
            return get_response(request)
        return redirect(setup)

    return answer


def private_pages(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    def answer(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if request.path.startswith(settings.STATIC_URL):
            return response
        if not response.has_header("Cache-Control"):
            response["Cache-Control"] = "private, no-store"
        patch_vary_headers(response, ["HX-Request", "HX-History-Restore-Request"])
        return to_login(request, response)

    return answer


def to_login(request: HttpRequest, response: HttpResponse) -> HttpResponse:
    login = reverse(settings.LOGIN_URL)
    place = response.headers.get("Location", "")
    if getattr(request, "htmx", False) and response.status_code == 302 and place.startswith(login):
        return HttpResponseClientRedirect(place)
    return response
