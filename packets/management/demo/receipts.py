"""Receipts of the demo: a till slip for each expense."""

from __future__ import annotations

from datetime import date

from packets.management.demo.canvas import INK, Canvas
from projects.words import day_year, money


def receipt(payee: str, what: str, cents: int, day: date) -> bytes:
    c = Canvas(6, 8, 110)
    c.text(3, 7.1, payee[:30], 32, "ms")
    c.text(3, 6.6, "Wexcombe Mills", 20, "ms")
    c.line([(0.5, 6.3), (5.5, 6.3)], INK, 1)
    c.text(0.5, 5.7, what[:42], 22)
    c.text(0.5, 5.1, day_year(day), 22)
    c.line([(0.5, 3.4), (5.5, 3.4)], INK, 1)
    c.text(0.5, 2.8, "Total, paid", 26)
    c.text(5.5, 2.8, money(cents), 30, "rs")
    c.text(3, 0.8, "Thank you", 20, "ms")
    return c.jpeg()
