"""The options of a choice: a list of 120 tasks through the template’s loop outlasts the plan."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

from django import template
from django.forms.utils import flatatt
from django.utils.safestring import SafeString

register = template.Library()


@register.filter
def options(groups: Iterable[tuple[Any, list[dict[str, Any]], int]]) -> SafeString:
    """As the framework's own template writes them, those without a group beside the groups."""
    return SafeString("\n".join(group(name, each) for name, each, _ in groups))


def group(name: Any, each: list[dict[str, Any]]) -> str:
    found = "\n".join(map(option, each))
    return f'<optgroup label="{escaped(name)}">\n{found}\n</optgroup>' if name else found


def option(one: dict[str, Any]) -> str:
    value, attrs = escaped(str(one["value"])), flatatt(one["attrs"]) if one["attrs"] else ""
    return f'<option value="{value}"{attrs}>{escaped(one["label"])}</option>'


def escaped(text: Any) -> str:
    """The framework's own also lets words wait for a language, which takes longer than the rest."""
    return str(text.__html__()) if hasattr(text, "__html__") else escape(str(text))
