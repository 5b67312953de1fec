"""Who can reach a thing, who walks into it, and what is left of the path: rules as tables.

Every limit comes from a rule set (fixtures/rules/reach.json); sets are never merged. Metres and
newtons. Heights are above the finished ground.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from worksheets.engine.rules import RuleSet

ADULT = "adult"
HALF_A_MILLIMETRE = 0.0005 + 1e-9  # sizes are kept in whole millimetres: 27 in is kept as 686 mm


class ReachError(ValueError):
    """A question that the rule set cannot answer; the message says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One rule against one thing. ``fault`` is empty where the rule is met."""

    about: str  # reach, sticks, head, width, floor, force, under
    value: float
    clause: str
    least: float | None = None
    most: float | None = None
    fault: str = ""  # high, low, deep, obstruction, sticks, head, narrow, short, hard, shallow
    who: str = ""

    @property
    def ok(self) -> bool:
        return not self.fault

    @property
    def slack(self) -> float:
        """How far the value is from its nearest limit; below 0 where it is beyond."""
        ends = [self.value - self.least] if self.least is not None else []
        ends += [self.most - self.value] if self.most is not None else []
        return min(ends, default=float("inf"))


def beyond(value: float, limit: float) -> bool:
    """More than the limit, as far as whole millimetres can tell.

    >>> beyond(0.686, 0.6858), beyond(0.687, 0.6858)
    (False, True)
    """
    return value > limit + HALF_A_MILLIMETRE


def checked(**amounts: float) -> None:
    for name, value in amounts.items():
        if not 0 <= value < 1000:
            raise ReachError(f"The {name.replace('_', ' ')} is from 0 to 1000, not {value:g}.")


def band(rules: RuleSet, who: str, approach: str = "forward", depth: float = 0.0) -> tuple[
    float, float | None
]:  # fmt: skip
    """Lowest and highest point in m that ``who`` reaches over something ``depth`` m deep.

    ``who`` is “adult” or an age group of the set; a child’s band does not change with depth, as the
    tables give none. The highest is None where the depth is more than the set allows. Raises
    ReachError for a group that the set has no figures for. Source: the rule set.

    >>> from worksheets.engine.rules import rule_set
    >>> band(rule_set("reach", "us-2010"), "adult", "forward", 0.53)
    (0.381, 1.1176)
    """
    if who != ADULT:
        return child_band(rules, who)
    low: float = rules.values["low"]
    steps: list[tuple[float, float]] = rules.values[approach]
    return low, next((high for most, high in steps if not beyond(depth, most)), None)


def child_band(rules: RuleSet, who: str) -> tuple[float, float]:
    if who not in rules.values["children"]:
        raise ReachError(f"{rules.title} gives no reach for ages {who}.")
    low, high = rules.values["children"][who]
    return low, high


def reach(
    rules: RuleSet,
    who: str,
    height: float,
    *,
    approach: str = "forward",
    depth: float = 0.0,
    obstruction: float | None = None,
) -> Judged:
    """Whether ``who`` reaches ``height`` (0 to 1000 m) over a depth and an obstruction’s height.

    Source: the rule set, such as 2010 ADA Standards 308. Raises ReachError out of range.

    >>> from worksheets.engine.rules import rule_set
    >>> found = reach(rule_set("reach", "us-2010"), "adult", 1.30)
    >>> found.ok, found.fault, found.most
    (False, 'high', 1.2192)
    """
    checked(height=height, depth=depth, obstruction=obstruction or 0.0)
    low, high = band(rules, who, approach, depth)
    over = "_over" if depth > 0 else ""
    return Judged(
        about="reach",
        value=height,
        clause=rules.clause(approach + over if who == ADULT else "children"),
        least=low,
        most=high,
        fault=reach_fault(rules, height, low, high, approach, obstruction if depth > 0 else None),
        who=who,
    )


def reach_fault(
    rules: RuleSet,
    height: float,
    low: float,
    high: float | None,
    approach: str,
    obstruction: float | None,
) -> str:
    if high is None:
        return "deep"
    if beyond(height, high):
        return "high"
    if beyond(low, height):
        return "low"
    tall = rules.values["side_obstruction"] if approach == "side" else None
    return "obstruction" if tall and obstruction and beyond(obstruction, tall) else ""


def deepest(rules: RuleSet, approach: str) -> float:
    """The most depth in m that the set lets anybody reach over."""
    steps: list[tuple[float, float]] = rules.values[approach]
    return max(most for most, _ in steps)


def common_band(
    rules: RuleSet, groups: Iterable[str], approach: str = "forward", depth: float = 0.0
) -> tuple[float, float] | None:
    """The heights in m that everybody in ``groups`` reaches; None where there are none.

    >>> from worksheets.engine.rules import rule_set
    >>> common_band(rule_set("reach", "us-2010"), ["adult", "3-4"])
    (0.508, 0.9144)
    """
    bands = [band(rules, who, approach, depth) for who in groups]
    highs = [high for _, high in bands if high is not None]
    if not bands or len(highs) < len(bands):
        return None
    low, high = max(low for low, _ in bands), min(highs)
    return (low, high) if low <= high else None


def sticks_out(rules: RuleSet, edge: float, out: float, *, post: bool = False) -> Judged:
    """A thing whose lowest edge is at ``edge`` m, and that sticks out ``out`` m where one walks.

    Only edges above the reach of a cane and below head room are limited; ``most`` is None for the
    others. Valid from 0 to 1000 m. Source: the rule set, such as 2010 ADA Standards 307.2, 307.3.

    >>> from worksheets.engine.rules import rule_set
    >>> us = rule_set("reach", "us-2010")
    >>> sticks_out(us, 0.7366, 0.2).fault, sticks_out(us, 0.6858, 0.3).fault
    ('sticks', '')
    """
    checked(lowest_edge=edge, projection=out)
    values = rules.values
    name = "sticks_post" if post else "sticks_wall"
    limited = in_zone(rules, edge)
    most = values[name] if limited else None
    return Judged(
        about="sticks",
        value=out,
        clause=rules.clause(name),
        most=most,
        fault="sticks" if limited and beyond(out, values[name]) else "",
    )


def in_zone(rules: RuleSet, edge: float) -> bool:
    """Above what a cane finds, and not above head room."""
    above, to = rules.values["sticks_above"], rules.values["sticks_to"]
    return beyond(edge, above) and not beyond(edge, to)


def head_room(rules: RuleSet, edge: float, *, barrier: float | None = None) -> Judged:
    """Room in m below a thing that people walk under; or a ``barrier`` whose edge a cane finds."""
    checked(lowest_edge=edge, barrier=barrier or 0.0)
    guarded = barrier is not None and not beyond(barrier, rules.values["barrier_edge"])
    least = rules.values["head_room"]
    return Judged(
        about="head",
        value=edge,
        clause=rules.clause("head_room"),
        least=least,
        fault="head" if beyond(least, edge) and not guarded else "",
    )


def path_left(width: float, begins: float, out: float) -> float:
    """What is left in m of a path ``width`` wide that begins ``begins`` from the wall.

    >>> path_left(2.0, 0.5, 0.9), path_left(2.0, 0.5, 0.3)
    (1.6, 2.0)
    """
    checked(width=width, begins=begins, projection=out)
    return max(0.0, width - max(0.0, out - begins))


def clear_width(rules: RuleSet, left: float, along: float | None = None) -> Judged:
    """A path narrowed to ``left`` m for ``along`` m; a short narrow place may be narrower."""
    checked(clear_width=left, along=along or 0.0)
    values = rules.values
    short = along is not None and not beyond(along, values["narrow_for"])
    least = values["narrow_width" if short else "clear_width"]
    return Judged(
        about="width",
        value=left,
        clause=rules.clause("narrow" if short else "clear_width"),
        least=least,
        fault="narrow" if beyond(least, left) else "",
    )


def floor_space(
    rules: RuleSet, width: float, length: float, *, approach: str = "forward", alcove: float = 0.0
) -> tuple[Judged, Judged]:
    """Clear ground in front: its width along the wall, and its length out from it (m).

    ``alcove`` is how deep the place is shut in at its sides. For a forward approach the chair’s
    width lies along the wall, for a side approach its length. Source: 2010 ADA Standards 305.

    >>> from worksheets.engine.rules import rule_set
    >>> wide, _ = floor_space(rule_set("reach", "us-2010"), 0.8128, 1.2192, alcove=0.6604)
    >>> wide.ok, wide.least, wide.clause
    (False, 0.9144, '2010 ADA Standards 305.7.1')
    """
    checked(width=width, length=length, alcove=alcove)
    values, key = rules.values, f"alcove_{approach}"
    ends = (values["floor_width"], values["floor_length"])
    wide, long = ends if approach == "forward" else ends[::-1]
    clause, shut = "floor", values[key]
    if shut and beyond(alcove, shut[0]):
        clause, wide = key, shut[1]
    return (
        room("floor", width, wide, rules.clause(clause), "narrow"),
        room("floor", length, long, rules.clause("floor"), "short"),
    )


def room(about: str, value: float, least: float, clause: str, fault: str) -> Judged:
    lacking = fault if beyond(least, value) else ""
    return Judged(about=about, value=value, least=least, clause=clause, fault=lacking)


def room_below(
    rules: RuleSet, height: float, depth: float, width: float, needed: float = 0.0
) -> tuple[Judged, ...]:
    """Room for knees and toes below a thing (m); ``needed`` is the depth to be reached over it."""
    checked(height=height, depth=depth, width=width, needed=needed)
    values = rules.values
    counted = min(depth, values["toe_most"])
    least = max(values["toe_least"], min(needed, values["toe_most"]))
    return (
        room("under", height, values["knee_height"], rules.clause("knee"), "shallow"),
        room("under", counted, least, rules.clause("toe"), "short"),
        room("under", width, values["under_width"], rules.clause("knee"), "narrow"),
    )


def operable(rules: RuleSet, force: float) -> Judged | None:
    """A force in N (0 to 1000) to work a thing with one hand; None where the set has no figure."""
    checked(force=force)
    most = rules.values["force"]
    if most is None:
        return None
    fault = "hard" if force > most * (1 + 1e-6) else ""
    return Judged(about="force", value=force, clause=rules.clause("force"), most=most, fault=fault)
