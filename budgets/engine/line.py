"""What a budget line has left."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class LineState:
    """A budget line in cents: `committed` is ordered, not yet billed; `left` may be below zero."""

    planned: int
    committed: int
    spent: int
    left: int


def line_state(planned: int, committed: int, spent: int) -> LineState:
    """What a budget line has left after what is spent and what is ordered and not yet billed.

    >>> line_state(1000_00, 400_00, 250_00).left
    35000
    """
    return LineState(
        planned=planned,
        committed=committed,
        spent=spent,
        left=planned - committed - spent,
    )
