"""Charts for the timeline's tests: the plan of Hearthlight, and any plan at all."""

from __future__ import annotations

import random
from datetime import date, timedelta
from itertools import pairwise

from hypothesis import strategies as st

from schedules.timeline.marks import (
    DAY,
    Bar,
    Chart,
    Closed,
    Dropped,
    Flag,
    Hire,
    Join,
    Kept,
    LaneName,
    State,
    Tie,
    Wait,
    instant,
)

FIRST = date(2031, 3, 3)  # a Monday
LANES = {
    "artist": "Artist",
    "city": "Arts board and city",
    "metal": "Saltglaze Metalworks",
    "loft": "Third Bell Canvas Loft",
    "lift": "Millrace Lift Hire",
    "crew": "Volunteer crew",
}
TASKS = (  # name, lane, first day, days, days in hand, state
    ("Working drawings", "artist", 0, 9, 0, State.DONE),
    ("Encroachment permit review", "city", 10, 28, 2, State.NEAR),
    ("Weld lantern frame", "metal", 14, 14, 0, State.CHAIN),
    ("Paper pattern and fit check", "artist", 28, 3, 0, State.CHAIN),
    ("Cut and sew skin", "loft", 31, 24, 0, State.CHAIN),
    ("Paint mural field", "artist", 52, 10, 4, State.PLAIN),
    ("Prime wall", "crew", 49, 2, 4, State.PLAIN),
    ("Lift on site", "lift", 66, 9, 0, State.CHAIN),
    ("Mill Lane Lantern Walk", "crew", 80, 0, 0, State.CHAIN),
)


def at(day: float) -> int:
    return instant(FIRST) + int(day * DAY)


def bar(
    name: str, lane: str = "artist", start: float = 0, days: float = 5, hand: float = 0, **more
) -> Bar:
    return Bar(
        key=more.pop("key", name),
        name=name,
        lane=lane,
        start=at(start),
        finish=at(start + days),
        earliest=at(start - more.pop("before", 0)),
        latest=at(start + days + hand),
        url=f"#{name}",
        **more,
    )


def lantern_walk(**fields) -> Chart:
    bars, chain = [], []
    for name, lane, start, days, hand, state in TASKS:
        place = len(chain) if state is State.CHAIN else None
        chain += [name] if state is State.CHAIN else []
        bars.append(bar(name, lane, start, days, hand, state=state, chain_position=place))
    known = {
        "today": FIRST + timedelta(12),
        "lanes": tuple(LaneName(key=k, name=n) for k, n in LANES.items()),
        "bars": tuple(bars),
        "waits": (Wait(key="w", name="Anchor mortar cures", start=at(62), finish=at(66)),),
        "flags": (
            Flag(key="walk", name="Mill Lane Lantern Walk", at=at(80), public=True),
            Flag(key="permit", name="Permit expires", at=at(86.5)),
            Flag(key="fund", name="Last day to spend the Riverside Ward fund", at=at(84.5)),
        ),
        "joins": tuple(Join(before=a, after=b) for a, b in pairwise(chain)),
        "closed": tuple(
            Closed(day=day) for n in range(120) if (day := FIRST + timedelta(n)).weekday() > 4
        ),
    }
    return Chart(**{**known, **fields})


names = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=120
)


def kept(start: float, days: float, words: str = "ends as in Rev A") -> Kept:
    return Kept(start=at(start), finish=at(start + days), words=words)


def many(count: int, seed: int) -> Chart:
    """A plan of any size, much the same for the same seed: bars, links, hires, an older plan."""
    dice = random.Random(seed)
    bars = tuple(one_of_many(dice, n, count) for n in range(count))
    span = max(20, count)
    return Chart(
        today=FIRST + timedelta(dice.randrange(span)),
        lanes=tuple(LaneName(key=str(n), name=f"Lane {n} of the yard") for n in range(12)),
        bars=bars,
        hires=tuple(
            Hire(key=str(n), name=f"Scaffold {n}", lane=str(n), start=at(n * 9), finish=at(n * 15))
            for n in range(1, 4)
        ),
        dropped=tuple(
            Dropped(key=str(n), name="Cast the base", lane="gone", start=at(n), finish=at(n + 4))
            for n in range(dice.randrange(3))
        ),
        flags=tuple(
            Flag(key=str(n), name=f"Permit {n} expires", at=at(dice.randrange(span)), public=n == 0)
            for n in range(dice.randrange(7))
        ),
        joins=tuple(Join(before=a.key, after=b.key) for a, b in pairwise(bars[:8])),
        record="A",
        against=True,
    )


def one_of_many(dice: random.Random, n: int, count: int) -> Bar:
    start, length = dice.randrange(max(20, count)), dice.choice([0, 0.5, 1, 2, 5, 12])
    name = dice.choice(["Prime", "Weld lantern frame", "Paper pattern and fit check", "Å" * 40])
    moved = dice.choice([None, 0, -9, 14])
    return bar(
        f"{name} {n}",
        str(dice.randrange(12)),
        start,
        length,
        dice.choice([0, 0, 3, 20]),
        key=str(n),
        state=dice.choice(list(State)),
        kept=None if moved is None else kept(start + moved, max(1, length)),
        ties=(Tie(before=str(dice.randrange(count))),),
    )


@st.composite
def charts(draw: st.DrawFn) -> Chart:
    """Any plan: some lanes, bars of any length, tails both ways, waits and flags anywhere."""
    days = st.integers(0, draw(st.sampled_from([1, 10, 60, 400, 900])))
    bars = []
    for n in range(draw(st.integers(0, 25))):
        length = draw(st.sampled_from([0, 0.5, 1, 3, 8, 30]))
        start, hand, before = draw(days), draw(st.integers(0, 9)), draw(st.integers(0, 9))
        lane = draw(st.sampled_from("abcd"))
        state = draw(st.sampled_from(list(State)))
        moved = draw(st.sampled_from([None, 0, -20, 3]))
        older = None if moved is None else kept(start + moved, max(1, length))
        more = {"key": str(n), "state": state, "before": before, "kept": older}
        bars.append(bar(draw(names), lane, start, length, hand, **more))
    chain = draw(st.permutations([b.key for b in bars]))[:6]
    return Chart(
        today=FIRST + timedelta(draw(days)),
        lanes=tuple(LaneName(key=key, name=draw(names)) for key in "abcd"),
        bars=tuple(bars),
        waits=tuple(draw(st.lists(waits(days), max_size=4, unique_by=lambda w: w.key))),
        flags=tuple(draw(st.lists(flags(days), max_size=8, unique_by=lambda f: f.key))),
        joins=tuple(Join(before=a, after=b) for a, b in pairwise(chain)),
        hires=tuple(draw(st.lists(others(Hire, days), max_size=3, unique_by=lambda h: h.key))),
        dropped=tuple(draw(st.lists(others(Dropped, days), max_size=3, unique_by=lambda d: d.key))),
        against=draw(st.booleans()),
    )


@st.composite
def others(draw: st.DrawFn, kind: type[Hire | Dropped], days: st.SearchStrategy[int]):
    start, key = draw(days), str(draw(st.integers(0, 99)))
    length = draw(st.sampled_from([1, 7, 40]))
    lane = draw(st.sampled_from("abcx"))
    return kind(key=key, name=draw(names), lane=lane, start=at(start), finish=at(start + length))


@st.composite
def waits(draw: st.DrawFn, days: st.SearchStrategy[int]) -> Wait:
    start = draw(days)
    length = draw(st.sampled_from([0.1, 1, 7, 28]))
    key = str(draw(st.integers(0, 99)))
    return Wait(key=key, name=draw(names), start=at(start), finish=at(start + length))


@st.composite
def flags(draw: st.DrawFn, days: st.SearchStrategy[int]) -> Flag:
    key = draw(st.integers(0, 99))
    when = at(draw(days) + draw(st.sampled_from([0, 0.5, 40, 900])))
    return Flag(key=str(key), name=draw(names), at=when, public=key == 0)
