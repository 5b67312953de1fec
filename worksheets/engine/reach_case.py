"""From the inputs of the worksheet on reach to things, and what else is held against the rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from worksheets.engine import reach
from worksheets.engine.amounts import both, show
from worksheets.engine.dimensions import INCH, System
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.result import Finding, Grid, Impossible, Standing
from worksheets.engine.rules import RuleSet, rule_set
from worksheets.engine.things import WHO, Setting, Thing, has_figures

LOW = 2.5  # m; below it lengths are shown in inches, as the codes write them
EIGHTH, LOW_HEIGHT = INCH / 8, 2.1336  # codes write heights below 84 in in inches
FIXED = "\u00a0"  # so that no line breaks within an amount
TICKS = {"adults": "adult", "small": "3-4", "young": "5-8", "older": "9-12"}


def setting_of(given: Given) -> Setting:
    users = tuple(who for name, who in TICKS.items() if given.flag(name))
    if not users:
        raise Impossible("adults", "Nobody uses it yet. Tick at least one of those who will.")
    return Setting(
        rules=rule_set("reach", given.choice("rules")),
        users=users,
        show=lambda value: length(value, given.system),
        brief=lambda value: short(value, given.system),
        show_force=lambda value: given.both(value, "force", places=1),
        path_from=given.maybe("path_from") or 0.0,
        path_width=given.maybe("path_width"),
        walked=given.flag("walked"),
    )


def length(value: float, system: System) -> str:
    """In both systems, held together; low heights in inches."""
    return both(value, "small_length" if value < LOW else "length", system).replace(" ", FIXED)


def short(value: float, system: System) -> str:
    """A length short enough for a drawing: to an eighth of an inch, or to a centimetre.

    >>> short(0.737, System.US), short(6.4, System.US), short(6.404, System.METRIC)
    ('29\xa0in', '21\xa0ft', '6.4\xa0m')
    """
    if system == System.METRIC:
        return show(value, "length", system, places=2).replace(" ", FIXED)
    exact = round(value / EIGHTH) * EIGHTH
    of = "small_length" if exact < LOW_HEIGHT else "length"
    return show(exact, of, system).replace(" ", FIXED)


def sized(sides: Iterable[float | None], system: System) -> str:
    """Width and height as a drawing gives them: to whole inches, or to a centimetre.

    >>> sized([1.22, 1.52, None], System.US), sized([1.22], System.METRIC)
    ('4\xa0ft × 5\xa0ft', '1.22\xa0m')
    """
    known = [side for side in sides if side]
    if system == System.METRIC:
        return " × ".join(short(side, system) for side in known)
    whole = [show(round(side / INCH) * INCH, "length", system) for side in known]
    return " × ".join(words.replace(" ", FIXED) for words in whole)


def things_of(given: Given) -> Iterator[Thing]:
    """Rows as typed; or the project’s parts, whose names of columns differ."""
    for number, row in typed_rows(given.rows("things")):
        if "kind" in row.values:
            yield from part_thing(row)
            continue
        checked_row(row, number)
        yield Thing(
            name=row.words("name"),
            mounting=row.choice("mounting"),
            used=row.maybe("used"),
            depth=row.maybe("depth") or 0.0,
            obstruction=row.maybe("obstruction"),
            approach=row.choice("approach"),
            edge=row.maybe("edge"),
            out=row.maybe("out"),
            along=row.maybe("along"),
            force=row.maybe("force"),
        )


def checked_row(row: Given, number: int) -> None:
    what = row.choice("what")
    if what in ("used", "both") and row.maybe("used") is None:
        says = "It is used by hand: write at what height, such as 36 in or 900 mm."
        raise Impossible("things", says, row=number, column="used")
    if what in ("sticks", "both") and (row.maybe("edge") is None or row.maybe("out") is None):
        column = "edge" if row.maybe("edge") is None else "out"
        says = "It sticks out: write how far, and how high its lowest edge is."
        raise Impossible("things", says, row=number, column=column)


def part_thing(row: Given) -> Iterator[Thing]:
    """A part of the project that hands use, or that stands or hangs where people walk."""
    kind, mounting = row.words("kind"), row.words("mounting")
    if kind == "mural" or mounting == "painted":
        return
    yield Thing(
        name=row.words("name"),
        mounting=mounting or ("ground" if row.maybe("bottom") == 0 else "wall"),
        used=row.maybe("used"),
        edge=0.0 if mounting == "ground" else row.maybe("bottom"),
        out=row.maybe("depth"),
        along=row.maybe("width"),
    )


def path_left(given: Given, setting: Setting) -> float:
    head = setting.rules.values["head_room"]
    outs = [t.out for t in things_of(given) if t.out and not reach.beyond(t.edge or 0.0, head)]
    return reach.path_left(setting.path_width or 0.0, setting.path_from, max(outs, default=0.0))


def path_itself(given: Given, setting: Setting) -> Iterator[Finding]:
    """The path before anything stands on it."""
    if setting.path_width is None:
        says = "The path is not written. Write its width to see what is left of it."
        yield Finding(standing=Standing.NOTE, says=says)
        return
    found = reach.clear_width(setting.rules, setting.path_width)
    if found.fault:
        says = (
            f"The path itself is {setting.show(setting.path_width)} wide, less than "
            f"{setting.show(found.least or 0)}: it was so before, and it cannot get less."
        )
        yield Finding(standing=Standing.OVER, says=says, rule=found.clause)
    elif path_left(given, setting) == setting.path_width:
        says = f"Nothing narrows the path: all of its {setting.show(setting.path_width)} are left."
        yield Finding(standing=Standing.WITHIN, says=says, rule=found.clause)


def floor(given: Given, rules: RuleSet) -> Iterator[Finding]:
    """Clear ground in front of what is used, and room for knees below it."""
    width, deep = given.maybe("floor_width"), given.maybe("floor_length")
    if (width is None) != (deep is None):
        name = "floor_width" if width is None else "floor_length"
        raise Impossible(name, "Write both sides of the clear ground, or neither.")
    if width is not None and deep is not None:
        sides = reach.floor_space(
            rules, width, deep, approach=given.choice("floor_approach"),
            alcove=given.maybe("alcove") or 0.0,
        )  # fmt: skip
        yield from room_findings(
            given, sides, ("Clear ground, along the wall", "Clear ground, out")
        )
    high = given.maybe("below_height")
    if high is not None:
        under = reach.room_below(
            rules, high, given.maybe("below_depth") or 0.0, given.maybe("below_width") or 0.0
        )
        names = ("Room for knees, height", "Room for toes, depth", "Room for knees, width")
        yield from room_findings(given, under, names)


def room_findings(
    given: Given, judged: tuple[reach.Judged, ...], names: tuple[str, ...]
) -> Iterator[Finding]:
    for each, name in zip(judged, names, strict=True):
        least = length(each.least or 0.0, given.system)
        says = f"{name}: {length(each.value, given.system)}; {least} is asked for."
        if each.fault:
            lacking = length((each.least or 0) - each.value, given.system)
            has = length(each.value, given.system)
            says = f"{name}: {has}, less than {least}. Find {lacking} more."
        standing = Standing.OVER if each.fault else Standing.WITHIN
        yield Finding(standing=standing, says=says, rule=each.clause)


def not_known(given: Given) -> Iterator[Finding]:
    """Parts of the project whose heights are not written: nothing can be said of them."""
    for row in given.rows("things"):
        if "kind" not in row.values or row.words("mounting") in ("painted", "ground"):
            continue
        if row.words("kind") != "mural" and row.maybe("bottom") is None:
            says = (
                f"{row.words('name')}: how high its lowest edge is, is not written. Write it in "
                "the part, and how it is fixed."
            )
            yield Finding(standing=Standing.NOTE, says=says, part=row.words("name"))


def limits(given: Given, setting: Setting) -> Grid:
    """What the set allows, as a table with its clauses."""
    rules, values = setting.rules, setting.rules.values

    def show(value: float) -> str:
        return length(value, given.system)

    rows = []
    for who in setting.users:
        if has_figures(rules, who):
            low, high = reach.band(rules, who)
            clause = rules.clause("forward" if who == reach.ADULT else "children")
            rows.append((f"Hands of {WHO[who]}", f"{show(low)} to {show(high or 0)}", clause))
    between = f"{show(values['sticks_above'])} to {show(values['sticks_to'])}"
    rows += [
        (f"Sticks out from a wall, edge at {between}", f"{show(values['sticks_wall'])} at most",
         rules.clause("sticks_wall")),
        (f"Sticks out from a post, edge at {between}", f"{show(values['sticks_post'])} at most",
         rules.clause("sticks_post")),
        ("Head room", f"{show(values['head_room'])} at least", rules.clause("head_room")),
        ("Path left", f"{show(values['clear_width'])} at least", rules.clause("clear_width")),
    ]  # fmt: skip
    return Grid(title=f"Limits of {rules.title}", head=("What", "Limit", "Clause"),
                rows=tuple(rows), note=f"{rules.jurisdiction}; {rules.status}.")  # fmt: skip
