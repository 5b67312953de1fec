"""Money and rates as they stand in a sentence. The shapes are common practice, no source."""

from datetime import date

from budgets.engine import bars, dollars, percent, report_dates, rows_of
from tests.budgets.engine.money_builders import expense, fund


def test_money_and_rates_in_a_sentence() -> None:
    assert dollars(1_234_567_89) == "$1,234,567.89"
    assert dollars(-1) == "−$0.01"
    assert dollars(5, "£") == "£0.05"
    assert [percent(points) for points in (0, 5, 133, 1500, 10_000)] == [
        "0 %",
        "0.05 %",
        "1.33 %",
        "15 %",
        "100 %",
    ]


def test_every_row_and_refusal_of_a_fund_in_euros_says_euros() -> None:
    cap = ("category_cap", {"categories": ["food"], "cents": 1_00})
    papers = ("papers_needed", {"papers": ["receipt"], "cents": 1_00})
    due = ("report_due", {"days": 30})
    euros = fund(cap, papers, due, symbol="€", period_end=date(2031, 6, 30))
    rows = [row.sentence for row in rows_of(euros, project_total=10_00)]
    reasons = [one.rule for one in bars(euros, expense())]
    words = " ".join([*rows, *reasons, *(one.why for one in report_dates(euros))])
    assert words.count("€") == 2 and "$" not in words
