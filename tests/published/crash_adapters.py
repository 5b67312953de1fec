"""Published crash tables as calls of the schedule engine: words and units translated only."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from schedules.engine import Calendar, Network, path_length, paths
from schedules.engine.crash import Curve, Shortened, Shortening, curve, next_ways, shortened
from tests.published.row_words import Row, common_scale, exact, plain
from tests.published.schedule_adapters import network

Steps = Mapping[str, int]


@dataclass(frozen=True)
class Case:
    """A row with its network; a unit of its time is so many minutes."""

    row: Row
    scale: int
    bare: Network
    prices: Mapping[str, Shortening]
    cents: int  # a unit of its money

    @property
    def found(self) -> Curve:
        longest = sum(a.duration for a in self.bare.activities) // self.scale
        return curve(self.bare, self.prices, data_date=0, unit=self.scale, most=longest or 1)

    def time(self, minutes: int) -> float:
        return plain(Fraction(minutes, self.scale))

    def money(self, cents: int) -> float:
        return plain(Fraction(cents, self.cents))


def case(row: Row) -> Case:
    scale = common_scale(row)
    cents = money_scale(row)
    prices = {a["code"]: price(a, scale, cents) for a in row["activities"]}
    return Case(row, scale, network(row, Calendar.always("units"), scale), prices, cents)


def price(activity: Row, scale: int, cents: int) -> Shortening:
    """Given outright, or by the normal and the crashed time and cost."""
    most, cost = activity.get("max_crash"), activity.get("cost_per_unit")
    if most is None:
        short = activity.get("crash_duration", activity["duration"])
        most = exact(activity["duration"]) - exact(short)
    if cost is None:
        extra = exact(activity.get("crash_cost", 0)) - exact(activity.get("normal_cost", 0))
        cost = extra / most if most else 0
    return Shortening(step=scale, most=int(most), cost=int(exact(cost) * cents))


def money_scale(row: Row) -> int:
    """The least whole number of parts in which all prices are whole."""
    parts = 1
    for activity in row["activities"]:
        cost = activity.get("cost_per_unit")
        if cost is None and activity.get("crash_cost") is not None:
            most = exact(activity["duration"]) - exact(activity["crash_duration"])
            extra = exact(activity["crash_cost"]) - exact(activity.get("normal_cost", 0))
            cost = extra / most if most else 0
        parts = (parts * (whole := Fraction(exact(cost or 0)).denominator)) // gcd_of(parts, whole)
    return parts


def gcd_of(one: int, other: int) -> int:
    return one if not other else gcd_of(other, one % other)


def crashing(row: Row) -> Row:
    """The cheapest steps one after the other, as far as the row goes."""
    this = case(row)
    found, expected = this.found, row["expected"]
    plans = list(as_far_as(this, found))
    steps = [step(this, one, other) for one, other in pairwise([no_steps(found), *plans])]
    last = plans[-1] if plans else no_steps(found)
    answer: Row = {
        "steps": steps,
        "duration": this.time(found.date),
        "total_cost": this.money(last.cost),
        "stop_at": this.time(last.date),
        "final_duration": this.time(last.date),
        "minimum_duration": this.time((found.plans or [no_steps(found)])[-1].date),
        "min_cost_by_duration": costs(this, found),
        "critical_paths": critical_paths(this, last.steps),
    }
    return answer | asked(this, expected, last)


def no_steps(found: Curve) -> Shortened:
    return Shortened(steps={}, cost=0, date=found.date, units=0)


def as_far_as(this: Case, found: Curve) -> Iterator[Shortened]:
    """Down to the target; or while the next unit costs no more than the penalty it saves."""
    expected, before = this.row["expected"], no_steps(found)
    target = given(this.row, expected, "target")
    penalty = given(this.row, expected, "penalty")
    for plan in found.plans:
        enough = target is not None and before.date <= exact(target) * this.scale
        dear = penalty is not None and plan.cost - before.cost > exact(penalty) * this.cents * (
            plan.units - before.units
        )
        if enough or dear:
            return
        yield plan
        before = plan


def given(row: Row, expected: Row, word: str) -> Any:
    """An input whose name begins with a word, beside the activities or among the results."""
    for place in (row, expected):
        for key, value in place.items():
            if key.startswith(word) and isinstance(value, (int, float)):
                return value
    return None


def step(this: Case, one: Shortened, other: Shortened) -> Row:
    """What is shortened between two plans, and where that leads."""
    return {
        "crash": [code for code in this.prices if more(one, other, code)],
        "cost": this.money(other.cost - one.cost),
        "duration": this.time(other.date),
        "critical_paths": critical_paths(this, other.steps),
        "total_cost": this.money(other.cost),
    }


def more(one: Shortened, other: Shortened, code: str) -> bool:
    return other.steps.get(code, 0) > one.steps.get(code, 0)


def critical_paths(this: Case, steps: Steps) -> list[str]:
    """All paths as long as the whole."""
    shorter = shortened(this.bare, this.prices, steps)
    lengths = {path: path_length(shorter, path, data_date=0) for path in paths(shorter)}
    longest = max(lengths.values(), default=0)
    return ["-".join(path) for path, length in lengths.items() if length == longest]


def costs(this: Case, found: Curve) -> dict[str, float]:
    """The least cost of every duration that can be had."""
    table, before = {}, no_steps(found)
    table[f"{this.time(before.date)}"] = this.money(0)
    for plan in found.plans:
        for units in range(before.units + 1, plan.units + 1):
            table[f"{this.time(found.date - units * this.scale)}"] = this.money(plan.cost)
        before = plan
    return table


def asked(this: Case, expected: Row, last: Shortened) -> Row:
    """What only some rows ask for, and the inputs that they keep beside the results."""
    answer: Row = {}
    for key, value in expected.items():
        if key.startswith("next_") and key.endswith("_options"):
            ways = next_ways(
                this.bare, this.prices, data_date=0, unit=this.scale, steps=last.steps, most=99
            )
            answer[key] = {" and ".join(sorted(w.steps)): this.money(w.cost) for w in ways}
        elif key.startswith(("target", "penalty")):
            answer[key] = value
    return answer


CRASH_ADAPTERS: dict[str, Callable[[Row], Any]] = {"schedule:crashing": crashing}
