"""Sizes and masses as a drawing gives them."""

from __future__ import annotations

NO_BREAK = "\u00a0"
GRAMS_A_POUND = 453.59237  # the international avoirdupois pound, by definition


def feet(value: int) -> str:
    """“24 ft”, “4 ft 6 in”, “9 in”."""
    whole, inches = divmod(round(value / 25.4), 12)
    words = [f"{whole} ft"] if whole else []
    return " ".join(words + ([f"{inches} in"] if inches or not words else []))


def size(*values: int | None) -> str:
    """“24 ft × 12 ft”; what is not known is left out."""
    return " × ".join(feet(value) for value in values if value)


def metres(*values: int | None) -> str:
    """“7.32 × 3.66 m”."""
    known = [f"{value / 1000:.2f}" for value in values if value]
    return f"{' × '.join(known)} m".replace(" ", NO_BREAK) if known else ""


def both(*values: int | None) -> str:
    """“24 ft × 12 ft (7.32 × 3.66 m)”."""
    return f"{size(*values)} ({metres(*values)})" if any(values) else ""


def mass(grams: int | None) -> str:
    """“64 lb (29 kg)”."""
    if not grams:
        return ""
    pounds, kilograms = grams / GRAMS_A_POUND, grams / 1000
    places = 0 if pounds >= 10 else 1
    return f"{pounds:,.{places}f} lb ({kilograms:,.{places}f} kg)"
