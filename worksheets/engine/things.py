"""Things people use or meet, held against a rule set: what is wrong, and what would mend it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from worksheets.engine import reach
from worksheets.engine.reach import Judged, ReachError
from worksheets.engine.result import Finding, Standing
from worksheets.engine.rules import RuleSet

CLOSE = 0.025  # nearer to a limit than this asks for a look: hands build to about an inch
WHO = {
    "adult": "adults",
    "3-4": "ages 3 to 4",
    "5-8": "ages 5 to 8",
    "9-12": "ages 9 to 12",
}
WALKED_INTO = ("wall", "post", "hung")


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """Lengths in m, the force in N; None where it is not known or does not matter."""

    name: str
    mounting: str = "wall"  # wall, post, hung, ground, painted
    used: float | None = None
    depth: float = 0.0  # that is reached over
    obstruction: float | None = None
    approach: str = "forward"
    edge: float | None = None
    out: float | None = None  # from the wall, or from the post
    along: float | None = None  # its width along the path
    force: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the things are, by which rules, and for whom. ``show`` writes a length."""

    rules: RuleSet
    users: tuple[str, ...]
    show: Callable[[float], str]
    brief: Callable[[float], str] = str  # the same, short enough for a drawing
    show_force: Callable[[float], str] = str
    path_from: float = 0.0
    path_width: float | None = None
    walked: bool = True  # people walk right up to the wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A finding with where it occurs, and in short for a drawing."""

    finding: Finding
    at: str  # used, edge, path, force
    short: str

    @property
    def standing(self) -> Standing:
        return self.finding.standing


def judge(things: Iterable[Thing], setting: Setting) -> list[Told]:
    """Every thing against every rule that applies to it."""
    return [told for thing in things for told in judge_one(thing, setting)]


def judge_one(thing: Thing, setting: Setting) -> Iterator[Told]:
    if thing.used is not None:
        yield from used(thing, thing.used, setting)
    if thing.force is not None:
        yield from worked(thing, thing.force, setting)
    if thing.mounting in WALKED_INTO and thing.edge is not None and thing.out is not None:
        yield met(thing, thing.edge, thing.out, setting)
    if thing.out is not None and setting.path_width is not None and reaches_path(thing, setting):
        yield narrowed(thing, thing.out, setting.path_width, setting)


def used(thing: Thing, height: float, setting: Setting) -> Iterator[Told]:
    """One finding for all who use it, and a note for those without figures."""
    rules, show = setting.rules, setting.show
    known = [who for who in setting.users if has_figures(rules, who)]
    unknown = [who for who in setting.users if who not in known]
    if unknown:
        says = (
            f"{thing.name}: {rules.title} gives no reach for {listed_who(unknown)}. Ask those who "
            "look after them."
        )
        yield told(thing, Standing.NOTE, says, rules.clause("children"), "used", "")
    if not known:
        return
    judged = [
        reach.reach(
            rules, who, height,
            approach=thing.approach, depth=thing.depth, obstruction=thing.obstruction,
        )
        for who in known
    ]  # fmt: skip
    wrong = [each for each in judged if each.fault]
    if wrong:
        yield out_of_reach(thing, height, wrong, setting)
        return
    tight = min(judged, key=lambda each: each.slack)
    if tight.slack < CLOSE:
        limit = tight.most if tight.most and height > tight.most - CLOSE else tight.least
        says = (
            f"{thing.name}: used at {show(height)}, at the very limit of {show(limit or 0)} for "
            f"{WHO[tight.who]}. Leave about an inch for building."
        )
        short = f"used at {setting.brief(height)}: at the limit for {WHO[tight.who]}"
        yield told(thing, Standing.NEAR, says, tight.clause, "used", short)
        return
    says = f"{thing.name}: used at {show(height)}, within reach for {listed_who(known)}."
    yield told(thing, Standing.WITHIN, says, clauses(judged), "used", "")


def has_figures(rules: RuleSet, who: str) -> bool:
    return who == reach.ADULT or who in rules.values["children"]


def out_of_reach(thing: Thing, height: float, wrong: list[Judged], setting: Setting) -> Told:
    show, fault = setting.show, wrong[0].fault
    who = listed_who([each.who for each in wrong])
    start = f"{thing.name}: used at {show(height)}"
    if fault in ("deep", "obstruction"):
        return too_deep(thing, fault, wrong[0], setting)
    ends = ", ".join(f"{show(end(each))} for {WHO[each.who]}" for each in wrong)
    side = "above" if fault == "high" else "below"
    says = f"{start}, {side} what can be reached: {ends}. {mend_height(thing, wrong, setting)}"
    short = f"used at {setting.brief(height)}: {side} {setting.brief(end(wrong[0]))} for {who}"
    return told(thing, Standing.OVER, says, clauses(wrong), "used", short)


def end(judged: Judged) -> float:
    """The limit that is missed."""
    return (judged.most if judged.fault == "high" else judged.least) or 0.0


def mend_height(thing: Thing, wrong: list[Judged], setting: Setting) -> str:
    show = setting.show
    known = [who for who in setting.users if has_figures(setting.rules, who)]
    shared = reach.common_band(setting.rules, known, thing.approach, thing.depth)
    if shared is None:
        return "No one height serves all of them: make two, or choose who it is for."
    low, high = shared
    faults = {each.fault for each in wrong}
    if faults == {"high"}:
        return f"Lower it to {show(high)} or less, but not below {show(low)}."
    if faults == {"low"}:
        return f"Raise it to {show(low)} or more, but not above {show(high)}."
    return f"Set it between {show(low)} and {show(high)}."


def too_deep(thing: Thing, fault: str, judged: Judged, setting: Setting) -> Told:
    show, rules = setting.show, setting.rules
    if fault == "deep":
        most = reach.deepest(rules, thing.approach)
        says = (
            f"{thing.name}: it is reached over {show(thing.depth)}, more than the {show(most)} "
            f"that anybody is taken to reach. Bring it {show(thing.depth - most)} nearer."
        )
        brief = setting.brief
        short = f"reached over {brief(thing.depth)}: more than {brief(most)}"
        return told(thing, Standing.OVER, says, judged.clause, "used", short)
    tall, most = thing.obstruction or 0.0, rules.values["side_obstruction"]
    says = (
        f"{thing.name}: what is reached over is {show(tall)} high, more than {show(most)} from "
        f"the side. Lower it to {show(most)} or less."
    )
    short = f"reached over {setting.brief(tall)}: above {setting.brief(most)}"
    return told(thing, Standing.OVER, says, judged.clause, "used", short)


def worked(thing: Thing, force: float, setting: Setting) -> Iterator[Told]:
    show, found = setting.show_force, reach.operable(setting.rules, force)
    if found is None:
        says = f"{thing.name}: {setting.rules.title} as kept here has no figure for force."
        yield told(thing, Standing.NOTE, says, setting.rules.clause("force"), "force", "")
        return
    if found.fault:
        says = (
            f"{thing.name}: it takes {show(force)}, more than {show(found.most or 0)}. Give it a "
            "longer handle or an easier gear; one hand must do, without a tight grip or twist."
        )
        short = f"takes {show(force)}: more than {show(found.most or 0)}"
        yield told(thing, Standing.OVER, says, found.clause, "force", short)
        return
    says = f"{thing.name}: it takes {show(force)}, within {show(found.most or 0)}, with one hand."
    yield told(thing, Standing.WITHIN, says, found.clause, "force", "")


def met(thing: Thing, edge: float, out: float, setting: Setting) -> Told:
    """Somebody walks along: does a cane find it, is there head room, does it stick out too far?"""
    rules, show = setting.rules, setting.show
    counted = out if setting.walked else max(0.0, out - setting.path_from)
    found = reach.sticks_out(rules, edge, counted, post=thing.mounting == "post")
    low, high = rules.values["sticks_above"], rules.values["sticks_to"]
    if thing.mounting == "hung" and counted > 0 and not reach.head_room(rules, edge).ok:
        return no_head_room(thing, edge, setting)
    if found.fault:
        most = found.most or 0.0
        says = (
            f"{thing.name}: it sticks out {show(counted)}, more than {show(most)}, and its lower "
            f"edge at {show(edge)} is above the {show(low)} where a cane finds it. Lower the edge "
            f"to {show(low)} or less, raise it above {show(high)}, or let it stick out "
            f"{show(most)} or less."
        )
        short = f"edge at {setting.brief(edge)}, out {setting.brief(counted)}: a cane misses it"
        return told(thing, Standing.OVER, says, found.clause, "edge", short)
    return not_walked_into(thing, edge, counted, found, setting)


def not_walked_into(
    thing: Thing, edge: float, counted: float, found: Judged, setting: Setting
) -> Told:
    rules, show = setting.rules, setting.show
    low, high = rules.values["sticks_above"], rules.values["sticks_to"]
    if found.most is not None:
        why = f"it sticks out {show(counted)}, within {show(found.most)}"
    elif reach.beyond(edge, high):
        why = f"its lower edge at {show(edge)} is above head room ({show(high)})"
    else:
        why = f"its lower edge at {show(edge)} is low enough for a cane ({show(low)})"
    far = counted > rules.values["sticks_wall"] and edge > 0
    close = far and found.most is None and min(abs(edge - low), abs(edge - high)) < CLOSE
    standing = Standing.NEAR if close else Standing.WITHIN
    more = ", at the very limit. Leave about an inch for building." if close else "."
    clause = rules.clause("head_room") if reach.beyond(edge, high) else found.clause
    return told(thing, standing, f"{thing.name}: {why}{more}", clause, "edge", "")


def no_head_room(thing: Thing, edge: float, setting: Setting) -> Told:
    rules, show = setting.rules, setting.show
    least = rules.values["head_room"]
    says = (
        f"{thing.name}: its lower edge at {show(edge)} leaves less than {show(least)} of head "
        f"room. Hang it {show(least - edge)} higher, or put a barrier with its edge at "
        f"{show(rules.values['barrier_edge'])} or less before it."
    )
    short = f"edge at {setting.brief(edge)}: head room below {setting.brief(least)}"
    return told(thing, Standing.OVER, says, rules.clause("head_room"), "edge", short)


def reaches_path(thing: Thing, setting: Setting) -> bool:
    """Over the path, and low enough to be in somebody’s way."""
    edge = thing.edge or 0.0
    return (
        thing.mounting != "painted"
        and reach.beyond(thing.out or 0.0, setting.path_from)
        and not reach.beyond(edge, setting.rules.values["head_room"])
    )


def narrowed(thing: Thing, out: float, width: float, setting: Setting) -> Told:
    rules, show = setting.rules, setting.show
    left = reach.path_left(width, setting.path_from, out)
    found = reach.clear_width(rules, left, thing.along)
    least = found.least or 0.0
    if found.fault:
        says = (
            f"{thing.name}: it leaves {show(left)} of the path, less than {show(least)}. "
            f"Bring it back by {show(least - left)}."
        )
        short = f"leaves {setting.brief(left)} of path: less than {setting.brief(least)}"
        return told(thing, Standing.OVER, says, found.clause, "path", short)
    close = found.slack < CLOSE
    more = ", at the very limit. Leave about an inch for building." if close else "."
    says = f"{thing.name}: it leaves {show(left)} of the path; {show(least)} is asked for{more}"
    standing = Standing.NEAR if close else Standing.WITHIN
    return told(thing, standing, says, found.clause, "path", "")


def told(
    thing: Thing, standing: Standing, says: str, clause: str, at: str, short: str
) -> Told:  # fmt: skip
    finding = Finding(standing=standing, says=says, rule=clause, part=thing.name)
    return Told(finding=finding, at=at, short=short)


def clauses(judged: Iterable[Judged]) -> str:
    return "; ".join(dict.fromkeys(each.clause for each in judged))


def listed_who(users: Iterable[str]) -> str:
    """“adults, ages 3 to 4 and ages 5 to 8”."""
    words = [WHO[who] for who in users]
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else "nobody"


__all__ = ["WHO", "ReachError", "Setting", "Thing", "Told", "judge", "listed_who"]
