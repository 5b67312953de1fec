"""How long an activity may take, and the draws of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from ..board import Board
from .pert import SpreadOutOfOrder

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What may come of an activity, beside its duration, which is the likely one.

    `low` and `high` are working minutes of the whole activity. With the chance
    `returns`, 0 to 1, it comes back and takes `again` minutes more. Outdoor work
    stands still on a wet day. Of work in progress what remains is scaled.

    >>> Spread(low=480, high=1440).returns
    0.0
    """

    low: int
    high: int
    returns: float = 0.0
    again: int = 0
    outdoor: bool = False


def shape(low: int, likely: int, high: int) -> tuple[float, float]:
    """Both parameters of the beta distribution with the mean of three points.

    >>> shape(0, 5, 10)
    (3.0, 3.0)
    """
    return 1 + 4 * (likely - low) / (high - low), 1 + 4 * (high - likely) / (high - low)


def lengths(
    board: Board, needed: list[bool], spreads: Mapping[str, Spread], draws: int, seed: int
) -> dict[int, Ints]:
    """Minutes to place in every draw, of each needed row that does not take the same in all."""
    found = {}
    certain = board.finished | board.points | board.events
    for row, activity in enumerate(board.activities):
        spread = spreads.get(activity.key)
        if spread is None or row in certain or not needed[row]:
            continue
        if not 0 <= spread.low <= activity.duration <= spread.high:
            raise SpreadOutOfOrder(activity.key)
        if spread.low < spread.high or (spread.returns > 0 and spread.again):
            found[row] = _minutes(board, row, spread, draws, seed)
    return found


def _minutes(board: Board, row: int, spread: Spread, draws: int, seed: int) -> Ints:
    """Whole minutes, one at least."""
    likely, key = board.activities[row].duration, board.activities[row].key
    left = board.length[row] / likely
    taken = np.full(draws, float(likely))
    if spread.low < spread.high:
        beta = betas(seed, key, *shape(spread.low, likely, spread.high), draws)
        taken = spread.low + beta * (spread.high - spread.low)
    taken *= left
    if spread.returns > 0 and spread.again:
        taken += spread.again * (_rolls(seed, key, draws) < spread.returns)
    whole: Ints = np.maximum(np.rint(taken), 1).astype(np.int64)
    return whole


@lru_cache(maxsize=512)
def betas(seed: int, key: str, alpha: float, beta: float, draws: int) -> NDArray[np.float64]:
    """Where between low and high each draw falls, 0 to 1.

    An activity has the same draws whatever else changes in the network, and whenever its
    three points keep their proportions: differences between two plans are real.

    >>> bool(betas(1, "weld", 3.0, 3.0, 4)[0] == betas(1, "weld", 3.0, 3.0, 4)[0])
    True
    """
    found = _stream(seed, key, 0).beta(alpha, beta, draws)
    found.flags.writeable = False
    return found


def _rolls(seed: int, key: str, draws: int) -> NDArray[np.float64]:
    return _stream(seed, key, 1).random(draws)


def _stream(seed: int, key: str, use: int) -> np.random.Generator:
    return np.random.default_rng([seed, crc32(key.encode()), use])
