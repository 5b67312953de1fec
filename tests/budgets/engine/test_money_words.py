"""Money and rates as they stand in a sentence. The shapes are common practice, no source."""

from budgets.engine import dollars, percent


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
