"""Receipts of the demo: a till slip for each expense."""

from __future__ import annotations

from datetime import date

from packets.management.demo.canvas import INK, Canvas
from projects.words import day_year, money


def letter(payee: str, title: str, what: str, day: date) -> bytes:
    """A paper that somebody signed: a time sheet, a letter, a rate card."""
    c = Canvas(6, 8, 110)
    c.text(0.5, 7.2, payee[:34], 26)
    c.text(0.5, 6.7, "Wexcombe Mills", 18)
    c.text(0.5, 5.6, title[:36], 30)
    c.line([(0.5, 5.4), (5.5, 5.4)], INK, 1)
    for row in range(3):
        c.text(0.5, 4.8 - row * 0.45, what[row * 46 : (row + 1) * 46].strip(), 20)
    c.text(0.5, 2.6, day_year(day), 20)
    c.line([(0.5, 1.4), (3.2, 1.4)], INK, 1)
    c.text(0.5, 1.0, "Signed", 18)
    return c.jpeg()


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


def bank_line(payee: str, cents: int, day: date) -> bytes:
    """Proof of payment: the line of an account that paid the bill."""
    c = Canvas(8, 4, 110)
    c.text(0.4, 3.5, "Account of the artist, statement", 24)
    c.line([(0.4, 3.2), (7.6, 3.2)], INK, 1)
    c.text(0.4, 2.5, day_year(day), 20)
    c.text(0.4, 2.0, payee[:34], 22)
    c.text(7.6, 2.0, f"-{money(cents)}", 26, "rs")
    c.line([(0.4, 1.6), (7.6, 1.6)], INK, 1)
    c.text(0.4, 0.8, "Cleared", 20)
    return c.jpeg()
