"""Ways along the links: all that follows an activity, and what drives it."""

from .network import Network
from .plan import Plan, Reason


def following(network: Network, key: str | None) -> set[str]:
    """All that comes after an activity along the links.

    >>> following(Network(activities=(), links=(), calendars={}, project_calendar="a"), "x")
    set()
    """
    after: dict[str, list[str]] = {}
    for link in network.links:
        after.setdefault(link.before, []).append(link.after)
    found, waiting = set[str](), [key] if key else []
    while waiting:
        for each in after.get(waiting.pop(), ()):
            if each not in found:
                found.add(each)
                waiting.append(each)
    return found


def driving(network: Network, plan: Plan, key: str) -> tuple[str, ...]:
    """The way into an activity along the links that hold each step, first to last.

    >>> lone = Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None)
    >>> driving(Network(activities=(), links=(), calendars={}, project_calendar="a"), lone, "x")
    ('x',)
    """
    before = {link.key: link.before for link in network.links}
    way = [key]
    while way[-1] in plan.dates:
        held = [d.key for d in plan.dates[way[-1]].drivers if d.reason is Reason.LINK and d.key]
        if not held:
            break
        way.append(before[held[0]])
    return tuple(reversed(way))
