"""What could be done about a low day: each change of terms as the flows that it makes."""

from collections.abc import Iterable
from dataclasses import dataclass

from budgets.engine.cash import Course, Flow, bridge, course


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """Something to ask for, with all the flows as they would be; `takes` says what it takes."""

    key: str
    what: str
    takes: str
    flows: tuple[Flow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """What a lever does, in cents: `gain` is how much less must be bridged."""

    lever: Lever
    course: Course
    bridge: int
    gain: int


def rank(
    opening: int, floor: int, flows: Iterable[Flow], levers: Iterable[Lever]
) -> tuple[Effect, ...]:
    """Every lever by how much less must be bridged, the most first; ties in the order given.

    >>> from datetime import date
    >>> bill = Flow(day=date(2031, 5, 2), cents=-800_00, what="Frame")
    >>> half = Flow(day=date(2031, 5, 2), cents=-300_00, what="Frame")
    >>> later = Lever(key="deposit", what="Less deposit", takes="Ask the maker.", flows=(half,))
    >>> [(e.lever.key, e.bridge, e.gain) for e in rank(100_00, 0, [bill], [later])]
    [('deposit', 20000, 50000)]
    """
    now = bridge(course(opening, flows), floor)
    effects = [_effect(opening, floor, now, lever) for lever in levers]
    return tuple(sorted(effects, key=lambda effect: -effect.gain))


def _effect(opening: int, floor: int, now: int, lever: Lever) -> Effect:
    found = course(opening, lever.flows)
    needed = bridge(found, floor)
    return Effect(lever=lever, course=found, bridge=needed, gain=now - needed)
