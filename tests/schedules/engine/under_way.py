"""Random networks of a project that is under way."""

from dataclasses import replace

from hypothesis import strategies as st

from schedules.engine import KeyDate, KeyDateRole, Network

from .strategies import START, networks


@st.composite
def under_way(draw: st.DrawFn) -> Network:
    """A network with actual dates, key dates, a zone and perhaps a chosen end."""
    network = draw(networks())
    keys = [a.key for a in network.activities]
    past = st.none() | st.integers(START - 3000, START)
    left = st.none() | st.integers(0, 6)
    begun = tuple(
        replace(
            a,
            actual_start=draw(past),
            actual_finish=draw(past),
            remaining=draw(left),
            ahead=draw(st.booleans()),
        )
        for a in network.activities
    )
    dates = st.builds(
        KeyDate, key=st.uuids().map(str), activity=st.sampled_from(keys),
        at=st.integers(START - 3000, START + 9000), role=st.sampled_from(KeyDateRole),
    )  # fmt: skip
    return replace(
        network,
        activities=begun,
        key_dates=tuple(draw(st.lists(dates, max_size=3))),
        end=draw(st.none() | st.sampled_from(keys)),
        zone=draw(st.none() | st.just("America/New_York")),
    )
