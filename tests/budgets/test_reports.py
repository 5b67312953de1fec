"""What funders accept: the same rows as a page, a tagged PDF and a CSV."""

from __future__ import annotations

import csv
import io
from datetime import date

import pytest

from budgets.models import Claim, Counted, FundKind, FundRole, Income, PaperKind
from budgets.selectors.reports.commas import as_csv
from budgets.selectors.reports.making import OF_A_FUND, WHOLE, report_of
from budgets.selectors.reports.room import reports_room
from budgets.selectors.reports.source import read_source
from budgets.selectors.reports.table import Kind
from tests.budgets.factories import expense, fund, line, rule, share, url
from tests.budgets.papers import keep, pdf_of, photo_of

pytestmark = pytest.mark.django_db
DAY, TODAY = date(2031, 2, 20), date(2031, 3, 3)


@pytest.fixture
def board(project):
    """A grant of 2,000 with a match of one to one, half of it in cash."""
    found = fund(
        project,
        "Wexcombe Arts Board small works grant",
        award_cents=2000_00,
        approved={"materials": 1200_00, "install": 800_00},
    )
    rule(found, "match", numerator=1, denominator=1, basis_points=5000)
    return found


@pytest.fixture
def books(project, board):
    """900.10 of paint and 300.45 of lift on the grant, 400.20 of own steel, 500.30 of hours."""
    paint = expense(
        project, 900_10, payee="Ledger Street Paints", day=DAY, paid_on=DAY, invoice_no="LS 114"
    )
    lift = expense(project, 400_45, "install", payee="Millrace Lift Hire", day=DAY, paid_on=None)
    expense(project, 400_20, "fabrication", payee="Saltglaze Metalworks", day=DAY, paid_on=DAY)
    expense(project, 500_30, "community", payee="Volunteer crew", day=DAY, in_kind=True)
    share(paint, board, 900_10)
    share(lift, board, 300_45)
    return paint


def report(project, fund, key, *, through=TODAY, **more):
    return report_of(read_source(project, through, **more), fund, key)


def cells(found, n=0) -> dict[str, tuple]:
    """The rows of a table by the name in their first column."""
    rows = [row for row in found.tables[n].rows if not row.is_group]
    return {row.values[0]: row.values[1:] for row in rows}


def test_budget_against_actual_has_match_beside_it_by_category(project, board, books):
    found = report(project, board, "budget")
    rows = cells(found)
    assert rows["Materials"][:6] == (1200_00, 900_10, 0, 0, 900_10, 299_90)
    assert rows["Installation and equipment"][:6] == (800_00, 300_45, 100_00, 0, 400_45, 499_55)
    assert rows["Community part"][1:4] == (0, 0, 500_30)
    assert rows["Fabrication"][2] == 400_20
    total = found.tables[0].total.values
    assert total[:7] == ("In all", 2000_00, 1200_55, 500_20, 500_30, 2201_05, 799_45)
    assert total[7] == 6003


def test_the_test_of_cash_and_gifts_against_the_grant_is_said(project, board, books):
    words = " ".join(item.says for item in report(project, board, "budget").findings)
    assert "Cash of $500.20 and gifts of $500.30 are together $200.05 less" in words


def test_a_category_beyond_what_was_agreed_is_named(project, board, books):
    more = expense(project, 700_00, "food", payee="Weir Bakery", day=DAY)
    share(more, board, 50_00)
    assert cells(report(project, board, "budget"))["Food and hospitality"][7] == (
        "not in the agreed budget"
    )


def test_wrong_printed_total_of_an_agreed_budget_is_flagged(project, board, books):
    board.approved = {"materials": 1200_00, "install": 850_00}
    board.save()
    words = " ".join(item.says for item in report(project, board, "budget").findings)
    assert "adds up to $2,050; the award is $2,000" in words


def test_income_names_every_source_with_its_standing(project, board, books):
    fund(project, "Mill Lane Traders sponsorship", kind="sponsor", status="offered",
         award_cents=300_00)  # fmt: skip
    Income.objects.create(fund=board, day=DAY, cents=750_00)
    rows = cells(report(project, board, "budget"), 1)
    assert rows["Wexcombe Arts Board small works grant"][2:] == (2000_00, 750_00, 1200_55)
    assert rows["Mill Lane Traders sponsorship"][1] == "Offered, not signed"
    assert rows["Own money"][2:] == (500_20, 500_20, 500_20)
    assert rows["Gifts in kind"][2:] == (500_30, 500_30, 500_30)


def test_in_kind_is_not_counted_as_cash_in_a_match_report(project, board, books):
    found = report(project, board, "match")
    facts = dict(found.facts)
    assert facts["Match required"] == "$1,200.55" and facts["Of it cash required"] == "$600.28"
    assert facts["Of it cash"] == "$500.20" and facts["Of it gifts in kind"] == "$500.30"
    assert "$100.08 of the required match must still be cash" in found.findings[0].says


def test_cash_that_is_short_is_short_although_gifts_are_enough(project, board, books):
    """1,200.55 asked, 600.28 of it in cash; 500.20 in cash and 800.30 in gifts are there."""
    expense(project, 300_00, "community", payee="Mill Lane School", day=DAY, in_kind=True)
    match = read_source(project, TODAY).match_of(board)
    assert match.found == 1300_50 and match.short == 100_08


def test_gifts_fill_no_more_of_a_match_than_the_fund_lets_them(project, board, books):
    asked = board.rules.get()
    asked.params = {"numerator": 1, "denominator": 1, "kind_basis_points": 2500}
    asked.save()
    found = report(project, board, "match")
    assert dict(found.facts)["Of it gifts in kind"] == "$500.30"
    assert "Gifts fill at most $300.13 of the required match" in found.findings[1].says
    assert found.sentence.startswith("$800.33 of $1,200.55 of match is provided")


def test_match_is_listed_by_who_paid_each_cent(project, board, books):
    found = report(project, board, "match")
    rows = [row.values for row in found.tables[0].rows]
    assert [(row[0], row[1], row[2], row[6]) for row in rows] == [
        ("Own money", "Millrace Lift Hire", "Cash", 100_00),
        ("Own money", "Saltglaze Metalworks", "Cash", 400_20),
        ("Volunteer crew", "For community", "Gift", 500_30),
    ]
    assert "No cents are picked" in found.notes[0]


def test_match_that_was_picked_is_all_that_is_listed(project, board, books):
    steel = project.expenses.get(payee="Saltglaze Metalworks")
    Counted.objects.create(expense=steel, fund=board, payer=None, cents=250_00)
    found = report(project, board, "match")
    assert [row.values[6] for row in found.tables[0].rows] == [250_00]
    assert "No cents are picked" not in found.notes[0]


def test_federal_money_is_not_match_for_a_federal_award(project, board, books):
    board.is_federal = True
    board.save()
    state = fund(project, "State regrant", kind="state", is_federal=True, award_cents=400_00)
    share(project.expenses.get(payee="Saltglaze Metalworks"), state, 400_20)
    sources = {row.values[0] for row in report(project, board, "match").tables[0].rows}
    assert "State regrant" not in sources


def test_the_expenditure_list_groups_by_category_and_adds_up(project, board, books):
    table = report(project, board, "spending").tables[0]
    assert [row.values[0] for row in table.rows if row.is_group] == [
        "Materials",
        "Installation and equipment",
    ]
    assert table.total.values[6:8] == (1300_55, 1200_55)
    row = next(row for row in table.rows if row.values[0] == "Ledger Street Paints")
    assert row.values[2] == "LS 114" and row.values[5] == DAY


def test_what_lies_after_the_day_is_left_out(project, board, books):
    late = expense(project, 90_00, day=date(2031, 3, 1), payee="Kiln Row Bakery")
    share(late, board, 90_00)
    before = report(project, board, "spending", through=date(2031, 2, 28))
    assert before.tables[0].total.values[7] == 1200_55
    assert report(project, board, "spending").tables[0].total.values[7] == 1290_55


def test_missing_papers_are_counted_with_the_way_to_mend_them(project, board, books):
    keep(books, photo_of("RECEIPT"))
    words = [item.says for item in report(project, board, "spending").findings]
    assert words == ["1 expense has no receipt or invoice.", "2 expenses have no proof of payment."]


def test_federal_lines_follow_the_form(project, board, books):
    board.kind, board.role = FundKind.FEDERAL, FundRole.GRANTEE
    board.save()
    Income.objects.create(fund=board, day=DAY, cents=600_00)
    Claim.objects.create(
        fund=board, number=1, state="filed", to_day=DAY, filed_on=DAY, indirect_cents=50_00
    )
    rows = {name: row[1] for name, row in cells(report(project, board, "federal")).items()}
    assert (rows["a"], rows["b"], rows["c"]) == (600_00, 950_10, -350_10)
    assert (rows["d"], rows["e"], rows["f"]) == (2000_00, 950_10, 300_45)
    assert (rows["g"], rows["h"]) == (1250_55, 749_45)
    assert (rows["i"], rows["j"], rows["k"]) == (2000_00, 900_50, 1099_50)


def test_a_final_federal_report_with_bills_unpaid_stays_interim(project, board, books):
    board.is_federal = True
    board.save()
    source = read_source(project, TODAY)
    found = report_of(source, board, "federal", final=True)
    assert dict(found.facts)["Report"] == "Interim"
    assert "$300.45 charged to this award is not paid yet" in found.findings[0].says


def test_a_final_federal_report_asks_match_for_what_was_spent(project, board, books):
    board.is_federal = True
    board.save()
    project.expenses.update(paid_on=DAY)
    found = report_of(read_source(project, TODAY), board, "federal", final=True)
    rows = {name: row[1] for name, row in cells(found).items()}
    assert dict(found.facts)["Report"] == "Final"
    assert (rows["f"], rows["i"], rows["e"]) == (0, 1200_55, 1200_55)


def test_a_contractor_is_told_that_the_holder_reports(project, board, books):
    board.kind, board.role, board.holder = "federal", FundRole.CONTRACTOR, "Wexcombe Mills Council"
    board.save()
    found = report(project, board, "federal")
    assert found.tables == () and found.sentence.startswith("Wexcombe Mills Council reports")


def test_the_whole_project_shows_who_pays_each_category(project, board, books):
    line(project, "Paint", category="materials", planned_cents=1500_00)
    found = report(project, None, "project")
    titles = [column.title for column in found.tables[0].columns]
    row = dict(zip(titles[1:], cells(found)["Materials"], strict=True))
    assert row[board.name] == 900_10 and row["Left"] == row["Budget"] - 900_10
    assert found.tables[0].total.values[-2] == 2201_05


def test_whole_dollars_add_up_in_every_table(project, board, books):
    board.kind = "federal"
    board.save()
    seen = 0
    source = read_source(project, TODAY, whole=True)
    of_board = [report_of(source, board, key) for key in OF_A_FUND]
    for found in [report_of(source, None, WHOLE), *of_board]:
        for table in found.tables:
            money = [n for n, column in enumerate(table.columns) if column.kind is Kind.MONEY]
            rows = [row.values for row in table.rows if not row.is_group and not row.is_sum]
            for n in money:
                assert all((row[n] or 0) % 100 == 0 for row in rows)
                if table.total and table.columns[n].title != "Agreed":
                    assert sum(row[n] or 0 for row in rows) == table.total.values[n]
                    seen += 1
    assert seen > 12


def test_whole_dollars_are_off_by_less_than_one(project, board, books):
    exact, whole = (cells(report(project, board, "budget", whole=w)) for w in (False, True))
    for name, row in exact.items():
        parts = zip(row[1:4], whole[name][1:4], strict=True)
        assert all(abs(old - new) < 100 for old, new in parts)


def test_a_csv_has_the_rows_of_the_page_and_no_formula(project, board, books):
    books.payee, books.what = "=HYPERLINK(1)", "+44 blue"
    books.save()
    table = report(project, board, "spending").tables[0]
    data = as_csv(table)
    assert data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))
    assert rows[0]["Payee"] == "'=HYPERLINK(1)" and rows[0]["What for"] == "'+44 blue"
    assert rows[0]["Dated"] == "2031-02-20" and rows[0]["Charged here"] == "900.10"
    assert rows[0]["Group"] == "Materials" and len(rows) == 2


def test_a_negative_amount_stays_a_number_in_a_csv(project, board, books):
    board.kind = "federal"
    board.save()
    data = as_csv(report(project, board, "federal").tables[0]).decode("utf-8-sig")
    rows = {row["Line"]: row["Amount"] for row in csv.DictReader(io.StringIO(data))}
    assert rows["c"] == "-900.10"


def test_the_room_says_what_is_due_next_and_what_is_missing(project, board, books):
    rule(board, "report_due", what="Final report", on="2031-03-20")
    found = reports_room(project, TODAY)
    assert found.sentence.startswith(
        "Next: final report for Wexcombe Arts Board small works grant, due in 17 days."
    )
    assert found.rows[0].missing == ("2 receipts", "2 proofs of payment", "$200.05 of match")
    assert "$500.20 of expenses has no fund yet" in found.sentence
    assert found.rows[0].due == "Final report due Thu 20 Mar 2031"


def test_a_federal_award_is_due_by_the_dated_rule(project, board):
    board.kind, board.period_end = "federal", date(2031, 6, 30)
    board.save()
    assert "Tue 28 Oct 2031" in reports_room(project, TODAY).rows[0].due


def test_a_fund_that_is_not_signed_has_no_reports_yet(project, board):
    fund(project, "Millrace Foundation", status="applied")
    found = reports_room(project, TODAY)
    assert [row.fund.name for row in found.rows] == [board.name]
    assert [row.name for row in found.waiting] == ["Millrace Foundation"]


def test_the_room_reads_in_a_constant_number_of_queries(
    project, board, books, django_assert_max_num_queries
):
    for n in range(8):
        more = fund(project, f"Fund {n}", award_cents=100_00)
        rule(more, "match", numerator=1, denominator=1)
        share(expense(project, 50_00, day=DAY, payee=f"Payee {n}"), more, 50_00)
    with django_assert_max_num_queries(36):
        reports_room(project, TODAY)
    for key in ("budget", "match", "spending"):
        with django_assert_max_num_queries(22):
            report(project, board, key)


def test_pages_answer_with_the_asked_day_and_keep_a_wrong_one(reader, project, board, books):
    page = reader.get(url("report-budget", project, board.pk), {"to": "2031-02-28", "whole": "on"})
    text = page.content.decode()
    assert page.status_code == 200 and "28 Feb 2031" in text
    assert "budget.pdf?to=2031-02-28&amp;whole=on" in text
    wrong = reader.get(url("report-budget", project, board.pk), {"to": "soon"})
    assert wrong.status_code == 422 and "There is no such day" in wrong.content.decode()
    assert 'value="soon"' in wrong.content.decode()


def test_each_table_can_be_saved_by_its_name(reader, project, board, books):
    first = reader.get(url("report-budget-csv", project, board.pk))
    other = reader.get(url("report-budget-csv", project, board.pk), {"table": "income"})
    assert b"Category,Agreed" in first.content and b"Source,Kind" in other.content
    assert "attachment" in first["Content-Disposition"]
    assert "budget-and-actual-2031-03-03-income.csv" in other["Content-Disposition"]


def test_a_strange_name_makes_a_safe_file_name(reader, project, board, books):
    board.name = 'Ward "fund"\r\nX-Evil: 1'
    board.save()
    answer = reader.get(url("report-budget-csv", project, board.pk))
    assert answer["Content-Disposition"].count('"') == 2


def test_reports_are_hidden_from_strangers(stranger, project, board):
    for name in ("report-budget", "report-spending-pdf", "report-match-csv"):
        assert stranger.get(url(name, project, board.pk)).status_code == 404


def test_a_paper_kept_twice_and_a_pdf_are_in_the_papers_column(reader, project, board, books):
    keep(books, photo_of("RECEIPT"))
    keep(books, pdf_of("BANK"), PaperKind.PAYMENT)
    text = reader.get(url("report-spending", project, board.pk)).content.decode()
    assert "1, receipt" in text and "2, proof of payment" in text and "no paper" in text


def test_overhead_that_was_claimed_is_listed_and_counted(project, board, books):
    Claim.objects.create(
        fund=board, number=3, state="filed", to_day=DAY, filed_on=DAY, indirect_cents=90_05
    )
    Claim.objects.create(fund=board, number=4, state="draft", to_day=DAY, indirect_cents=10_00)
    assert cells(report(project, board, "budget"))["Overhead"][1] == 90_05
    found = report(project, board, "spending")
    assert found.tables[0].total.values[7] == 1290_60
    assert "$1,290.60 in all" in found.sentence
    assert cells(found)["Claim 3"][6] == 90_05


def test_the_base_of_overhead_stands_beside_the_federal_lines(project, board, books):
    board.kind = "federal"
    board.save()
    rule(board, "indirect_rate", basis_points=1500, excluded=["install"])
    row = report(project, board, "federal").tables[1].rows[0].values
    assert row[1:3] == (1500, 900_10)
