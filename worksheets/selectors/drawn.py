"""The project's elevation and section, with what the rules on reach say of its parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from projects.models import Project
from worksheets.drawings.elevation import NARROW, WIDE, elevation
from worksheets.drawings.reach_marks import crowd, marks_of, shared_of, zone_of
from worksheets.drawings.scene import Piece, Scene
from worksheets.drawings.section import section
from worksheets.engine.dimensions import System
from worksheets.engine.given import Given
from worksheets.engine.hanging import Hung, off_the_wall
from worksheets.engine.reach_case import not_known, path_itself, setting_of, sized, things_of
from worksheets.engine.result import Finding, Standing
from worksheets.engine.things import Setting, Told, judge, listed_who
from worksheets.facts import facts_of
from worksheets.models import Worksheet
from worksheets.run import system_of
from worksheets.selectors.anchored import anchors_of
from worksheets.selectors.shown import LEVELS, WORDS
from worksheets.sheets import sheets

KEY = "reach"
ORDER = (Standing.OVER, Standing.NEAR, Standing.NOTE, Standing.WITHIN)
USERS = ("adults", "small", "young", "older")
UNWRITTEN = {"things": [], "path_width": "", "path_from": "", "kerb": ""}  # no example’s path
GROUND_KINDS = ("planter", "footing", "sculpture")
UNKNOWN = 0.4  # m; a side that is not written is drawn so, and said to be so


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A finding in words, with the colour that stands beside them."""

    level: str
    word: str
    says: str
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    scene: Scene
    said: tuple[Said, ...]
    sentence: str
    rules_title: str
    rules_about: str
    users: str
    chosen: Mapping[str, str]  # the rule set and the users, as the form has them
    missing: tuple[str, ...]  # parts that cannot be drawn yet
    worksheet: Worksheet | None

    @property
    def empty(self) -> bool:
        return not self.scene.pieces

    @property
    def elevation(self) -> SafeString:
        """The canvas escapes every text that it is given."""
        return mark_safe(elevation(self.scene, WIDE))

    @property
    def elevation_narrow(self) -> SafeString:
        return mark_safe(elevation(self.scene, NARROW))

    @property
    def section(self) -> SafeString:
        return mark_safe(section(self.scene, WIDE))

    @property
    def section_narrow(self) -> SafeString:
        return mark_safe(section(self.scene, NARROW))

    @property
    def marked(self) -> tuple[Said, ...]:
        """What is over, at the edge of a limit, or not known."""
        return tuple(each for each in self.said if each.level != "holds")

    @property
    def within(self) -> tuple[Said, ...]:
        return tuple(each for each in self.said if each.level == "holds")


def drawn(project: Project, chosen: Mapping[str, str] | None = None) -> Drawn:
    """``chosen`` goes before what the project’s worksheet on reach says, and that before the
    rule set of the country."""
    kept = Worksheet.objects.filter(project=project, sheet=KEY).order_by("-pk").first()
    given = read(project, {**(kept.typed if kept else {}), **(chosen or {})})
    setting = setting_of(given)
    told = judge(things_of(given), setting)
    pieces = pieces_of(given, told)
    scene = scene_of(project, given, setting, pieces)
    found = [each.finding for each in told]
    found += [
        *path_itself(given, setting),
        *not_known(given),
        *hung_findings(given, setting, scene),
    ]
    found.sort(key=lambda finding: ORDER.index(finding.standing))
    return Drawn(
        scene=scene,
        said=tuple(said(each) for each in found),
        sentence=sentence(found, pieces),
        rules_title=setting.rules.title,
        rules_about=f"{setting.rules.jurisdiction}; {setting.rules.status}",
        users=listed_who(setting.users),
        chosen={name: str(given.values[name]) for name in ("rules",)}
        | {name: "yes" if given.flag(name) else "" for name in USERS},
        missing=tuple(not_drawn(given)),
        worksheet=kept,
    )


def read(project: Project, typed: Mapping[str, Any]) -> Given:
    """The worksheet's inputs with the project's parts; its defaults where they cannot be read."""
    system, facts, sheet = system_of(project), facts_of(project), sheets()[KEY]
    plain = {**UNWRITTEN, **typed, "things": []}
    for trial in (plain, {**UNWRITTEN, "rules": plain.get("rules", "")}, UNWRITTEN):
        reading = sheet.read(trial, facts=facts, system=system)
        if not reading.problems and any(reading.given.flag(name) for name in USERS):
            return reading.given
    return reading.given


def scene_of(
    project: Project, given: Given, setting: Setting, pieces: tuple[Piece, ...]
) -> Scene:  # fmt: skip
    facts = given.facts
    sides = [facts[f"site.{side}"].value for side in ("width", "height") if f"site.{side}" in facts]
    on_wall = any(p.mounting in ("wall", "painted") for p in pieces)
    return Scene(
        title=project.name,
        show=setting.brief,
        pieces=pieces,
        people=tuple(crowd(setting)),
        wall=(sides[0], sides[1]) if len(sides) == 2 and on_wall else None,
        stands_free=not on_wall,
        path_from=setting.path_from if setting.path_width is not None else None,
        path_width=setting.path_width,
        kerb=given.maybe("kerb"),
        zone=zone_of(setting.rules),
        shared=shared_of(setting) if any(piece.used for piece in pieces) else None,
        anchors=anchors_of(project, pieces, given.system),
        feet=given.system == System.US,
    )


def pieces_of(given: Given, told: list[Told]) -> tuple[Piece, ...]:
    rows = [row for row in given.rows("things") if "kind" in row.values and has_size(row)]
    return tuple(piece(row, given.system, told) for row in rows)


def has_size(row: Given) -> bool:
    return row.maybe("width") is not None or row.maybe("height") is not None


def piece(row: Given, system: System, told: list[Told]) -> Piece:
    kind, name = row.words("kind"), row.words("name")
    mounting = row.words("mounting") or guessed(kind)
    bottom = 0.0 if mounting == "ground" and row.maybe("bottom") is None else row.maybe("bottom")
    sides = [row.maybe(side) for side in ("width", "height")]
    return Piece(
        name=name,
        kind=kind,
        mounting=mounting,
        left=row.maybe("left"),
        bottom=bottom or 0.0,
        width=sides[0] or UNKNOWN,
        height=sides[1] or UNKNOWN,
        out=0.0 if mounting == "painted" else row.maybe("depth") or 0.05,
        used=row.maybe("used"),
        size=sized(sides, system),
        marks=marks_of(name, told),
        placed=row.maybe("left") is not None and bottom is not None,
    )


def guessed(kind: str) -> str:
    """How a part is held where nobody has said so."""
    if kind == "mural":
        return "painted"
    return "ground" if kind in GROUND_KINDS else "wall"


def not_drawn(given: Given) -> Iterator[str]:
    rows = (row for row in given.rows("things") if "kind" in row.values)
    return (row.words("name") for row in rows if not has_size(row))


def hung_findings(given: Given, setting: Setting, scene: Scene) -> Iterator[Finding]:
    if scene.wall is None:
        return
    for row in given.rows("things"):
        if "kind" not in row.values:
            continue
        hung = Hung(
            name=row.words("name"),
            left=row.maybe("left"),
            width=row.maybe("width"),
            bottom=row.maybe("bottom"),
            height=row.maybe("height"),
        )
        yield from off_the_wall(hung, scene.wall, setting.show)


def said(finding: Finding) -> Said:
    return Said(
        level=LEVELS.get(finding.standing, "plain"),
        word=WORDS[finding.standing],
        says=finding.says,
        rule=finding.rule,
    )


def sentence(found: list[Finding], pieces: tuple[Piece, ...]) -> str:
    over = [finding for finding in found if finding.standing == Standing.OVER]
    near = [finding for finding in found if finding.standing == Standing.NEAR]
    if not pieces:
        return "No part has its size yet. Write width, height and where it hangs."
    if over:
        verb = "is" if len(over) == 1 else "are"
        return f"{count(over)} {verb} over a limit and can be mended by moving a part."
    if near:
        verb = "stands" if len(near) == 1 else "stand"
        return f"Nothing is over a limit; {count(near).lower()} {verb} at the edge of one."
    return "Nothing is over a limit of the chosen rules."


def count(found: list[Finding]) -> str:
    return "One thing" if len(found) == 1 else f"{len(found)} things"
