"""What the things and their findings look like on a drawing: people, zone, marks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from worksheets.drawings import people
from worksheets.drawings.scene import Mark, Reach, Zone
from worksheets.engine import reach
from worksheets.engine.result import Standing
from worksheets.engine.rules import RuleSet
from worksheets.engine.things import WHO, Setting, Told, has_figures

MARKED = (Standing.OVER, Standing.NEAR)


def marks_of(name: str, told: Iterable[Told]) -> tuple[Mark, ...]:
    return tuple(
        Mark(each.standing, each.at, each.short)
        for each in told
        if each.finding.part == name and each.standing in MARKED and each.short
    )


def zone_of(rules: RuleSet) -> Zone:
    values = rules.values
    return Zone(above=values["sticks_above"], to=values["sticks_to"], wall=values["sticks_wall"])


def shared_of(setting: Setting) -> tuple[float, float] | None:
    known = [who for who in setting.users if has_figures(setting.rules, who)]
    return reach.common_band(setting.rules, known) if known else None


def crowd(setting: Setting) -> Iterator[Reach]:
    """A standing adult, a seated one, and the smallest child that is to use it."""
    show, rules = setting.brief, setting.rules
    yield Reach("standing", "Standing adult", people.STANDING, people.STANDING_WORDS)
    low, high = reach.band(rules, reach.ADULT)
    if reach.ADULT in setting.users and high is not None:
        says = f"reach {show(low)} to {show(high)}"
        yield Reach("seated", "Seated adult", people.SEATED, says, low, high)
    child = next((who for who in setting.users if who in people.CHILD), None)
    if child is None:
        return
    name, tall = f"Child, {WHO[child]}", people.CHILD[child]
    if has_figures(rules, child):
        low, high = reach.child_band(rules, child)
        yield Reach("child", name, tall, f"reach {show(low)} to {show(high)}", low, high)
    else:
        yield Reach("child", name, tall, show(tall))
