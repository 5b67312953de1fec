"""Up to three options side by side, each a list of changes; the address carries all of it."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from urllib.parse import urlencode

from schedules.forms.slip import ChangeForm, Offered
from schedules.plan import Rows
from schedules.selectors.trying import Slip
from schedules.selectors.wording import days_words, decimal_words

LETTERS = "abc"
MOST_CHANGES = 12  # of one option
FIELDS = ("what", "days", "on")
NAMED = re.compile(r"^([abc])-(\d{1,3})-(what|days|on)$")
BLANK = dict.fromkeys(FIELDS, "")
Row = dict[str, str]  # what was typed for one change
Asked = dict[str, list[Row]]  # by the option's letter


def asked_in(data: Mapping[str, str]) -> Asked:
    """What was typed, numbered anew; ``what``, ``days`` and ``on`` alone are option A."""
    found: dict[str, dict[int, Row]] = defaultdict(dict)
    for name, value in data.items():
        if match := NAMED.match(name):
            letter, number, field = match.groups()
            found[letter].setdefault(int(number), dict(BLANK))[field] = value
    if not found and any(data.get(name) for name in FIELDS):
        found["a"][0] = {name: data.get(name, "") for name in FIELDS}
    rows = [[row for _, row in sorted(found[letter].items())] for letter in sorted(found)]
    return lettered(rows or [[dict(BLANK)]])


def lettered(options: list[list[Row]]) -> Asked:
    return {letter: rows or [dict(BLANK)] for letter, rows in zip(LETTERS, options, strict=False)}


def after_button(asked: Asked, data: Mapping[str, str]) -> Asked | None:
    """What is asked after “Add”, “Compare” or “Take away”; None when none was pressed."""
    add, take = data.get("add", ""), data.get("take", "")
    if add in asked and len(asked[add]) < MOST_CHANGES:
        return {**asked, add: [*asked[add], dict(BLANK)]}
    if data.get("compare"):
        last = list(asked.values())[-1]
        grown = [*last, dict(BLANK)] if len(last) < MOST_CHANGES else last
        return lettered([*asked.values(), grown])
    return without(asked, take) if take else None


def without(asked: Asked, take: str) -> Asked:
    """``take`` is an option, “b”, or one change of it, “b-1”."""
    letter, _, number = take.partition("-")
    kept = []
    for key, rows in asked.items():
        if key != letter:
            kept.append(rows)
        elif number:
            kept.append([row for n, row in enumerate(rows) if str(n) != number])
    return lettered(kept or [[dict(BLANK)]])


@dataclass
class Option:
    """A list of changes that would be made together."""

    letter: str
    forms: list[ChangeForm]

    @property
    def name(self) -> str:
        return self.letter.upper()

    @cached_property
    def slips(self) -> list[Slip]:
        return [] if self.wrong else [form.slip for form in self.forms if form.slip]

    @cached_property
    def wrong(self) -> bool:
        """Whether something is wrong in it; what does not go together is said beside its field."""
        valid = [form.is_valid() for form in self.forms if form.is_bound]
        if all(valid):
            Together(self.forms).check()
        return any(form.errors for form in self.forms)

    @property
    def asking(self) -> list[ChangeForm]:
        """The forms that say something."""
        return [form for form in self.forms if form.slip]

    @property
    def words(self) -> list[str]:
        return [slip.words for slip in self.slips]

    @property
    def can_grow(self) -> bool:
        return len(self.forms) < MOST_CHANGES


def has_errors(option: Option) -> bool:
    """Also those that the plan itself had to say."""
    return any(form.errors for form in option.forms)


class Together:
    """Changes of one thing in one option must not contradict each other."""

    def __init__(self, forms: list[ChangeForm]) -> None:
        self.said = [(n, form, form.slip) for n, form in enumerate(forms, 1) if form.slip]

    def check(self) -> None:
        for place, (n, form, slip) in enumerate(self.said):
            for earlier, _, other in self.said[:place]:
                if self.clash(slip, other):
                    form.add_error(*self.sentence(earlier, slip, other))
                    break
            else:
                self.not_below_nothing(n, form, slip)

    def clash(self, slip: Slip, other: Slip) -> bool:
        """A task may come late and be won back in part; all else is said once."""
        if slip.key_date or other.key_date:
            return slip.key_date == other.key_date
        if slip.lane or other.lane:
            return slip.lane == other.lane and slip.on == other.on
        if slip.task != other.task:
            return False
        if slip.days is None or other.days is None:
            return slip.days is other.days
        return (slip.days > 0) == (other.days > 0)

    def sentence(self, earlier: int, slip: Slip, other: Slip) -> tuple[str, str]:
        """The field, and what is wrong and would be right."""
        if slip.key_date:
            said = f"Change {earlier} moves “{slip.key_date}” already. Move it once."
            return "what", said
        if slip.lane:
            return "on", f"Change {earlier} has {slip.lane} away from that day already."
        if slip.on:
            said = (
                f"Change {earlier} holds “{slip.task}” to another day. Keep the one that is right."
            )
            return "on", said
        both = decimal_words((slip.days or Decimal(0)) + (other.days or Decimal(0)))
        side = "longer" if (slip.days or 0) > 0 else "shorter"
        said = f"Change {earlier} makes “{slip.task}” {side} already. Put both there: {both}."
        return "days", said

    def not_below_nothing(self, n: int, form: ChangeForm, slip: Slip) -> None:
        task = slip.task
        if task is None or not slip.days or slip.days > 0:
            return
        total = sum((s.days or Decimal(0) for _, _, s in self.said if s.task == task), Decimal(0))
        if task.days + total < 0:
            said = f"“{task}” takes {days_words(task.days)}: together that is less than nothing."
            form.add_error("days", said)


class Options:
    """All that is asked on the page."""

    def __init__(self, data: Mapping[str, str], rows: Rows) -> None:
        self.rows, self.offered = rows, Offered(rows)
        self.asked = asked_in(data)
        self.pressed = after_button(self.asked, data)
        self.typed = dict(flat(self.asked))
        self.options = [self.option(letter, rows) for letter, rows in self.asked.items()]
        wanted = data.get("pick", "")
        self.pick = wanted if wanted in self.asked else "a"

    def option(self, letter: str, rows: list[Row]) -> Option:
        prefixes = [f"{letter}-{n}" for n in range(len(rows))]
        return Option(
            letter, [ChangeForm(self.typed, offered=self.offered, prefix=p) for p in prefixes]
        )

    @property
    def picked(self) -> Option:
        return next(option for option in self.options if option.letter == self.pick)

    @property
    def wrong(self) -> bool:
        return any(option.wrong or has_errors(option) for option in self.options)

    @property
    def anything(self) -> bool:
        return any(option.slips for option in self.options)

    @property
    def can_compare(self) -> bool:
        return len(self.options) < len(LETTERS)

    @property
    def hidden(self) -> list[tuple[str, str]]:
        return [*self.typed.items(), ("pick", self.pick)]

    def query(self, asked: Asked | None = None, pick: str = "") -> str:
        asked, pick = asked or self.asked, pick or self.pick
        last = [("pick", pick)] if pick in asked and pick != "a" else []
        return urlencode([*flat(asked), *last])


def flat(asked: Asked) -> Iterator[tuple[str, str]]:
    for letter, rows in asked.items():
        for n, row in enumerate(rows):
            yield from ((f"{letter}-{n}-{name}", row[name]) for name in FIELDS)
