"""What a frame weighs, what to buy for it and how to cut it, as a result."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.engine.cutting import NANOMETRES, bought, useful, waste
from worksheets.engine.frame import METALS, exact_words
from worksheets.engine.frame_cuts import CutList, kept, marked
from worksheets.engine.given import Given
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Hand,
    Picture,
    Result,
    Standing,
    ToLine,
    ToPart,
    ToRequest,
)
from worksheets.engine.rules import rule_set

NO_STRENGTH = (
    "A cut list is no strength check: whoever designs the frame chooses the sections, and an "
    "engineer where people stand under it or near it."
)


def answer(given: Given, lists: Sequence[CutList], pictures: Sequence[Picture]) -> Result:
    mass, bars, cents = mass_of(given, lists), sum(each.bars for each in lists), paid(lists)
    cost = f" for {given.money(cents)}" if cents is not None else ""
    says = (
        f"{plural(bars, 'bar')} to buy{cost}; the frame weighs "
        f"{given.both(mass, 'mass', toward='up')} with its welds and coating."
    )
    return Result(
        says=says,
        figures=figures(given, lists),
        findings=(
            Finding(standing=Standing.NOTE, says=f"{proof(given, lists)}"),
            Finding(standing=Standing.NOTE, says=NO_STRENGTH),
        ),
        grids=(
            buying(given, lists),
            *(cutting(given, each, len(lists) > 1) for each in lists),
            pieces(given, lists),
        ),
        pictures=tuple(pictures),
        hands=hands(given, lists, mass),
        assumptions=assumptions(given, lists),
        kept=kept(lists),
        can_improve=any(each.open for each in lists),
    )


def plural(count: int, noun: str) -> str:
    return f"{count:,} {noun}{'' if count == 1 else 's'}"


def priced(given: Given, cents: int | None, count: int = 1) -> str:
    return "" if cents is None else given.money(cents * count)


def bare(lists: Sequence[CutList]) -> float:
    """Mass of the pieces, in kg."""
    return sum(each.metres * each.profile.line_mass for each in lists)


def mass_of(given: Given, lists: Sequence[CutList]) -> float:
    """With weld, zinc and paint."""
    return bare(lists) * (1 + given["allowance"])


def paid(lists: Sequence[CutList]) -> int | None:
    cents = [each.cents for each in lists]
    return None if None in cents else sum(found or 0 for found in cents)


def lost(lists: Sequence[CutList]) -> float:
    """Share of the length bought that is neither a piece nor an off-cut to keep."""
    short = sum(waste(each.problem, each.found.plan) for each in lists)
    return short / sum(bought(each.problem, each.found.plan) for each in lists)


def figures(given: Given, lists: Sequence[CutList]) -> tuple[Figure, ...]:
    cents = paid(lists)
    offcuts = [rest for each in lists for rest in useful(each.problem, each.found.plan)]
    found = [
        Figure(key="mass", label="Mass of the frame", value=mass_of(given, lists), of="mass",
               toward="up", main=True),
        Figure(key="bars", label="Bars to buy", value=sum(each.bars for each in lists),
               unit="bars", places=0, main=True),
        Figure(key="bare", label="Mass of the pieces alone", value=bare(lists), of="mass"),
        Figure(key="metres", label="Length of all the pieces", of="length",
               value=sum(each.metres for each in lists), toward="up"),
        Figure(key="waste", label="Waste", value=lost(lists), of="fraction", places=1,
               note="saw cuts, trimmed ends and off-cuts too short to keep"),
        Figure(key="offcuts", label="Off-cuts to keep", value=len(offcuts), places=0,
               note=longest_words(given, offcuts)),
        Figure(key="different", label="Different cuts", places=0, note=fewest_words(lists),
               value=sum(len(each.found.plan) for each in lists)),
        Figure(key="proof", label="How good the plan is", text=proof(given, lists)),
    ]  # fmt: skip
    if cents is not None:
        found.insert(2, Figure(key="cost", label="Cost of the bars", value=cents, of="money",
                               main=True))  # fmt: skip
    if len(lists) == 1:
        found.append(
            Figure(key="line_mass", label="Mass per length of the section", of="line_mass",
                   value=lists[0].profile.line_mass)
        )  # fmt: skip
    return tuple(found)


def fewest_words(lists: Sequence[CutList]) -> str:
    """Whether fewer set-ups of the saw are possible at the same cost."""
    return "no plan as good has fewer" if all(each.settled for each in lists) else ""


def longest_words(given: Given, offcuts: Sequence[int]) -> str:
    if not offcuts:
        return ""
    return f"the longest {exact_words(given, max(offcuts) / NANOMETRES)}"


def proof(given: Given, lists: Sequence[CutList]) -> str:
    """“Proven: …”, or by how much the best possible plan could still be better."""
    if all(each.found.proven for each in lists):
        return f"Proven: no plan {better(lists)}."
    told = [
        over(given, counts, [each for each in lists if each.counts == counts])
        for counts in ("money", "bars", "length")
    ]
    return f"At most {' and '.join(filter(None, told))} more than the least possible."


def better(lists: Sequence[CutList]) -> str:
    words = {"money": "costs less", "bars": "needs fewer bars", "length": "buys less metal"}
    return " or ".join(words[each] for each in words if each in {one.counts for one in lists})


def over(given: Given, counts: str, lists: Sequence[CutList]) -> str:
    more = sum(each.found.cost - each.found.least for each in lists if not each.found.proven)
    if not more:
        return ""
    if counts == "money":
        return given.money(more)
    if counts == "bars":
        return plural(more, "bar")
    return f"{given.both(more / 1000, 'length', toward='up')} of bar"


def buying(given: Given, lists: Sequence[CutList]) -> Grid:
    rows = [
        (each.name, each.profile.says, exact_length(given, length), str(count),
         priced(given, cents), priced(given, cents, count))
        for each in lists
        for length, cents, count in to_buy(each)
    ]  # fmt: skip
    cents = paid(lists)
    total = str(sum(each.bars for each in lists))
    return Grid(
        title="Bars to buy",
        head=("Section", "What it is", "Bar", "Bars", "Each", "Together"),
        rows=tuple(rows),
        numeric=(3, 4, 5),
        foot=("Together", "", "", total, "", priced(given, cents)),
    )


def to_buy(each: CutList) -> list[tuple[float, int | None, int]]:
    """Length, cents for one and how many, for each length that is bought."""
    counts = [0] * len(each.profile.bars)
    for cut in each.found.plan:
        counts[cut.stock] += cut.times
    return [(*bar, n) for bar, n in zip(each.profile.bars, counts, strict=True) if n]


def exact_length(given: Given, length: float) -> str:
    """The length of a bar as it is sold: “20 ft”, “6,000 mm”."""
    if given.system == "us":
        return given.show(length, "length")
    return exact_words(given, length)


def cutting(given: Given, each: CutList, several: bool) -> Grid:
    """One row for bars cut alike: how many of which length, the pieces in order, the off-cut."""
    rows = [
        (
            f"{bar.times} × {exact_length(given, each.profile.bars[bar.stock][0])}",
            in_order(given, each, bar.pieces),
            rest_words(given, each, each.problem.rest(bar.stock, [p for p, *_ in bar.pieces])),
        )
        for bar in marked(each)
    ]
    return Grid(
        title=f"Cut list: {each.name}" if several else "Cut list",
        head=("Bars", "Cut, in this order", "Off-cut"),
        rows=tuple(rows),
        note="Trim the end of the bar first. Every piece is measured at its long point.",
    )


def rest_words(given: Given, each: CutList, rest: int) -> str:
    """“16 3/4 in, keep”."""
    if not rest:
        return "none"
    what = "keep" if rest >= each.problem.useful else "waste"
    return f"{exact_words(given, rest / NANOMETRES)}, {what}"


def in_order(given: Given, each: CutList, found: Sequence[tuple[int, str, str]]) -> str:
    """“2 × P1 47 1/2 in, R3 23 1/2 in (mitre 60°)”."""
    told: list[tuple[tuple[int, str, str], int]] = []
    for one in found:
        if told and told[-1][0] == one:
            told[-1] = (one, told[-1][1] + 1)
        else:
            told.append((one, 1))
    return ", ".join(
        (f"{count} × " if count > 1 else "")
        + f"{mark} {exact_words(given, each.problem.lengths[place] / NANOMETRES)}".strip()
        + (f" ({ends})" if ends and ends.casefold() != "square" else "")
        for (place, mark, ends), count in told
    )


def pieces(given: Given, lists: Sequence[CutList]) -> Grid:
    rows = [
        (piece.mark, each.name, str(piece.count), exact_words(given, piece.length), piece.ends,
         given.show(piece.length * each.profile.line_mass, "mass"),
         given.show(piece.length * each.profile.line_mass * piece.count, "mass"))
        for each in lists
        for piece in each.pieces
    ]  # fmt: skip
    foot = given.show(bare(lists), "mass")
    return Grid(
        title="Pieces and their mass",
        head=("Mark", "Section", "Pieces", "Length", "End cuts", "Mass of one", "Together"),
        rows=tuple(rows),
        numeric=(2, 3, 5, 6),
        foot=("Together", "", str(sum(p.count for e in lists for p in e.pieces)), "", "", "", foot),
        note="Without weld, zinc and paint.",
    )


def hands(given: Given, lists: Sequence[CutList], mass: float) -> tuple[Hand, ...]:
    items = [
        f"{plural(count, 'bar')} of {exact_length(given, length)}: {each.profile.says}"
        for each in lists
        for length, _, count in to_buy(each)
    ]
    number = sum(each.bars for each in lists)
    return (
        ToLine(key="bars", label="Bars for the frame", quantity=number,
               unit="bar" if number == 1 else "bars", cents=paid(lists)),
        ToRequest(key="list", label="Purchase list", title="Metal for the frame",
                  items=tuple(items)),
        ToPart(key="mass", label="Mass of the frame", mass=mass),
    )  # fmt: skip


def assumptions(given: Given, lists: Sequence[CutList]) -> tuple[str, ...]:
    rules = rule_set("metal", given.choice("tables"))
    metals = list(dict.fromkeys(each.profile.metal for each in lists))
    told = [f"{METALS[name]}: {rules.clause(name)}." for name in metals]
    if any(each.profile.section.shape == "tube" for each in lists):
        told.append(f"Square tube: {rules.clause('corner')}.")
    told += [
        f"The saw takes {exact_words(given, given['kerf'])} between two pieces and "
        f"{exact_words(given, given['trim'])} is cut from both ends of every bar.",
        "Lengths are those at the long point. That two mitres could share one cut is left out.",
    ]
    if any(each.counts == "length" for each in lists):
        told.append("Where a bar has no price, the least length of metal is bought.")
    return tuple(told)
