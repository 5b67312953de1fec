"""Published three-point networks and merging paths as calls of the chance engine."""

import re
from collections.abc import Callable
from fractions import Fraction
from math import sqrt
from typing import Any

from schedules.engine import Calendar, solve
from schedules.engine.chance import (
    by_chance,
    chance_by,
    chance_of_all,
    critical_path,
    expected,
    score,
    variance,
)
from tests.published.row_words import Row, common_scale, exact, plain
from tests.published.schedule_adapters import network, units

PERCENT = 100
ASKED = re.compile(r"(p|z)_(\d+(?:\.\d+)?)(?:_from_memory)?|p(\d+(?:\.\d+)?)_date")


def three_points(row: Row) -> Row:
    """Means, variances, the critical path and what is asked of it; and the table of dates."""
    points = {each["code"]: bounds(each) for each in row["activities"]}
    means = {code: expected(*three) for code, three in points.items()}
    variances = {code: variance(three[0], three[2]) for code, three in points.items()}
    timed = [{**each, "duration": str(means[each["code"]])} for each in row["activities"]]
    whole = row | {"activities": timed}
    bare = network(whole, Calendar.always("units"), common_scale(whole))
    path = critical_path(bare, solve(bare, data_date=0), variances)
    mean, spread = (sum(of[code] for code in path) for of in (means, variances))
    return {
        **units(whole),
        "te": {code: plain(mean) for code, mean in means.items()},
        "variance": {code: plain(each) for code, each in variances.items()},
        "sd": {code: sqrt(each) for code, each in variances.items()},
        "critical": list(path),
        "mean": plain(Fraction(mean)),
        "variance_path": float(spread),
        "path_variance": float(spread),
        "sd_path": sqrt(spread),
        **asked(row, float(mean), float(spread)),
    }


def bounds(activity: Row) -> tuple[Fraction, Fraction, Fraction]:
    return exact(activity["opt"]), exact(activity["likely"]), exact(activity["pess"])


def asked(row: Row, mean: float, spread: float) -> Row:
    """Chances and scores by a time, times by a chance."""
    answer: Row = {}
    for key in row["expected"]:
        if match := ASKED.fullmatch(key):
            what, by, share = match.groups()
            if share:
                answer[key] = by_chance(mean, spread, float(share) / PERCENT)
            else:
                answer[key] = (chance_by if what == "p" else score)(mean, spread, float(by))
    return answer


def merging(row: Row) -> Row:
    """Paths that share nothing, each a normal distribution, all done by a target."""
    given = {**row, **row["expected"]}
    paths = {key: of for key, of in given.items() if re.fullmatch(r"path\d+", key)}
    target = float(given["target"])
    chances = [chance_by(of["mean"], of["sd"] ** 2, target) for of in paths.values()]
    each = chances[0] if len({round(c, 9) for c in chances}) == 1 else chances
    together = chance_of_all(chances)
    return {**paths, "target": target, "p_each": each, "p_both": together, "p_all": together}


CHANCE_ADAPTERS: dict[str, Callable[[Row], Any]] = {
    "schedule:pert": three_points,
    "schedule:merge_bias": merging,
}
