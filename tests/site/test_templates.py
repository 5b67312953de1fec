"""The house rules for templates and style sheets."""

import re
from pathlib import Path

import pytest
from django.conf import settings

ROOT = Path(settings.ROOT)
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
SHEETS = sorted(
    path for path in (ROOT / "static" / "css").glob("*.css") if path.name != "tokens.css"
)
PARTIAL = re.compile(r"{% partialdef ([\w-]+)(?: inline)? %}\s*(?:{%.*?%}\s*)*<\w+([^>]*)>", re.S)
INLINE = re.compile(r"\sstyle=|<style|<script(?![^>]*\bsrc=)|\son\w+=|javascript:|\shx-on", re.I)
COLOUR = re.compile(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|hwb|lab|lch|oklab|oklch|color)a?\(", re.I)
NAMED = re.compile(
    r":[^;{}]*(?<![\w-])(?:black|white|red|green|blue|yellow|orange|brown|gr[ae]y|silver|pink)"
    r"(?![\w-])"
)
PAINTED = re.compile(r"""(?:fill|stroke|stop-color|bgcolor|color)=["'](?!none|url|\{)""")
LONGEST = 80


def named(path):
    return str(path.relative_to(ROOT))


def without_comments(text):
    text = re.sub(r"{% comment %}.*?{% endcomment %}", "", text, flags=re.S)
    return re.sub(r"/\*.*?\*/", "", text, flags=re.S)


def each(paths):
    return pytest.mark.parametrize("path", paths, ids=named)


@each(TEMPLATES)
def test_no_template_has_a_style_or_a_script_inside(path):
    drawn = r"{% if \w+\.(?:for_print|style) %}.*?{% endif %}"
    text = re.sub(drawn, "", path.read_text(), flags=re.S)
    assert INLINE.findall(text) == []


@each(TEMPLATES)
def test_no_template_names_a_colour(path):
    assert PAINTED.findall(path.read_text()) == []


@each(TEMPLATES)
def test_a_template_is_short_enough_to_be_read_at_once(path):
    assert len(path.read_text().splitlines()) <= LONGEST


@each(TEMPLATES)
def test_a_partial_is_named_after_the_id_of_its_root(path):
    text = without_comments(path.read_text())
    found = PARTIAL.findall(text)
    assert len(found) == text.count("{% partialdef ")
    for name, attributes in found:
        assert f'id="{name}"' in attributes


@each(SHEETS)
def test_colours_are_written_in_the_tokens_alone(path):
    text = without_comments(path.read_text())
    assert COLOUR.findall(text) == []
    assert NAMED.findall(text) == []


@each(SHEETS)
def test_a_style_sheet_overrules_by_its_layer_and_not_by_force(path):
    assert "!important" not in path.read_text()


def test_every_colour_that_is_used_is_one_of_the_tokens():
    tokens = set(re.findall(r"(--[\w-]+):", (ROOT / "static/css/tokens.css").read_text()))
    used = {name for path in SHEETS for name in re.findall(r"var\((--[\w-]+)", path.read_text())}
    own = {name for path in SHEETS for name in re.findall(r"(--[\w-]+):", path.read_text())}
    assert used <= tokens | own


def test_the_rules_can_fail():
    assert (
        INLINE.search('<p style="x">') and INLINE.search("<script>") and INLINE.search(" onclick=")
    )
    assert not INLINE.search('<script src="x" defer>')
    assert COLOUR.search("color: #fff") and COLOUR.search("rgba(0,0,0,.5)")
    assert NAMED.search("a { color: white; }") and not NAMED.search("a { white-space: nowrap; }")
    assert PAINTED.search('<path fill="#211c17">') and not PAINTED.search('<path fill="none">')
