"""The Money sheet: its sentence, its tables, who may see and change them."""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets.models import BudgetLine, Commitment
from projects.models import LogEntry
from tests.budgets.factories import HTMX, expense, fund, line, order, photo, rule, share, typed, url

pytestmark = pytest.mark.django_db


def sheet(client, project, **query) -> str:
    return client.get(url("money", project), query).content.decode()


def test_an_empty_sheet_teaches_and_offers_the_first_line(owner, project):
    page = sheet(owner, project)
    assert "There is no budget yet." in page and "Add the first line" in page
    assert "Welded frame, Fabrication, $6,400" in page


def test_the_sentence_names_loose_receipts_and_the_fund_that_closes(owner, project):
    line(project)
    fund(project, award_cents=86_000, period_end=date(2031, 3, 15))
    expense(project, 124_000)
    assert (
        "$1,240 of receipts has no fund yet; "
        "Riverside Ward improvement fund closes in 12 days with $860 unspent."
    ) in sheet(owner, project)


def test_a_broken_share_leads_the_sentence(owner, project):
    board = fund(project, "Wexcombe Arts Board small works grant")
    share(expense(project, category="food"), board, 20_000)
    rule(board, "barred_categories", categories=["food"])
    said = "Wexcombe Arts Board small works grant does not pay for food and hospitality."
    page = owner.get(url("money", project))
    assert page.context["m"].matters.sentence.startswith(said.rstrip("."))
    assert said in page.content.decode()


def test_a_short_match_is_named(owner, project):
    board, bill = fund(project), expense(project)
    rule(board, "match", numerator=1, denominator=1)
    share(bill, board, 20_000)
    page = sheet(owner, project)
    assert "Riverside Ward improvement fund needs $200 more match" in page
    assert "$200 short" in page


def test_lines_are_added_changed_and_deleted_in_place(partner, project):
    typed = {"name": "Sewing", "category": "fabrication", "planned_cents": "2,400"}
    answer = partner.post(url("line-add", project), typed, headers=HTMX)
    page = answer.content.decode()
    assert page.lstrip().startswith('<div id="sheet"') and "<html" not in page
    assert "$2,400" in page and "Added the line Sewing." in page
    made = BudgetLine.objects.get()
    partner.post(url("line-edit", project, made.pk), {**typed, "planned_cents": "2,600"})
    made.refresh_from_db()
    assert made.planned_cents == 260_000
    partner.post(url("line-delete", project, made.pk))
    assert not BudgetLine.objects.exists()
    said = [entry.sentence for entry in LogEntry.objects.all()]
    assert said[::-1] == [
        "Added the budget line “Sewing”: $2,400.",
        "Changed the budget line “Sewing”: $2,600.",
        "Deleted the budget line “Sewing”.",
    ]


def test_a_wrong_budget_stays_in_its_place_with_what_was_typed(partner, project):
    typed = {"name": "Sewing", "category": "fabrication", "planned_cents": "1.2.3"}
    answer = partner.post(url("line-add", project), typed)
    page = answer.content.decode()
    assert answer.status_code == 422 and "more than one point" in page
    assert 'value="Sewing"' in page and 'value="1.2.3"' in page


def test_a_line_with_expenses_cannot_be_deleted(partner, project):
    bill = expense(project)
    answer = partner.post(url("line-delete", project, bill.line.pk))
    assert answer.status_code == 409
    assert "1 expense is booked on this line." in answer.content.decode()


def test_an_order_without_a_line_waits_with_a_select(partner, project):
    weld, frame = line(project, "Welding"), order(project)
    assert f'id="line-of-{frame.pk}"' in sheet(partner, project)
    partner.post(url("order-line", project, frame.pk), {"line": weld.pk})
    assert Commitment.objects.get().line == weld
    partner.post(url("order-line", project, frame.pk), {"line": ""})
    assert not Commitment.objects.exists()


def test_broken_rules_come_first_then_expenses_without_a_fund(owner, project):
    board = fund(project)
    rule(board, "barred_categories", categories=["food"])
    paid = expense(project, payee="Third Bell Canvas Loft", day=date(2031, 3, 2))
    share(paid, board, 20_000)
    expense(project, payee="Kiln Row Bakery", day=date(2031, 1, 2))
    barred = expense(project, payee="Weir Bakery", category="food", day=date(2031, 1, 1))
    share(barred, board, 20_000)
    page = sheet(owner, project)
    names = ("Weir Bakery", "Kiln Row Bakery", "Third Bell Canvas Loft")
    places = [page.index(f">{name}<") for name in names]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("query", "shown"),
    [
        ({"show": "open"}, {"Kiln Row Bakery"}),
        ({"show": "no-receipt"}, {"Kiln Row Bakery", "Third Bell Canvas Loft"}),
        ({"show": "in-kind"}, {"Volunteer crew"}),
        ({"q": "canvas"}, {"Third Bell Canvas Loft"}),
        ({"q": "nobody"}, set()),
    ],
)
def test_expenses_are_filtered(owner, project, query, shown):
    share(expense(project, payee="Third Bell Canvas Loft"), fund(project), 20_000)
    expense(project, payee="Kiln Row Bakery")
    gift = expense(project, payee="Volunteer crew", in_kind=True)
    owner.post(url("paper-add", project, gift.pk), {"file": photo(), "kind": "receipt"})
    rows = owner.get(url("money", project), query).context["m"].bills.object_list
    assert {row.expense.payee for row in rows} == shown


def test_expenses_come_by_the_hundred(owner, project):
    paint = line(project)
    for cents in range(1, 102):
        expense(project, cents, line=paint)
    assert "Page 1 of 2, 101 expenses" in sheet(owner, project)
    assert len(owner.get(url("money", project), {"page": "2"}).context["m"].bills) == 1


def queries(client, project) -> int:
    with CaptureQueriesContext(
        connection,
    ) as seen:
        assert client.get(url("money", project)).status_code == 200
    return len(seen)


def test_queries_do_not_grow_with_rows(owner, project):
    def more(rows):
        for number in range(rows):
            paint = line(project, f"Line {number}")
            board = fund(project, f"Fund {number}")
            rule(board, "allowed_categories", categories=["materials"])
            share(expense(project, line=paint), board, 5_000)
            order(project, supplier=f"Maker {rows}-{number}", paid_from=paint)

    more(2)
    owner.get(url("money", project))
    few = queries(owner, project)
    more(20)
    assert queries(owner, project) == few


PAGES = ("money", "line-add", "fund-add", "expense-add")


@pytest.mark.parametrize("name", PAGES)
def test_a_stranger_learns_nothing(stranger, project, name):
    assert stranger.get(url(name, project)).status_code == 404
    assert stranger.post(url("line-add", project), {}).status_code == 404


@pytest.mark.parametrize("name", PAGES[1:])
def test_a_reader_reads_but_changes_nothing(reader, project, name):
    line(project)
    page = sheet(reader, project)
    assert "Primer and paint" in page and "Log an expense" not in page
    assert reader.get(url(name, project)).status_code == 403
    assert reader.post(url(name, project), typed(BudgetLine.objects.get())).status_code == 403


@pytest.mark.parametrize("name", ["expense-edit", "expense-delete", "share", "paper-add"])
def test_a_reader_cannot_change_an_expense(reader, stranger, project, name):
    bill = expense(project)
    assert reader.post(url(name, project, bill.pk)).status_code == 403
    assert stranger.post(url(name, project, bill.pk)).status_code == 404


def gaining(project):
    """A lamp that only the lights fund could leave to the ward fund's paint."""
    flex = fund(project, "Ward fund", award_cents=50_000)
    lights = fund(project, "Lights fund", award_cents=50_000)
    rule(lights, "allowed_categories", categories=["install"])
    lamp = expense(project, 50_000, category="install")
    paint, own = expense(project, 50_000), fund(project, "Own money", kind="own", award_cents=0)
    share(lamp, flex, 50_000)
    share(paint, own, 50_000)


def test_the_gain_of_the_best_fit_comes_late_and_is_then_kept(owner, project):
    gaining(project)
    late, gain = url("best-gain", project), "$500 more of the funds’ money can be used."
    before = sheet(owner, project)
    assert f'hx-get="{late}' in before and gain not in before
    piece = owner.get(late, headers=HTMX).content.decode()
    assert gain in piece and "<html" not in piece
    after = sheet(owner, project)
    assert gain in after and late not in after


def test_a_kept_gain_is_forgotten_once_anything_changes(partner, project):
    gaining(project)
    partner.get(url("best-gain", project), headers=HTMX)
    assert "more of the funds’ money" in sheet(partner, project)
    partner.post(url("expense-add", project), typed(line(project)))
    assert "more of the funds’ money" not in sheet(partner, project)


def test_the_gain_leads_to_the_best_fit_where_nothing_else_does(owner, project):
    gaining(project)
    late = url("best-gain", project)
    link = f'href="{url("best", project)}"'
    assert link in owner.get(f"{late}?alone=yes", headers=HTMX).content.decode()
    assert link not in owner.get(late, headers=HTMX).content.decode()
    assert owner.get(late).url == url("best", project)


def test_money_that_would_be_lost_in_the_end_is_a_gain(owner, project):
    """All that is spent is paid; but the frame to come is nothing for the lights fund."""
    flex = fund(project, "Ward fund", award_cents=50_000)
    lights = fund(project, "Lights fund", award_cents=50_000)
    rule(lights, "allowed_categories", categories=["install"])
    lamps = line(project, "Lamps", category="install", planned_cents=50_000)
    share(expense(project, 50_000, category="install", line=lamps), flex, 50_000)
    line(project, "Frame", category="materials", planned_cents=50_000)
    piece = owner.get(url("best-gain", project), headers=HTMX).content.decode()
    assert "$500 more of the funds’ money can be used." in piece


def test_a_sheet_with_nothing_to_gain_says_nothing_of_it(owner, project):
    assert "best/gain" not in sheet(owner, project)
    fund(project)
    assert "best/gain" not in sheet(owner, project)
    share(expense(project, 20_000), fund(project, "Ward fund"), 20_000)
    assert owner.get(url("best-gain", project), headers=HTMX).content.decode().strip() == ""
