"""Headers for private pages, and a login that works from inside a piece of a page."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.cache import patch_vary_headers
from django_htmx.http import HttpResponseClientRedirect


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
