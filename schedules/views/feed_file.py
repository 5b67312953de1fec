"""A calendar feed, for whoever has its address: no login, nothing to guess."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.http import http_date
from django.views.decorators.http import require_safe

from projects.clock import today
from schedules.services.feeds import feed_file, feed_of

HEADERS = {
    "Cache-Control": "private, max-age=300",
    "Referrer-Policy": "no-referrer",
    "X-Robots-Tag": "noindex, nofollow, noarchive",
}


@login_not_required
@require_safe
def feed(request: HttpRequest, token: str) -> HttpResponseBase:
    found = feed_of(token)
    if found is None:
        raise Http404
    file = feed_file(found, today(found.project), timezone.now())
    response = HttpResponse(file.body, content_type="text/calendar; charset=utf-8")
    response["Content-Disposition"] = f'inline; filename="{file.name}"'
    for name, value in HEADERS.items():
        response[name] = value
    response["ETag"] = file.tag
    stamp = int(file.changed_at.timestamp()) if file.changed_at else None
    if stamp:
        response["Last-Modified"] = http_date(stamp)
    return get_conditional_response(request, file.tag, stamp, response) or response
