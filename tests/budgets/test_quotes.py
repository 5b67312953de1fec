"""Several suppliers are asked in the same words, and their answers are compared on the plan."""

from __future__ import annotations

from datetime import date, timedelta
from io import BytesIO

import pikepdf
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets.selectors.quotes.compare import compared
from budgets.selectors.quotes.letter import letter_of
from budgets.selectors.quotes.trial import trial
from budgets.selectors.quotes.words import sentence
from projects.models import LogEntry
from schedules import plan
from schedules.models import Task
from suppliers.models import Document, Quote, QuoteRequest
from tests.budgets.factories import HTMX, fund, line, order, pdf, photo, rule, url
from tests.budgets.quoting import LOCKSIDE, LOFT, answered, asked_for, quote
from tests.factories import TODAY, SupplierFactory, planned_project

pytestmark = pytest.mark.django_db

SEW = "Cut and sew skin"


@pytest.fixture
def planned(db):
    return planned_project()


def page(client, project, name: str, *more, **query) -> str:
    return client.get(url(name, project, *more), query).content.decode()


def last_log(project) -> str:
    return LogEntry.objects.filter(project=project).latest("pk").sentence


def said(request, on: date | None = None) -> str:
    return sentence(compared(request, TODAY, on))


def test_an_empty_room_teaches(owner, project):
    shown = page(owner, project, "quotes")
    assert "Nothing is asked for yet." in shown and "powder coat of the lantern frame" in shown


def test_suppliers_are_asked_in_one_form(partner, project):
    who = [SupplierFactory(project=project, name=name) for name in (LOFT, LOCKSIDE)]
    typed = {
        "title": "Lantern skin", "what": "Six panels.", "suppliers": [s.pk for s in who],
        "line": line(project).pk, "answer_by": "2031-03-10", "wanted_on": "2031-05-01",
    }  # fmt: skip
    answer = partner.post(url("quotes-add", project), typed, headers=HTMX)
    made = QuoteRequest.objects.get(project=project)
    assert answer.status_code == 200 and "2 suppliers are chosen" in answer.content.decode()
    assert [q.supplier.name for q in made.quotes.all()] == [LOCKSIDE, LOFT]
    assert last_log(project).startswith("Wrote a request for quotes, “Lantern skin”, for ")


def test_a_request_says_what_is_missing_and_loses_nothing(owner, project):
    typed = {"title": "Skin", "what": "", "wanted_on": "2031-03-10", "answer_by": "2031-03-20"}
    answer = owner.post(url("quotes-add", project), typed)
    shown = answer.content.decode()
    assert answer.status_code == 422
    assert "how many, how large" in shown and "when it is wanted" in shown
    assert 'value="Skin"' in shown and 'value="2031-03-20"' in shown


def test_a_line_of_another_project_cannot_pay(owner, project):
    theirs = line(planned_project())
    typed = {"title": "Skin", "what": "Six panels", "line": theirs.pk}
    assert owner.post(url("quotes-add", project), typed).status_code == 422


def test_who_answered_already_cannot_be_unticked(owner, project):
    request = asked_for(project)
    quote(request)
    quote(request, LOCKSIDE, None)
    typed = {"title": "Skin", "what": "Six panels"}
    owner.post(url("quotes-edit", project, request.pk), typed)
    assert [q.supplier.name for q in request.quotes.all()] == [LOFT]


def test_every_supplier_gets_the_same_words(project):
    request = asked_for(project, answer_by=date(2031, 3, 10))
    one, other = (letter_of(quote(request, name, None)) for name in (LOFT, LOCKSIDE))
    assert one.body.replace(LOFT, "") == other.body.replace(LOCKSIDE, "")
    assert "Six panels, felled seams." in one.body
    assert "Please answer by: Mon 10 Mar 2031" in one.body


def test_a_mail_opens_with_its_words_filled_in(owner, project):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    asked.supplier.email = "loft@thirdbell.example"
    asked.supplier.save()
    shown = page(owner, project, "quote-words", request.pk, asked.pk)
    assert "mailto:loft@thirdbell.example?subject=Request%20for%20a%20quote" in shown
    assert "Six%20panels" in shown and "Nothing is sent from here" in shown


def test_each_supplier_has_a_paper_of_its_own(reader, project):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    answer = reader.get(url("quote-print", project, request.pk, asked.pk))
    assert answer["Content-Type"] == "application/pdf"
    with pikepdf.open(BytesIO(answer.content)) as found:
        assert found.Root.MarkInfo.Marked and found.Root.StructTreeRoot is not None
        assert found.Root.Lang == "en"


def test_asked_is_marked_once(owner, project):
    request = asked_for(project)
    first = quote(request, LOFT, None, asked_on=date(2031, 2, 20))
    other = quote(request, LOCKSIDE, None)
    owner.post(url("quotes-asked", project, request.pk))
    first.refresh_from_db()
    other.refresh_from_db()
    assert (first.asked_on, other.asked_on) == (date(2031, 2, 20), TODAY)
    assert last_log(project) == "Asked Lockside Upholstery for “Lantern skin”."


def test_an_answer_is_logged_with_its_paper(owner, reader, stranger, project):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    typed = answered(tax_cents="165.63", delivery_cents="40", deposit_basis_points="50 %")
    where = url("quote-answer", project, request.pk, asked.pk)
    owner.post(where, {**typed, "net_days": "15", "upload": pdf("quote.pdf")})
    asked.refresh_from_db()
    assert asked.total_cents == 285_563 and asked.deposit_basis_points == 5000
    assert last_log(project) == (
        "Third Bell Canvas Loft quotes $2,855.63 in 15 working days for “Lantern skin”."
    )
    paper = url("quote-file", project, request.pk, asked.pk)
    assert b"".join(reader.get(paper).streaming_content).startswith(b"%PDF-")
    assert stranger.get(paper).status_code == 404


def test_a_replaced_paper_leaves_no_file_behind(owner, project, django_capture_on_commit_callbacks):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    where = url("quote-answer", project, request.pk, asked.pk)
    owner.post(where, {**answered(), "upload": pdf("quote.pdf")})
    asked.refresh_from_db()
    old, storage = asked.file.name, asked.file.storage
    with django_capture_on_commit_callbacks(execute=True):
        owner.post(where, {**answered(), "upload": photo("quote.jpg")})
    asked.refresh_from_db()
    assert not storage.exists(old) and asked.media_type == "image/jpeg"


@pytest.mark.parametrize(
    ("changes", "right"),
    [
        ({"cents": "1.234,56"}, "1,234.56"),
        ({"cents": "-20"}, "below zero"),
        ({"cents": "0"}, "above zero"),
        ({"cents": "99999999999999"}, "is too large"),
        ({"received_on": "2031-03-04"}, "has not come yet"),
        ({"valid_until": "2031-02-01"}, "before Sun 2 Mar 2031"),
        ({"lead_days": "two weeks"}, "whole number of days, such as 15"),
        ({"lead_days": "1000"}, "more than 999 days"),
        ({"deposit_basis_points": "150"}, "100 at most"),
        ({"net_days": "-5"}, "below zero"),
    ],
)
def test_a_wrong_answer_says_what_would_be_right(owner, project, changes, right):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    where = url("quote-answer", project, request.pk, asked.pk)
    answer = owner.post(where, answered(note="By the door", **changes))
    shown = answer.content.decode()
    assert answer.status_code == 422 and right in shown and "By the door" in shown
    asked.refresh_from_db()
    assert asked.cents is None


def test_who_does_not_quote_is_told_apart_and_may_come_back(owner, project):
    request = asked_for(project)
    asked = quote(request, LOFT, None)
    where = url("quote-declined", project, request.pk, asked.pk)
    owner.post(where)
    assert "does not quote" in page(owner, project, "quote-request", request.pk)
    owner.post(where)
    asked.refresh_from_db()
    assert asked.state == "asked"


def test_the_lead_time_is_tried_on_the_real_plan_and_nothing_is_saved(planned):
    """25 working days after the frame's 10, from 3 March: the walk on 14 June has room."""
    task = Task.objects.get(project=planned, name=SEW)
    plan.recompute(planned, TODAY)
    found = trial(planned, TODAY, task).effect(25, TODAY)
    assert found.ready_on == date(2031, 4, 18)
    task.refresh_from_db()
    assert task.days == 20
    Task.objects.filter(pk=task.pk).update(days=25)
    assert plan.recompute(planned, TODAY).in_hand_days == found.in_hand


@pytest.mark.parametrize("lead", [1, 25, 60, 65])
def test_the_last_day_to_order_keeps_the_date_and_the_day_after_does_not(planned, lead):
    tried = trial(planned, TODAY, Task.objects.get(project=planned, name=SEW))
    latest = tried.effect(lead, TODAY).latest
    assert latest is not None
    assert (tried.effect(lead, latest).in_hand or 0) >= 0
    assert (tried.effect(lead, latest + timedelta(days=1)).in_hand or 0) < 0


def test_one_quote_tried_leaves_the_next_as_it_was(planned):
    tried = trial(planned, TODAY, Task.objects.get(project=planned, name=SEW))
    first = tried.effect(25, TODAY)
    tried.effect(40, date(2031, 5, 1))
    assert tried.effect(25, TODAY) == first
    assert tried.known.days == 20


def test_a_cheaper_quote_that_misses_the_date_is_not_the_best(owner, planned):
    request = asked_for(planned, task=SEW)
    quote(request, LOCKSIDE, 242_000, lead_days=80)
    quote(request, LOFT, 265_000, lead_days=15)
    words = said(request)
    assert words.startswith("Take Third Bell Canvas Loft at $2,650: it leaves ")
    assert "Lockside Upholstery is $230 cheaper but misses Mill Lane Lantern Walk by" in words
    shown = page(owner, planned, "quote-request", request.pk)
    assert "missed by" in shown and "the best" in shown and "Order from Third Bell" in shown


def test_without_a_task_the_price_and_the_day_it_is_wanted_decide(project):
    request = asked_for(project, wanted_on=date(2031, 3, 14))
    quote(request, LOCKSIDE, 242_000, lead_days=20)
    quote(request, LOFT, 265_000, lead_days=5)
    assert "Lockside Upholstery is $230 cheaper but comes 14 days after it is wanted." in said(
        request
    )


def test_a_price_that_ends_before_the_order_is_not_taken(project):
    request = asked_for(project)
    quote(request, LOCKSIDE, 242_000, valid_until=date(2031, 3, 10))
    quote(request, LOFT, 265_000, valid_until=date(2031, 4, 10))
    assert said(request).startswith("Lockside Upholstery is the cheapest")
    later = said(request, date(2031, 3, 11))
    assert "Take Third Bell Canvas Loft" in later
    assert "was priced only until Mon 10 Mar" in later


def test_tax_and_delivery_are_part_of_the_price(project):
    request = asked_for(project)
    quote(request, LOCKSIDE, 260_000, delivery_cents=9_000)
    quote(request, LOFT, 265_000)
    assert said(request).startswith("Third Bell Canvas Loft is the cheapest at $2,650")


def test_what_the_line_has_left_is_told(owner, project):
    pays = line(project, "Sewn skin", planned_cents=250_000)
    order(project, 40_000, paid_from=pays)
    request = asked_for(project, line=pays)
    quote(request)
    assert "It is $550 more than “Sewn skin” has left." in said(request)
    assert "−$550" in page(owner, project, "quote-request", request.pk)


def test_a_supplier_without_cover_is_named_before_the_order(project):
    request = asked_for(project)
    asked = quote(request)
    assert "Before you order: no insurance certificate on file." in said(request)
    paper = Document.objects.create(supplier=asked.supplier, expires_on=date(2031, 3, 5))
    assert "Before you order: insurance ends Wed 5 Mar, before it is there." in said(request)
    paper.expires_on = date(2031, 8, 1)
    paper.save()
    assert "Before you order" not in said(request)


def test_a_fund_that_asks_for_more_quotes_is_named(project):
    board = fund(project, "Wexcombe Arts Board small works grant")
    rule(board, "quotes_needed", cents=200_000, quotes=3)
    request = asked_for(project)
    quote(request, LOCKSIDE, 150_000)
    assert "asks for 3 quotes" not in said(request)
    quote(request, LOFT, 265_000)
    assert (
        "Wexcombe Arts Board small works grant asks for 3 quotes above $2,000; 2 have come."
    ) in said(request)


def test_a_deposit_and_the_rest_are_dated(owner, project):
    request = asked_for(project)
    quote(request, LOFT, 265_000, deposit_basis_points=5000, net_days=15, lead_days=5)
    row = compared(request, TODAY).answers[0]
    assert [(due.cents, due.day) for due in row.dues] == [
        (132_500, TODAY),
        (132_500, date(2031, 3, 22)),
    ]


def test_answers_that_are_late_are_told_on_the_list(owner, project):
    request = asked_for(project, answer_by=date(2031, 3, 1))
    quote(request, LOFT, None, asked_on=date(2031, 2, 20))
    assert "1 answer was due Sat 1 Mar for “Lantern skin”." in page(owner, project, "quotes")


def test_a_request_is_deleted_with_its_answers(owner, project):
    request = asked_for(project)
    quote(request)
    owner.post(url("quotes-delete", project, request.pk))
    assert not Quote.objects.exists()


def test_a_day_that_is_no_day_is_today(owner, project):
    request = asked_for(project)
    quote(request)
    where = url("quote-request", project, request.pk)
    for odd in ("", "31-02-99", "2020-01-01", "x" * 300):
        assert owner.get(where, {"on": odd}).context["c"].on == TODAY


def test_a_reader_may_look_and_not_change(reader, project):
    request = asked_for(project)
    asked = quote(request)
    assert "Order it" not in page(reader, project, "quote-request", request.pk)
    assert reader.post(url("quotes-add", project), {}).status_code == 403
    assert reader.post(url("quote-choose", project, request.pk, asked.pk)).status_code == 403


@pytest.mark.parametrize("name", ["quotes", "quote-request"])
def test_queries_do_not_grow_with_the_quotes(owner, planned, name):
    def count() -> int:
        with CaptureQueriesContext(
            connection,
        ) as found:
            owner.get(where)
        return len(found)

    request = asked_for(planned, task=SEW)
    where = url(name, planned, *([request.pk] if name == "quote-request" else []))
    quote(request, "Shop 0")
    order(planned, supplier="Shop 0b")
    count()
    few = count()
    for n in range(1, 6):
        quote(request, f"Shop {n}")
        order(planned, supplier=f"Shop {n}b")
    assert count() == few


def test_federal_money_asks_for_quotes_by_itself(project):
    """FAR 2.101, 90 FR 41872: above 15,000 from 1 October 2025."""
    fund(project, "National endowment", is_federal=True)
    request = asked_for(project)
    quote(request, LOFT, 15_000_00)
    assert "National endowment asks for" not in said(request)
    quote(request, LOCKSIDE, 15_000_01)
    assert not compared(request, TODAY).short_of
    (asked,) = compared(request, TODAY).asked
    assert (asked.above, asked.quotes, asked.source) == (15_000_00, 2, "FAR 2.101, 90 FR 41872")
