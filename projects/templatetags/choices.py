"""The options of a choice: a list of 120 tasks through the template’s loop outlasts the plan."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import template
from django.forms.utils import flatatt
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

register = template.Library()


@register.filter
def options(groups: Iterable[tuple[Any, list[dict[str, Any]], int]]) -> SafeString:
    """As the framework's own template writes them, those without a group beside the groups."""
    return format_html_join("\n", "{}", ((group(name, each),) for name, each, _ in groups))


def group(name: Any, each: list[dict[str, Any]]) -> SafeString:
    rows = ((str(o["value"]), flatatt(o["attrs"]), o["label"]) for o in each)
    found = format_html_join("\n", '<option value="{}"{}>{}</option>', rows)
    return format_html('<optgroup label="{}">\n{}\n</optgroup>', name, found) if name else found
