"""One supplier of a request: the words, the paper, the answer."""

from __future__ import annotations

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.text import slugify
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.forms.quotes import AnswerForm
from budgets.selectors.quotes.letter import letter_of
from budgets.services import quotes as services
from budgets.views.pages import shown
from budgets.views.quotes_pages import quote_in, the_page, to_request
from projects.access import project_for
from projects.clock import today
from projects.files import PDF, served
from projects.pages import Opened, posted
from projects.paper import print_page


@require_GET
def words(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    """The words for one supplier: to mail, to copy, to print."""
    project = project_for(request.user, project_id)
    quote = quote_in(project, pk, quote_id)
    context = {"letter": letter_of(quote), "quote": quote, "asked": quote.request}
    return shown(request, project, "quote_words.html", context)


@require_GET
def printed(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    """The request as a paper of its own."""
    project = project_for(request.user, project_id)
    letter = letter_of(quote_in(project, pk, quote_id))
    context = {
        "project": project,
        "heading": letter.request.title,
        "about": "Request for a quote",
        "day": letter.quote.asked_on or today(project),
        "letter": letter,
    }
    response = HttpResponse(print_page("budgets/print/quote.html", context), content_type=PDF)
    name = slugify(f"{letter.request.title} {letter.quote.supplier.name}")
    response["Content-Disposition"] = f'inline; filename="{name or "request"}.pdf"'
    return response


@require_POST
def asked(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    quote = quote_in(project, pk, quote_id)
    only = quote.request.quotes.filter(pk=quote_id)
    says = services.mark_asked(quotes=only, user=request.user, today=today(project))
    return to_request(request, project, quote.request, says)


@require_http_methods(["GET", "POST"])
def answer(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    quote = quote_in(project, pk, quote_id)
    data, files = (request.POST, request.FILES) if posted(request) else (None, None)
    form = AnswerForm(data, files, instance=quote_in(project, pk, quote_id), today=today(project))
    problem = ""
    if posted(request) and form.is_valid():
        try:
            says = services.save_answer(
                quote=form.instance,
                values=form.cleaned_data,
                paper=form.cleaned_data["upload"],
                user=request.user,
            )
            return to_request(request, project, quote.request, says)
        except services.Refused as refused:
            problem = str(refused)
    url = reverse("budgets:quote-answer", args=[project.pk, pk, quote_id])
    heading = f"What {quote.supplier.name} quotes"
    opened = Opened(what="answer", action=url, heading=heading, form=form, problem=problem)
    return the_page(request, project, quote.request, opened=opened)


@require_POST
def declined(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    """They do not quote; or, said again, they may after all."""
    project = project_for(request.user, project_id, change=True)
    quote = quote_in(project, pk, quote_id)
    try:
        says = services.decline(quote=quote, user=request.user)
    except services.Refused as refused:
        url = reverse("budgets:quote-declined", args=[project.pk, pk, quote_id])
        opened = Opened(what="declined", action=url, problem=str(refused))
        return the_page(request, project, quote.request, opened=opened)
    return to_request(request, project, quote.request, says)


@require_GET
def quote_file(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> FileResponse:
    """The stored quote, to a member: a picture is shown, a PDF is saved."""
    quote = quote_in(project_for(request.user, project_id), pk, quote_id)
    if not quote.file:
        raise Http404
    is_pdf = quote.media_type == PDF
    name = slugify(f"{quote.request.title} {quote.supplier.name}") or "quote"
    return served(
        quote.file,
        name=f"{name}{'.pdf' if is_pdf else '.jpg'}",
        media_type=quote.media_type,
        attach=is_pdf,
    )
