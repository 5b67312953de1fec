"""Refusals. Each carries what a page needs to name the culprit."""


class ScheduleError(Exception):
    """A network that cannot be computed; `code` tells the kind."""

    code = "schedule"


class Cycle(ScheduleError):
    """A loop of links; `activities` names one loop in the order of its links.

    >>> str(Cycle(("cut", "weld")))
    'The links go round in a loop: cut, weld, cut.'
    """

    code = "cycle"

    def __init__(self, activities: tuple[str, ...]) -> None:
        self.activities = activities
        loop = ", ".join((*activities, activities[0]))
        super().__init__(f"The links go round in a loop: {loop}.")


class UnknownActivity(ScheduleError):
    """A link, key date, hammock or chosen end that names no activity of the network."""

    code = "unknown_activity"

    def __init__(self, link: str | None, activity: str) -> None:
        self.link, self.activity = link, activity
        super().__init__(f"{link or 'The chosen end'} names {activity}, which is not in the plan.")


class EmptyHammock(ScheduleError):
    """A hammock without a task that begins it, or without one that ends it."""

    code = "empty_hammock"

    def __init__(self, hammock: str) -> None:
        self.hammock = hammock
        super().__init__(f"{hammock} needs a task that begins it and a task that ends it.")


class DuplicateActivity(ScheduleError):
    """Two activities with one key."""

    code = "duplicate_activity"

    def __init__(self, activity: str) -> None:
        self.activity = activity
        super().__init__(f"{activity} is in the plan twice.")


class SelfLink(ScheduleError):
    """A link from an activity to itself."""

    code = "self_link"

    def __init__(self, link: str) -> None:
        self.link = link
        super().__init__(f"Link {link} joins an activity to itself.")


class DuplicateLink(ScheduleError):
    """Links of one kind and one clock between the same two activities."""

    code = "duplicate_link"

    def __init__(self, links: tuple[str, ...]) -> None:
        self.links = links
        super().__init__(f"These links say the same thing: {', '.join(links)}.")


class NegativeDuration(ScheduleError):
    """A duration, or a remaining duration, below zero."""

    code = "negative_duration"

    def __init__(self, activity: str) -> None:
        self.activity = activity
        super().__init__(f"The duration of {activity} is below zero.")


class NoWorkingTime(ScheduleError):
    """A calendar without enough working time between the years 1600 and 2400."""

    code = "no_working_time"

    def __init__(self, calendar: str) -> None:
        self.calendar = calendar
        super().__init__(f"Calendar {calendar} has no working time left.")


class BadWeek(ScheduleError):
    """A calendar whose week has not seven days, or whose hours lie outside their day."""

    code = "bad_week"

    def __init__(self, calendar: str) -> None:
        self.calendar = calendar
        super().__init__(f"Calendar {calendar} needs seven days, with hours inside each day.")


class BeyondHorizon(ScheduleError):
    """A date given or computed that lies outside the years 1600 to 2400."""

    code = "beyond_horizon"

    def __init__(self, key: str | None) -> None:
        self.key = key
        super().__init__(f"The dates of {key or 'the project'} lie outside the years 1600 to 2400.")


class UnknownCalendar(ScheduleError):
    """An activity or hammock (None: the project itself) on a calendar that is not there."""

    code = "unknown_calendar"

    def __init__(self, activity: str | None, calendar: str) -> None:
        self.activity, self.calendar = activity, calendar
        super().__init__(f"{activity or 'The project'} uses calendar {calendar}, which is missing.")


class UnknownZone(ScheduleError):
    """A time zone name that the zone database does not hold."""

    code = "unknown_zone"

    def __init__(self, zone: str) -> None:
        self.zone = zone
        super().__init__(f"{zone} is not the name of a time zone.")
