"""Who can do how much at once, and how much each task takes of them."""

from collections.abc import Mapping
from dataclasses import dataclass

from ..errors import ScheduleError


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """`capacity`: how much of a lane there is at once. `needs`: what an activity takes of it.

    Lanes without a capacity have no limit. An activity keeps its hands from its first minute
    to its last, the nights and days off between included. What is finished, or takes no time,
    takes nothing; so does an activity that `needs` leaves out, such as a review or a delivery.

    >>> Hands(capacity={"artist": 1}, needs={"paint": {"artist": 1}}).capacity["artist"]
    1
    """

    capacity: Mapping[str, int]
    needs: Mapping[str, Mapping[str, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Overload:
    """From `start` to `finish`, instants, `activities` take more of a lane than there is.

    >>> Overload(lane="artist", start=0, finish=60, activities=("paint", "wire"), used=2).used
    2
    """

    lane: str
    start: int
    finish: int
    activities: tuple[str, ...]
    used: int  # the most at once


class TooFewHands(ScheduleError):
    """An activity that alone takes more of a lane than there is.

    >>> str(TooFewHands("hang", "crew"))
    'hang alone takes more of crew than there is.'
    """

    code = "too_few_hands"

    def __init__(self, activity: str, lane: str) -> None:
        self.activity, self.lane = activity, lane
        super().__init__(f"{activity} alone takes more of {lane} than there is.")
