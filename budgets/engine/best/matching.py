"""Which cents of which expense count as match: the classes' match on the expenses."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from budgets.engine.best.classes import NOBODY, Classes, Flow
from budgets.engine.best.pour import Item, Pieces, pour
from budgets.engine.best.program import Program

Found = Counter[tuple[int, int, int]]  # cents by expense, payer and award


def counted_of(classes: Classes, program: Program, values: Sequence[int], pieces: Pieces) -> Found:
    """What was found and what is locked, in cents."""
    found, paid = Found(), payments(classes, pieces)
    for number, flow in enumerate(classes.flows):
        holds: Counter[int] | None = None
        for pool, asked in wanted(classes, program, values, number):
            holds = held(classes, flow, paid[flow.payer]) if holds is None else holds
            free = free_in(classes, holds, flow.payer, pool)
            for (place, award), cents in pour(free, asked).items():
                found[place, flow.payer, award] += cents
    for (place, payer), locked in classes.locks.match.items():
        for award, cents in locked.items():
            found[place, payer, award] += cents
    return found


def wanted(
    classes: Classes, program: Program, values: Sequence[int], number: int
) -> Iterator[tuple[str, list[Item]]]:
    """By pool, the awards that want cents of a flow, and how many."""
    pools: dict[str, list[Item]] = defaultdict(list)
    for award in classes.flows[number].awards:
        if cents := values[program.match[number, award]]:
            pools[classes.pools[award]].append((award, cents))
    yield from pools.items()


def held(classes: Classes, flow: Flow, paid: dict[int, int]) -> Counter[int]:
    """What the payer of a flow pays of each of its expenses."""
    holds = Counter(flow.places)
    for key in flow.buckets:
        for place, _ in classes.buckets[key].items:
            if cents := paid.get(place):
                holds[place] += cents
    return holds


def free_in(classes: Classes, holds: Counter[int], payer: int, pool: str) -> list[Item]:
    """What of each expense is not counted inside the pool yet."""
    if not classes.locks.match:
        return list(holds.items())
    rows = []
    for place, cents in holds.items():
        locked = classes.locks.counted(place, payer).items()
        taken = sum(amount for award, amount in locked if classes.pools[award] == pool)
        rows.append((place, cents - taken))
    return rows


def payments(classes: Classes, pieces: Pieces) -> dict[int, dict[int, int]]:
    """By payer, what is poured on each expense; for own money, what is left and not locked."""
    totals = classes.locks.totals
    own = {
        place: item.amount - totals.get(place, 0)
        for place, item in enumerate(classes.expenses)
        if not item.in_kind
    }
    found: dict[int, dict[int, int]] = defaultdict(dict)
    for (place, fund), cents in pieces.items():
        found[fund][place] = cents
        own[place] -= cents
    found[NOBODY] = own
    return found
