"""Filters that put figures into words: the same ones on screen, on paper and in the log."""

from __future__ import annotations

from datetime import date

from django import template

from projects.words import day, day_year, hundredths, megabytes, millimetres, money, plural, span

register = template.Library()
register.filter("money", money)
register.filter("mm", millimetres)
register.filter("megabytes", megabytes)
register.filter("span_to", span)
register.filter("hundredths", hundredths)


@register.filter("day")
def day_filter(value: date | None) -> str:
    return day(value) if value else ""


@register.filter("day_year")
def day_year_filter(value: date | None) -> str:
    return day_year(value) if value else ""


@register.filter("count_of")
def count_of(value: int, noun: str) -> str:
    """``{{ 3|count_of:"task" }}`` gives “3 tasks”."""
    return plural(value, noun)
