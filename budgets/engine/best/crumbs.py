"""Charges too small for a line of a report, left to own money where no rule minds."""

from budgets.engine.best.classes import Classes
from budgets.engine.best.pour import Pieces
from budgets.engine.best.program import Program


def without_crumbs(
    classes: Classes,
    program: Program,
    values: list[int],
    number: int,
    pieces: Pieces,
    least: int,
) -> bool:
    """Take the crumbs of a class off its funds. Whether any was; changes `values`."""
    dropped = False
    for (place, fund), cents in sorted(pieces.items()):
        if cents and cents + classes.locks.paid(place, fund) < least:
            dropped |= drop(program, values, number, fund, cents)
    return dropped


def drop(program: Program, values: list[int], number: int, fund: int, cents: int) -> bool:
    """Leave so many cents of a class uncharged, with the overhead on them, if rules allow."""
    before, unknown = list(values), program.charge[number, fund]
    values[unknown] -= cents
    less_overhead(program, values, fund)
    moved = {key for key, value in enumerate(values) if value != before[key]}
    concerned = [limit for limit in program.limits if not moved.isdisjoint(limit.parts)]
    if any(limit.value(values) > limit.most for limit in concerned):
        values[:] = before
        return False
    return True


def less_overhead(program: Program, values: list[int], fund: int) -> None:
    """The overhead as far down as the charges need it."""
    overhead = program.overhead.get(fund, -1)
    for limit in program.limits:
        weight = limit.parts.get(overhead, 0) if limit.row is None else 0
        over = limit.value(values) - limit.most if weight > 0 else 0
        if over > 0:
            values[overhead] = max(0, values[overhead] - -(-over // weight))
