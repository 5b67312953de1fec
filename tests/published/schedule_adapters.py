"""Published networks as calls of the schedule engine: words and units translated only."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from typing import Any

from schedules.engine import (
    Activity,
    Calendar,
    Dates,
    KeyDate,
    KeyDateRole,
    Link,
    LinkKind,
    Network,
    Plan,
    critical,
    day_that_begins,
    day_that_ends,
    instant,
    path_length,
    paths,
    solve,
)
from tests.published.row_words import Row, calendar, common_scale, exact, plain, predecessors, when

END = "(imposed finish)"
EVENT = "event "
STEP = re.compile(r"-?\d+(?:\.\d+)?")
COLUMNS = {
    "es": "early_start",
    "ef": "early_finish",
    "ls": "late_start",
    "lf": "late_finish",
    "tf": "total_float",
    "ff": "free_float",
}


def network(row: Row, main: Calendar, unit: int) -> Network:
    """The row's activities and links; a unit of duration or lag is so many minutes."""
    calendars = {main.key: main}
    activities, links = [], []
    for each in row["activities"]:
        own = own_calendar(each, row, main)
        calendars[own.key] = own
        duration = int(exact(each["duration"]) * unit)
        activities.append(Activity(key=each["code"], duration=duration, calendar=own.key))
        for before in predecessors(each):
            links.append(link(before, each["code"], len(links), unit))
    return Network(
        activities=tuple(activities),
        links=tuple(links),
        calendars=calendars,
        project_calendar=main.key,
    )


def own_calendar(activity: Row, row: Row, main: Calendar) -> Calendar:
    text = activity.get("calendar")
    return calendar(text, row, key=text) if text else main


def link(before: Row, after: str, number: int, unit: int) -> Link:
    return Link(
        key=str(number),
        before=before["code"],
        after=after,
        kind=LinkKind(before.get("type", "FS")),
        lag=int(exact(before.get("lag", 0)) * unit),
    )


def with_finish(bare: Network, at: int | None) -> Network:
    """The network with its finish imposed at an instant, as an event that ends all work."""
    if at is None:
        return bare
    end = Activity(key=END, duration=0, calendar=bare.project_calendar)
    ties = (Link(key=f"to {a.key}", before=a.key, after=END) for a in bare.activities)
    return replace(
        bare,
        activities=(*bare.activities, end),
        links=(*bare.links, *ties),
        key_dates=(KeyDate(key=END, activity=END, at=at, role=KeyDateRole.EVENT),),
        end=END,
    )


def units(row: Row) -> Row:
    """A network in bare units of time, numbered from the start of the project."""
    scale = common_scale(row)
    main = Calendar.always("units")
    bare = network(row, main, scale)
    imposed = imposed_finish(row)
    at = None if imposed is None else int(exact(imposed) * scale)
    open_plan = solve(bare, data_date=0)
    plan = solve(with_finish(bare, at), data_date=0)
    table = columns(plan, scale)
    free = columns(open_plan, scale)["ff"]  # the room before an imposed finish is not free float
    table["ff"] = {code: min(room, free[code]) for code, room in table["ff"].items()}
    return {
        **table,
        "duration": shown(open_plan.finish, scale),
        "critical": list(critical(plan, leave_out={END})),
        "critical_sum": spelled(bare, open_plan, scale),
        **asked(row, bare, scale),
    }


def imposed_finish(row: Row) -> float | None:
    """The finish somebody set, beside the activities or among the expected values."""
    found: float | None = row.get("imposed_finish", row["expected"].get("imposed_finish"))
    return found


def columns(plan: Plan, scale: int) -> Row:
    """The table of dates and floats in the row's unit."""
    dates = {code: each for code, each in plan.dates.items() if code != END}
    return {
        short: {code: shown(getattr(each, name), scale) for code, each in dates.items()}
        for short, name in COLUMNS.items()
    }


def shown(minutes: int, scale: int) -> float:
    return plain(Fraction(minutes, scale))


def spelled(bare: Network, plan: Plan, scale: int) -> str:
    """The longest path as a sum: durations, and lags in brackets."""
    duration = {a.key: a.duration for a in bare.activities}
    lag = {link.key: link.lag for link in bare.links}
    terms: list[str] = []
    for key, code in zip((None, *plan.chain_links), plan.chain, strict=True):
        terms += [f"({shown(lag[key], scale)})"] if key and lag[key] else []
        terms += [f"{shown(duration[code], scale)}"] if duration[code] else []
    return "+".join(terms)


def asked(row: Row, bare: Network, scale: int) -> Row:
    """What only some rows ask for."""
    answer: Row = {}
    for key, value in row["expected"].items():
        if key == "path_lengths":
            found = {"-".join(p): path_length(bare, p, data_date=0) for p in paths(bare)}
            answer[key] = {path: shown(length, scale) for path, length in found.items()}
        elif key.startswith("slip_"):
            answer[key] = {t: slipped(bare, key[len("slip_") :], t, scale) for t in value}
        elif match := re.fullmatch(r"(es|ef|ls|lf|tf|ff)_\w+", key):
            answer[key] = columns(solve(bare, data_date=0), scale)[match[1]]
    return answer


def slipped(bare: Network, code: str, text: str, scale: int) -> float:
    """The duration of the project when one activity takes longer, as in 'by 3 days'."""
    step = STEP.search(text)
    late = int(exact(float(step[0] if step else 0)) * scale)
    activities = (
        replace(a, duration=a.duration + late) if a.key == code else a for a in bare.activities
    )
    return shown(solve(replace(bare, activities=tuple(activities)), data_date=0).finish, scale)


def arrows(row: Row) -> Row:
    """A network of arrows between numbered events; each event becomes a milestone."""
    codes = {activity["code"] for activity in row["activities"]}
    answer = units(row | {"activities": with_events(row)})
    times = {key.removeprefix(EVENT): at for key, at in answer["es"].items() if key not in codes}
    tables = {short: {c: answer[short][c] for c in codes} for short in COLUMNS}
    critical_codes = [code for code in answer["critical"] if code in codes]
    return answer | tables | {"event_times": times, "critical": critical_codes}


def with_events(row: Row) -> list[Row]:
    """Each arrow after the event at its tail, each event after the arrows that end in it."""
    ends = {a["code"]: [EVENT + event for event in a["code"].split("-")] for a in row["activities"]}
    arrows = [
        {**a, "predecessors": [*predecessors(a), {"code": ends[a["code"]][0]}]}
        for a in row["activities"]
    ]
    before: dict[str, list[Row]] = {event: [] for pair in ends.values() for event in pair}
    for code, (_, head) in ends.items():
        before[head].append({"code": code})
    events = [{"code": e, "duration": 0, "predecessors": codes} for e, codes in before.items()]
    return arrows + events


def working_days(row: Row) -> Row:
    """A network on a working calendar, with dates as people write them."""
    given = row["expected"] | row
    main = calendar(given.get("calendar", "every day"), row)
    bare = network(row, main, main.day_minutes)
    start = instant(when(given.get("start") or least_date(row, "es")))
    plan = solve(with_finish(bare, last_instant(given, row)), data_date=start)
    driving = plan.dates[critical(plan, leave_out={END})[0]]
    days = shown(driving.total_float, main.day_minutes)
    dates = {code: each for code, each in plan.dates.items() if code != END}
    points = {a.key for a in bare.activities if not a.duration}
    return {
        "dates": {code: written(each, code in points) for code, each in dates.items()},
        "total_float_working_days": days,
        "total_float_days": days,
        "critical": list(critical(plan, leave_out={END})),
        "duration": shown(
            main.between(start, solve(bare, data_date=start).finish), main.day_minutes
        ),
        "finish": day_that_ends(max(each.early_finish for each in dates.values())).isoformat(),
    } | milestones(dates, points)


def least_date(row: Row, column: str) -> str:
    return min(each[column] for each in row["expected"]["dates"].values() if column in each)


def last_instant(given: Row, row: Row) -> int | None:
    """The end of the day by which all must be finished; else of the latest late finish given."""
    late = [each["lf"] for each in row["expected"].get("dates", {}).values() if "lf" in each]
    text = given.get("must_finish_by") or max(late, default=None)
    return instant(when(text) + timedelta(days=1)) if text else None


def written(dates: Dates, milestone: bool) -> Row:
    """First and last working days, both worked; a milestone falls on the day that it ends."""
    begins = day_that_ends if milestone else day_that_begins
    return {
        "es": begins(dates.early_start).isoformat(),
        "ef": day_that_ends(dates.early_finish).isoformat(),
        "ls": begins(dates.late_start).isoformat(),
        "lf": day_that_ends(dates.late_finish).isoformat(),
    }


def milestones(dates: dict[str, Dates], points: set[str]) -> Row:
    return {
        f"milestone_{code}": day_that_ends(dates[code].early_finish).isoformat() for code in points
    }


SCHEDULE_ADAPTERS: dict[str, Callable[[Row], Any]] = {
    "schedule:cpm": units,
    "schedule:cpm_aoa": arrows,
    "schedule:pdm": units,
    "schedule:calendar_cpm": working_days,
}
