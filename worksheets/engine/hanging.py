"""Whether a part hangs on the wall that is there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from worksheets.engine.reach import beyond
from worksheets.engine.result import Finding, Standing

RULE = "Sizes of part and wall as written"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """Metres, from the wall’s left end and above the ground; None where it is not known."""

    name: str
    left: float | None
    width: float | None
    bottom: float | None
    height: float | None


def off_the_wall(
    hung: Hung, wall: tuple[float, float], show: Callable[[float], str]
) -> Iterator[Finding]:
    """What reaches past the wall’s right end, or above its top; ``wall`` is its width and height.

    >>> part = Hung(name="Frame", left=6.0, width=2.0, bottom=1.0, height=1.0)
    >>> [found.says for found in off_the_wall(part, (7.0, 4.0), "{} m".format)]
    ['Frame: it ends 1.0 m past the wall’s right end. Move it left or make it narrower.']
    """
    wide, tall = wall
    right = (hung.left or 0.0) + (hung.width or 0.0)
    top = (hung.bottom or 0.0) + (hung.height or 0.0)
    if beyond(right, wide):
        where = "past the wall’s right end. Move it left or make it narrower"
        yield Finding(standing=Standing.OVER, rule=RULE, part=hung.name,
                      says=f"{hung.name}: it ends {show(right - wide)} {where}.")  # fmt: skip
    if beyond(top, tall):
        where = "above the top of the wall. Hang it lower or make it shorter"
        yield Finding(standing=Standing.OVER, rule=RULE, part=hung.name,
                      says=f"{hung.name}: it ends {show(top - tall)} {where}.")  # fmt: skip
