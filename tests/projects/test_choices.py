"""The options of a choice are written quickly, and as the framework writes them."""

from django import forms
from django.template import Context, Template

from projects.templatetags.choices import options

GROUPS = [
    ("", "Decide later"),
    ("Steel & “skin”", [("line-1", "<b>Skin</b>"), ("line-2", "Frame")]),
    (7, "Leave it out"),
]
FRAMEWORK = Template(
    "{% for name, options, index in groups %}"
    '{% if name %}<optgroup label="{{ name }}">\n{% endif %}'
    '{% for o in options %}<option value="{{ o.value }}"{% if o.selected %} selected{% endif %}>'
    "{{ o.label }}</option>{% if not forloop.last %}\n{% endif %}{% endfor %}"
    "{% if name %}\n</optgroup>{% endif %}{% if not forloop.last %}\n{% endif %}{% endfor %}"
)


def test_options_are_escaped_grouped_and_chosen_as_in_the_framework() -> None:
    widget = forms.ChoiceField(choices=GROUPS).widget
    for chosen in ("", "line-2", "7"):
        groups = widget.optgroups("line", [chosen])
        written = options(groups)
        assert written == FRAMEWORK.render(Context({"groups": groups}))
        assert "<b>" not in written and written.count(" selected") == 1
