"""The labels of the curve of the chance."""

from __future__ import annotations

from schedules.timeline.curve import marks

LABEL = 43  # of the width of a phone, the longest of them


def crossed(marks):
    """The labels that another line runs through: it begins higher, on the side of the label."""
    return [
        (label.kind, line.kind)
        for label in marks
        for line in marks
        if line.y < label.y
        and 0 < (line.x - label.x) * (1 if label.anchor == "start" else -1) < LABEL
    ]


def test_no_label_of_the_curve_is_crossed_by_another_line():
    """On a phone as well: all of them lean one way as long as there is room."""
    late = [(41.0, "public", "p"), (30.0, "half", "h"), (51.0, "most", "m")]
    early = [(96.0, "public", "p"), (57.0, "half", "h"), (66.0, "most", "m")]
    far = [(3.0, "public", "p"), (67.0, "half", "h"), (73.0, "most", "m")]
    assert not any(crossed(marks(lines)) for lines in (late, early, far))
    assert [m.kind for m in marks(early)] == ["public", "most", "half"]
