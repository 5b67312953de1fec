"""Inputs that only show how a worksheet works: nobody may check or build from them."""

from __future__ import annotations

from worksheets.engine.result import Finding, Standing

EXAMPLE = "Example"  # such an input begins with this word
RULE = "Still the example"  # marks the finding, for whoever asks whether a run can be checked


def is_example(words: str) -> bool:
    """Whether a text is still the one that the worksheet opens with.

    >>> is_example("Example, no site"), is_example("Map 26.5-1B, risk category II")
    (True, False)
    """
    return words.strip().casefold().startswith(EXAMPLE.casefold())


def still_example(says: str) -> Finding:
    return Finding(standing=Standing.NEAR, says=says, rule=RULE)
