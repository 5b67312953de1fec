"""The plan with nobody booked twice: what it moves, what it costs, how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from django.core import signing

from projects.words import day, listed, plural
from schedules import engine, plan
from schedules.engine import levelling
from schedules.models import Link
from schedules.plan import hands as book
from schedules.selectors.chance import percent_words
from schedules.selectors.hands import SALT, Book, Overbooked, hands_basis, overbooked_line
from schedules.selectors.slip import Shift, shifts
from schedules.selectors.wording import in_hand_words, outcome_words, quoted, signed, span_words

EFFORT = 0.35  # seconds of deterministic time: two or three on the clock at the most


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A task that levelling moves, and why."""

    name: str
    now: str
    then: str
    by: int
    why: str

    @property
    def by_shown(self) -> str:
        return signed(self.by) if self.by else "less than a day"


class Level:
    """The plan with nobody booked twice, held against the plan as it is. Nothing is saved."""

    def __init__(self, book_now: Book, *, better: bool) -> None:
        self.now = book_now
        self.better = better
        rows, hands = book_now.rows, book_now.hands
        self.found = book.level(rows, hands, effort=EFFORT if better else 0.0)
        self.links = {each.link.key: each for each in self.found.order}

    @property
    def more_to_find(self) -> bool:
        """Whether a longer search could find an earlier date."""
        return not self.better and not self.found.proven

    @cached_property
    def moves(self) -> list[Moved]:
        return [
            Moved(
                name=shift.task.name,
                now=span_words(*shift.was),
                then=span_words(*shift.becomes),
                by=finished_later(shift),
                why=self.why(str(shift.task.pk)),
            )
            for shift in shifts(self.now.rows, self.now.plan, self.found.plan)
        ]

    def why(self, key: str) -> str:
        """“Artist does “Paint mural field” first”, or what it waits for."""
        names, waits = self.now.names, []
        for driver in self.found.plan.dates[key].drivers:
            order = self.links.get(driver.key or "")
            if order:
                return f"{self.shared(order)} does “{names.tasks[order.before]}” first"
            if driver.reason == engine.Reason.LINK:
                waits.append(driver.key)
        before = {k.key: k.before for k in self.found.network.links}
        named = [names.tasks[before[wait]] for wait in waits if wait in before]
        return f"waits for {quoted(named)}" if named else "no longer held back"

    def shared(self, order: levelling.OrderLink) -> str:
        needs = self.now.hands.needs
        lanes = sorted(set(needs[order.before]) & set(needs[order.after]), key=int)
        limited = [lane for lane in lanes if lane in self.now.hands.capacity]
        return listed([self.now.names.lanes[lane].name for lane in limited])

    @property
    def in_hand_days(self) -> int | None:
        return plan.in_hand_days(self.now.rows, self.found.plan)

    @property
    def in_hand_now(self) -> str:
        return in_hand_words(plan.in_hand_days(self.now.rows, self.now.plan))

    @property
    def in_hand_then(self) -> str:
        return outcome_words(self.in_hand_days)

    @property
    def breaks(self) -> bool:
        return (self.in_hand_days or 0) < 0

    @property
    def lost(self) -> int | None:
        """Days in hand that it costs."""
        before = plan.in_hand_days(self.now.rows, self.now.plan)
        after = self.in_hand_days
        return None if before is None or after is None else before - after

    @cached_property
    def chances(self) -> tuple[str, str] | None:
        """How likely the date is now and levelled, from the same draws."""
        from schedules.plan.chance import QUICK, Drawing, due, spreads  # loads numpy

        rows, by = self.now.rows, due(self.now.rows)
        if by is None:
            return None
        drawing, may_be = Drawing(rows, draws=QUICK), spreads(rows)
        networks = (plan.network(rows), self.found.network)
        now, then = (percent_words(drawing.percent(n, may_be, by)) for n in networks)
        return f"about {now}", f"about {then}"

    @cached_property
    def stands(self) -> bool:
        """Whether the plan has just these order links already."""
        made = book.order_rows(self.now.rows, self.found)
        return {as_said(link) for link in made} == {as_said(link) for link in self.now.order}

    @property
    def lede(self) -> str:
        if not self.found.order:
            return "Nobody is booked twice, so there is nothing to part."
        if self.stands:
            return "The order links of the plan are the best that were found: nothing to change."
        count = plural(len(self.found.order), "order link")
        if self.in_hand_days is None:
            return f"{count} part the work, and {plural(len(self.moves), 'task')} move."
        then = self.in_hand_then.capitalize()
        return f"{then} when nobody is booked twice; {self.in_hand_now} now. {count} part the work."

    @property
    def how(self) -> str:
        """How it was found, and whether it is proven best."""
        bound = day(engine.day_that_ends(self.found.bound))
        if self.found.proven:
            return "No order of this work is ready earlier: that is proven."
        if self.better:
            return (
                "The best order of a longer search. Whether another is ready earlier is not "
                f"proven; none can be ready before {bound}."
            )
        return f"A first, good order. No order can be ready before {bound}."

    @property
    def left(self) -> list[Overbooked]:
        """What no order can part: work that has been started on both sides."""
        found = book.overloads(self.now.rows, self.now.hands, self.found.plan)
        return [overbooked_line(self.now.names, overload) for overload in found]

    @property
    def token(self) -> str:
        """The links as they were seen, and what they were made from; signed."""
        links = [
            [link.before_id, link.after_id, link.kind, str(link.lag)]
            for link in book.order_rows(self.now.rows, self.found)
        ]
        seen = hands_basis(self.now.rows, self.now.hands)
        return signing.dumps({"basis": seen, "links": links}, salt=SALT, compress=True)


def finished_later(shift: Shift) -> int:
    """Working days, to the nearest."""
    minutes = shift.calendar.between(shift.old.early_finish, shift.new.early_finish)
    return round(minutes / shift.calendar.day_minutes)


def as_said(link: Link) -> tuple[int, int, str, str]:
    return link.before_id, link.after_id, str(link.kind), f"{link.lag:.2f}"
