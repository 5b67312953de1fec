"""The mass of a piece made of parts, its centre, and what one person may lift: kg and metres."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """``each`` in kg; ``at`` is the centre in m, where it is known."""

    name: str
    count: int
    each: float
    at: Place | None = None

    @property
    def mass(self) -> float:
        return self.count * self.each


def total_mass(pieces: Iterable[Piece]) -> float:
    """Sum in kg.

    >>> total_mass([Piece(name="post", count=2, each=11.25), Piece(name="plate", count=1, each=14)])
    36.5
    """
    return math.fsum(piece.mass for piece in pieces)


def centre(pieces: Sequence[Piece]) -> Place:
    """Centre of mass in m, of pieces whose place is known. Raises ValueError without any mass.

    >>> centre([Piece(name="a", count=1, each=1.0, at=(0, 0, 0)),
    ...         Piece(name="b", count=3, each=1.0, at=(4, 0, 2))])
    (3.0, 0.0, 1.5)
    """
    known = [(piece.mass, piece.at) for piece in pieces if piece.at is not None]
    total = math.fsum(mass for mass, _ in known)
    if total <= 0:
        raise ValueError("A centre needs a mass.")
    x, y, z = (math.fsum(mass * at[axis] for mass, at in known) / total for axis in range(3))
    return x, y, z


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """The multipliers of the lifting equation, and the mass in kg that it recommends at most."""

    reach: float
    height: float
    travel: float
    turn: float
    frequency: float
    coupling: float
    constant: float

    @property
    def mass(self) -> float:
        return (
            self.constant * self.reach * self.height * self.travel * self.turn
            * self.frequency * self.coupling
        )  # fmt: skip

    @property
    def nothing(self) -> tuple[str, ...]:
        """Which of them make it nothing: outside the range of the equation."""
        named = ("reach", "height", "travel", "turn", "frequency")
        return tuple(name for name in named if getattr(self, name) == 0)


def limit(
    *, reach: float, height: float, travel: float, turn: float, frequency: float, grip: str,
    rules: Mapping[str, Any],
) -> Limit:  # fmt: skip
    """The recommended limit for one person, both hands, standing.

    Lengths in m from 10 in of reach and travel, ``turn`` in degrees, ``frequency`` is the
    multiplier of Table 5 (see ``frequency_share``). Outside its range a multiplier is 0. Source:
    NIOSH 94-110 (rev. 9/2021), pages 7 to 12.
    """
    if reach < rules["reach"]["from"] - 1e-9 or travel < rules["travel"]["from"] - 1e-9:
        raise ValueError("Reach and travel count from 10 in (25.4 cm).")
    if height < 0 or turn < 0:
        raise ValueError("Height and turn cannot be below 0.")
    return Limit(
        reach=reach_share(reach, rules["reach"]),
        height=height_share(height, rules["height"]),
        travel=travel_share(travel, rules["travel"]),
        turn=turn_share(turn, rules["turn"]),
        frequency=frequency,
        coupling=rules["couplings"][grip][height >= rules["low"] - 1e-9],
        constant=rules["constant"],
    )


def reach_share(reach: float, rule: Mapping[str, float]) -> float:
    """10 in over the reach of the hands from the ankles; 0 beyond 25 in."""
    return 0.0 if reach > rule["to"] + 1e-9 else rule["from"] / reach


def height_share(height: float, rule: Mapping[str, float]) -> float:
    """0.75 % less for each inch above or below 30 in; 0 above 70 in."""
    off = abs(height - rule["middle"]) / rule["per"]
    return 0.0 if height > rule["to"] + 1e-9 else 1 - rule["slope"] * off


def travel_share(travel: float, rule: Mapping[str, float]) -> float:
    """0.82 + 1.8 in over the travel up or down; 0 beyond 70 in."""
    share = rule["base"] + rule["share"] * rule["per"] / travel
    return 0.0 if travel > rule["to"] + 1e-9 else share


def turn_share(turn: float, rule: Mapping[str, float]) -> float:
    """0.32 % less for each degree that the body turns; 0 beyond 135°."""
    return 0.0 if turn > rule["to"] + 1e-9 else 1 - rule["slope"] * turn


def frequency_share(
    per_minute: float, hours: str, height: float, rules: Mapping[str, Any]
) -> tuple[float, float]:
    """The row of Table 5 that holds (the next that is no slower), and its multiplier.

    ``hours`` is “1”, “2” or “8”; more than 15 lifts a minute give 0. Source: NIOSH 94-110
    (rev. 9/2021), Table 5 on p. 15 (its reprint on p. 31 misprints the first row).
    """
    if per_minute <= 0:
        raise ValueError("Lifts a minute must be more than 0.")
    for most, shares in rules["frequencies"]:
        if per_minute <= most + 1e-9:
            return float(most), float(shares[hours][height >= rules["low"] - 1e-9])
    return per_minute, 0.0


def index(mass: float, recommended: float) -> float | None:
    """The lifting index: load over limit; none where the equation recommends no lift at all.

    >>> round(index(26.0, 15.2), 1), index(5.0, 0.0)
    (1.7, None)
    """
    return mass / recommended if recommended > 0 else None
