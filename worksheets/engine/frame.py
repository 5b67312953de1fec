"""A frame of bought sections: what was typed, as sections, bars to buy and pieces to cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from worksheets.engine import amounts
from worksheets.engine.cutting import whole
from worksheets.engine.dimensions import INCH, System
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.inputs import Number, Wrong
from worksheets.engine.pasting import lines
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set
from worksheets.engine.sections import Section, SectionError, corner_radius

SOLID = ("round_bar",)
MOST = 2000  # pieces in all
SIXTEENTH, NEARLY = INCH / 16, 5e-5  # m
COUNT = Number(name="count", label="Quantity", whole=True, least=1, most=1000)
SHAPES = {
    "tube": "Square or rectangular tube", "round_tube": "Round tube", "flat": "Flat bar",
    "angle": "Angle", "round_bar": "Round bar",
}  # fmt: skip
METALS = {
    "steel": "Steel", "weathering": "Weathering steel", "stainless": "Stainless steel",
    "aluminium": "Aluminium",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """One section that is bought. ``bars`` are (length in m, cents or None), the shortest first."""

    name: str
    says: str  # “Square tube 1 in × 0.065 in, steel”
    metal: str  # a key of METALS
    section: Section
    line_mass: float
    bars: tuple[tuple[float, int | None], ...] = ()

    @property
    def priced(self) -> bool:
        return all(cents is not None for _, cents in self.bars)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    mark: str
    profile: int
    length: float
    count: int
    ends: str
    at: tuple[str, int | None]  # input and row, for a sentence beside it


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    profiles: tuple[Profile, ...]
    pieces: tuple[Piece, ...]

    def of(self, profile: int) -> list[Piece]:
        return [piece for piece in self.pieces if piece.profile == profile]


def frame_of(given: Given) -> Frame:
    """Everything as typed, or Impossible with the field to change."""
    rules = rule_set("metal", given.choice("tables"))
    profiles = [
        profile_of(given, row, number, rules) for number, row in typed_rows(given.rows("sections"))
    ]
    names = [profile.name.casefold() for profile in profiles]
    for number, name in enumerate(names):
        if name in names[:number]:
            at = given.rows("sections")[number].values["row"]
            raise Impossible("sections", "Two sections have this name.", row=at, column="name")
    bars = stock_of(given, profiles)
    made = tuple(replace(p, bars=tuple(sorted(bars[n], key=first))) for n, p in enumerate(profiles))
    pieces = (*typed_pieces(given, made), *pasted_pieces(given, made))
    if not pieces:
        raise Impossible("pieces", "Write at least one piece, here or in the pasted list.")
    if sum(piece.count for piece in pieces) > MOST:
        raise Impossible("pieces", f"At most {MOST:,} pieces can be laid out at once.")
    frame = Frame(profiles=made, pieces=pieces)
    for piece in pieces:
        fits(given, made[piece.profile], piece)
    return frame


def first(bar: tuple[float, int | None]) -> float:
    return bar[0]


def profile_of(given: Given, row: Given, number: int, rules: RuleSet) -> Profile:
    shape, metal = row.choice("shape"), row.choice("metal")
    wall = row.maybe("wall")
    if wall is None and shape not in SOLID:
        raise Impossible("sections", "Write the wall or thickness.", row=number, column="wall")
    radius = row.maybe("radius")
    if radius is None and wall is not None:
        radius = corner_radius(wall, rules.values["corner"])
    section = Section(
        shape=shape,  # type: ignore[arg-type]
        width=row["width"],
        height=row.maybe("height") or 0.0,
        wall=wall or 0.0,
        radius=radius or 0.0,
        density=float(rules.values[metal]),
    )
    try:
        mass = section.line_mass
    except SectionError as error:
        raise Impossible("sections", str(error), row=number, column=error.size) from None
    says = f"{kind_of(section)} {sizes(given, section)}, {METALS[metal].lower()}"
    return Profile(name=row.words("name"), says=says, metal=metal, section=section, line_mass=mass)


def kind_of(section: Section) -> str:
    """“Square tube”, “Rectangular tube”, “Flat bar”."""
    if section.shape != "tube":
        return SHAPES[section.shape]
    square = section.height in (0.0, section.width)
    return "Square tube" if square else "Rectangular tube"


def sizes(given: Given, section: Section) -> str:
    """“1 in × 1 in × 0.065 in”, as the trade writes a section."""
    sides = [section.width]
    if section.shape in ("tube", "angle"):
        sides.append(section.height or section.width)
    if section.shape not in SOLID:
        sides.append(section.wall)
    return " × ".join(exact_words(given, side) for side in sides)


def exact_words(given: Given, length: float) -> str:
    """A length to cut or buy: in sixteenths where it is one, else to a thousandth of an inch."""
    between = abs(length / SIXTEENTH - round(length / SIXTEENTH)) * SIXTEENTH
    if given.system == System.US and between > NEARLY:
        return given.show(length, "small_length", places=3)
    return given.show(length, "small_length")


def named(profiles: list[Profile] | tuple[Profile, ...], name: str) -> int | None:
    """The section with this name; the only one where no name is written."""
    if not name and len(profiles) == 1:
        return 0
    found = [n for n, each in enumerate(profiles) if each.name.casefold() == name.casefold()]
    return found[0] if found else None


def unknown(profiles: list[Profile] | tuple[Profile, ...], name: str) -> str:
    names = ", ".join(profile.name for profile in profiles)
    return (
        f"There is no section “{name}”. Write one of: {names}."
        if name
        else f"Write its section: {names}."
    )


def stock_of(given: Given, profiles: list[Profile]) -> list[list[tuple[float, int | None]]]:
    """Bars of each section; a row without a section counts for all of them."""
    found: list[list[tuple[float, int | None]]] = [[] for _ in profiles]
    for number, row in typed_rows(given.rows("stock")):
        name, length = row.words("section"), row["length"]
        place = named(profiles, name)
        if name and place is None:
            raise Impossible("stock", unknown(profiles, name), row=number, column="section")
        for bars in [found[place]] if place is not None else found:
            if any(abs(length - known) < 1e-9 for known, _ in bars):
                says = "This length of the same section stands here twice."
                raise Impossible("stock", says, row=number, column="length")
            bars.append((length, row.cents("price")))
    return found


def typed_pieces(given: Given, profiles: tuple[Profile, ...]) -> Iterator[Piece]:
    for number, row in typed_rows(given.rows("pieces")):
        place = named(profiles, row.words("section"))
        if place is None:
            says = unknown(profiles, row.words("section"))
            raise Impossible("pieces", says, row=number, column="section")
        yield Piece(
            mark=row.words("mark"),
            profile=place,
            length=row["length"],
            count=row.count("count"),
            ends=row.words("ends"),
            at=("pieces", number),
        )


def pasted_pieces(given: Given, profiles: tuple[Profile, ...]) -> Iterator[Piece]:
    """Quantity, length, mark, section, end cuts; the last three may be left out."""
    for number, found in lines(given.words("pasted")):
        count, length, mark, section, ends = (*found, "", "", "", "", "")[:5]
        place = named(profiles, section)
        try:
            if place is None:
                raise Wrong(unknown(profiles, section))
            many = round(COUNT.read(count, given.system))
            size = amounts.parse(length, "small_length", given.system)
            if not 0.001 <= size <= 30:
                raise Wrong("a piece has a length from 1 mm to 30 m.")
        except (Wrong, amounts.AmountError) as error:
            raise Impossible("pasted", f"Line {number}: {error}") from None
        yield Piece(
            mark=mark, profile=place, length=size, count=many, ends=ends, at=("pasted", None)
        )


def fits(given: Given, profile: Profile, piece: Piece) -> None:
    """Refuse a piece that is longer than every bar of its section, once both ends are trimmed."""
    if not profile.bars:
        raise Impossible("stock", f"Write at least one length that “{profile.name}” is sold in.")
    longest = profile.bars[-1][0]
    most = longest - 2 * given["trim"]
    if whole(piece.length) <= whole(longest) - 2 * whole(given["trim"]):
        return
    name, row = piece.at
    which = f" {piece.mark}" if piece.mark else ""
    says = (
        f"The piece{which} is {exact_words(given, piece.length)} long. The longest bar gives "
        f"{exact_words(given, max(0.0, most))} once its ends are trimmed."
    )
    raise Impossible(name, says, row=row, column="length" if row is not None else "")
