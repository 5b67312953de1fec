"""Random networks, small enough to be checked minute by minute."""

from itertools import combinations

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from schedules.engine import Activity, Calendar, LagClock, Link, LinkKind, Network

# Short days, so that a few minutes of work cross nights and weekends.
SHORT = Calendar(key="short", week=(((10, 14), (20, 23)),) * 5 + ((), ()))
WEEKEND = Calendar(key="weekend", week=((), (), ((12, 15),), (), (), ((0, 6),), ((1430, 1440),)))
ALWAYS = Calendar.always("always")
CALENDARS = {calendar.key: calendar for calendar in (SHORT, WEEKEND, ALWAYS)}
START = 30 * 1440 + 12  # a Monday, inside working time

Pair = tuple[int, int]

# Random networks are the same in every run, so that a red test stays red.
laws = settings(
    deadline=None,
    derandomize=True,
    max_examples=150,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def activities(names: list[str], keys: list[str], least: int) -> st.SearchStrategy:
    """One activity a name, of a few minutes."""
    return st.tuples(
        *(
            st.builds(
                Activity,
                key=st.just(name),
                duration=st.integers(least, 6),
                calendar=st.sampled_from(keys),
                finish_milestone=st.booleans(),
            )
            for name in names
        )
    )


def links(
    pairs: list[Pair], kinds: list[LinkKind], least_lag: int, clocks: list
) -> st.SearchStrategy:
    """Links for some of the pairs, never two of one kind and clock between the same two."""
    one = st.builds(
        lambda pair, kind, lag, clock: Link(
            key=f"{pair[0]}{kind}{pair[1]}{clock}",
            before=str(pair[0]), after=str(pair[1]), kind=kind, lag=lag, clock=clock,
        ),
        st.sampled_from(pairs), st.sampled_from(kinds),
        st.integers(least_lag, 5), st.sampled_from(clocks),
    )  # fmt: skip
    return st.lists(one, max_size=9, unique_by=lambda link: link.key).map(tuple)


@st.composite
def networks(
    draw: st.DrawFn,
    *,
    kinds: list[LinkKind] | None = None,
    keys: tuple[str, ...] = tuple(CALENDARS),
    least: int = 0,
    least_lag: int = -4,
    clocks: tuple[LagClock, ...] = tuple(LagClock),
) -> Network:
    """Two to six activities with forward links, in a shuffled order."""
    names = [str(n) for n in range(draw(st.integers(2, 6)))]
    pairs = list(combinations(range(len(names)), 2))
    tasks = draw(activities(names, list(keys), least))
    return Network(
        activities=tuple(draw(st.permutations(tasks))),
        links=draw(links(pairs, kinds or list(LinkKind), least_lag, list(clocks))),
        calendars=CALENDARS,
        project_calendar=draw(st.sampled_from(tuple(CALENDARS))),
    )


def on_one_line(**more: object) -> st.SearchStrategy:
    """Networks on one calendar that works round the clock."""
    return networks(keys=("always",), clocks=(LagClock.WORK,), **more)
