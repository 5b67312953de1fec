"""Charts for the timeline's tests: the plan of Hearthlight, and any plan at all."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import strategies as st

from schedules.timeline.marks import (
    DAY,
    Bar,
    Chart,
    Closed,
    Flag,
    Join,
    LaneName,
    State,
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
        more = {"key": str(n), "state": state, "before": before}
        bars.append(bar(draw(names), lane, start, length, hand, **more))
    chain = draw(st.permutations([b.key for b in bars]))[:6]
    return Chart(
        today=FIRST + timedelta(draw(days)),
        lanes=tuple(LaneName(key=key, name=draw(names)) for key in "abcd"),
        bars=tuple(bars),
        waits=tuple(draw(st.lists(waits(days), max_size=4, unique_by=lambda w: w.key))),
        flags=tuple(draw(st.lists(flags(days), max_size=8, unique_by=lambda f: f.key))),
        joins=tuple(Join(before=a, after=b) for a, b in pairwise(chain)),
    )


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
