"""The layout of panels on a bolt of cloth, which unrolls to the right."""

from __future__ import annotations

from worksheets.drawings.svg import Canvas, Point
from worksheets.engine.packing.laying import Plan
from worksheets.engine.skin_case import Case

WIDE = 600.0
LEFT, ABOVE, BELOW = 66.0, 26.0, 34.0
LONGEST = 5.0  # bolt widths that are drawn; the rest is told


def drawn(plan: Plan, longest: float) -> float:
    """How much of the length is drawn: to the end of the last panel that lies within it."""
    ends = [max(y for _, y in laid.corners) for laid in plan.panels()]
    within = [end for end in ends if end <= longest * (1 + 1e-9)]
    return max(within) if within else min(ends)


def draw_bolt(case: Case) -> str:
    plan, given = case.plan, case.given
    bolt = plan.strip + 2 * given["selvage"]
    shown = drawn(plan, LONGEST * bolt)
    scale = min((WIDE - LEFT - 16) / shown, 240 / bolt)
    canvas = Canvas(LEFT + shown * scale + 16, bolt * scale + ABOVE + BELOW, "Layout on the bolt")

    def at(x: float, y: float) -> Point:
        """``x`` across the cloth that can be cut, ``y`` along it."""
        return LEFT + y * scale, ABOVE + (given["selvage"] + x) * scale

    canvas.rect((LEFT, ABOVE), shown * scale, bolt * scale, "waste")
    canvas.rect(at(0, 0), shown * scale, plan.strip * scale, "wall")
    for laid in plan.panels():
        if max(y for _, y in laid.corners) > shown * (1 + 1e-9):
            continue
        canvas.polygon([at(x, y) for x, y in laid.corners], "shape")
        middle = [sum(point[n] for point in laid.corners) / 4 for n in (0, 1)]
        size = min(plan.shapes[laid.shape].height, plan.shapes[laid.shape].width) * scale
        if size > 12:
            x, y = at(middle[0], middle[1])
            letter = case.patterns[laid.shape].letter
            canvas.text((x, y + 4), letter, "label", anchor="middle", turn=180 * laid.turned)
    _sizes(canvas, case, shown, bolt, scale)
    return canvas.svg()


def _sizes(canvas: Canvas, case: Case, shown: float, bolt: float, scale: float) -> None:
    given, plan = case.given, case.plan
    foot = ABOVE + bolt * scale + 22
    words = given.show(plan.length, "length", toward="up")
    if shown < plan.length * (1 - 1e-9):
        part = given.show(shown, "length", toward="down")
        words = f"the first {part} of {words}; the rest goes on in the same way"
    canvas.dimension((LEFT, foot), (LEFT + shown * scale, foot), words)
    x = LEFT - 22
    wide = given.show(bolt, "small_length", toward="down")
    canvas.dimension((x, ABOVE), (x, ABOVE + bolt * scale), wide)
    canvas.text((LEFT, ABOVE - 10), "Unrolls to the right; the grain runs along", "small")
