"""Holds a plan against its problem, by laying piece after piece along the bar."""

from __future__ import annotations

from worksheets.engine.cutting.problem import Plan, Problem


def faults(given: Problem, plan: Plan) -> list[str]:
    """What is wrong with a plan, as sentences; nothing when every piece is cut once and fits.

    Shares no code with the search: it moves along each bar, in whole nanometres.

    >>> from worksheets.engine.cutting.problem import Cut, problem
    >>> five = problem([(24000, 1)], [(4790, 5)], kerf=12)
    >>> faults(five, (Cut(0, (0, 0, 0, 0, 0)),))
    []
    >>> faults(five, (Cut(0, (0, 0, 0, 0)),))
    ['4 of 5 pieces of 4790 are cut.']
    """
    cut = [0] * len(given.lengths)
    told: list[str] = []
    for number, bar in enumerate(plan, 1):
        if bar.times < 1 or not 0 <= bar.stock < len(given.stocks):
            told.append(f"Bar {number} is no bar.")
            continue
        end = along(given, bar.pieces)
        limit = given.stocks[bar.stock].length - given.trim
        if end > limit:
            told.append(f"Bar {number} ends at {end}; it can be used to {limit}.")
        for piece in bar.pieces:
            cut[piece] += bar.times
    for length, wanted, found in zip(given.lengths, given.demand, cut, strict=True):
        if found != wanted:
            told.append(f"{found} of {wanted} pieces of {length} are cut.")
    return told


def along(given: Problem, pieces: tuple[int, ...]) -> int:
    """Where the last piece ends: a kerf is lost between two pieces and not after the last."""
    at = given.trim
    for place, piece in enumerate(pieces):
        at += (given.kerf if place else 0) + given.lengths[piece]
    return at
