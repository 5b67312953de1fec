"""A PSPLIB file as a network with its hands; a unit of time is a minute round the clock."""

from pathlib import Path

import psplib

from schedules.engine import Activity, Calendar, Link, Network
from schedules.engine.levelling import Hands

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "published" / "psplib"


def problem(name: str) -> tuple[Network, Hands]:
    read = psplib.parse(FOLDER / f"{name}.sm")
    modes = {str(n): activity.modes[0] for n, activity in enumerate(read.activities)}
    after = {str(n): activity.successors for n, activity in enumerate(read.activities)}
    network = Network(
        activities=tuple(
            Activity(key=key, duration=mode.duration, calendar="always")
            for key, mode in modes.items()
        ),
        links=tuple(
            Link(key=f"{key}-{other}", before=key, after=str(other))
            for key, others in after.items()
            for other in others
        ),
        calendars={"always": Calendar.always("always")},
        project_calendar="always",
    )
    hands = Hands(
        capacity={str(n): resource.capacity for n, resource in enumerate(read.resources)},
        needs={
            key: {str(n): demand for n, demand in enumerate(mode.demands) if demand}
            for key, mode in modes.items()
        },
    )
    return network, hands
