"""What a sewn skin comes to: figures, findings, tables, and what is handed on."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.engine.amounts import figure
from worksheets.engine.dimensions import System
from worksheets.engine.result import (
    Figure,
    Finding,
    Grid,
    Hand,
    Standing,
    ToLine,
    ToPart,
    ToRequest,
)
from worksheets.engine.sewing import metres, yards
from worksheets.engine.skin_case import Case

APART = 0.02  # of the part's size; beyond that it is said


def bought_words(case: Case) -> str:
    """“7 1/8 yd (6.6 m)”, each rounded up by itself."""
    found = [f"{eighths(yards(case.bought))} yd", f"{figure(metres(case.bought), 1)} m"]
    first, second = found if case.given.system == System.US else found[::-1]
    return f"{first} ({second})"


def eighths(number: float) -> str:
    """A number of eighths as a whole and a fraction.

    >>> eighths(7.125), eighths(4.0), eighths(0.75)
    ('7 1/8', '4', '3/4')
    """
    whole, parts = divmod(round(number * 8), 8)
    fraction = {0: "", 2: "1/4", 4: "1/2", 6: "3/4"}.get(parts, f"{parts}/8")
    return " ".join(word for word in (f"{whole:,}" if whole else "", fraction) if word) or "0"


def figures(case: Case) -> tuple[Figure, ...]:
    skin, plan = case.skin, case.plan
    found = [
        Figure(key="bought", label="Cloth to buy", value=case.bought, of="length", main=True,
               text=bought_words(case), note="Yards up to the next eighth, metres to the tenth."),
        Figure(key="mass", label="Mass of the skin", value=case.mass, of="mass", toward="up",
               main=True, note="Cloth as cut, and the trims."),
        Figure(key="panels", label="Panels", value=skin.count, places=0, main=True),
        Figure(key="net_area", label="Skin without allowances", value=skin.area, of="area"),
        Figure(key="cut_area", label="Cloth in the cut panels", value=case.cut_area, of="area",
               toward="up"),
        Figure(key="slant", label="Panel A down its middle", value=skin.panels[0].slant,
               of="small_length"),
        Figure(key="column_seams", label="Seams along the columns", value=skin.column_seams,
               of="length", toward="up"),
        Figure(key="ring_seams", label="Seams at the rings", value=skin.ring_seams, of="length",
               toward="up"),
        Figure(key="hems", label="Hems", value=skin.hems, of="length", toward="up"),
        Figure(key="thread", label="Thread, roughly", value=case.thread, of="length", places=0,
               toward="up", note=case.rules.clause("thread_per_seam")),
        Figure(key="laid", label="Length of the layout", value=plan.length, of="length",
               toward="up", note="Before spare, shrinking and pattern repeat."),
        Figure(key="used", label="Cloth that becomes panels", value=plan.used, of="fraction",
               places=0, toward="down"),
    ]  # fmt: skip
    if case.cents is not None:
        found.insert(1, Figure(key="cost", label="Cost of the cloth", value=case.cents,
                               of="money", main=True))  # fmt: skip
    return tuple(found)


def findings(case: Case) -> tuple[Finding, ...]:
    kinds = (overhead, compared, hem_findings, layout_findings, corner_findings)
    return tuple(finding for kind in kinds for finding in kind(case))


def overhead(case: Case) -> Iterator[Finding]:
    if not case.given.flag("overhead"):
        return
    yield Finding(
        standing=Standing.NEAR,
        says="It hangs over people outdoors, so this is a screening estimate of cloth only. Do "
        "not build from it: a licensed engineer must check wind and rain on the skin, its frame "
        "and what holds them, and sign.",
    )
    yield Finding(
        standing=Standing.NEAR,
        says="Ask the supplier for flame resistance papers; the local authority says which.",
        rule="Commonly NFPA 701 or EN 13501-1 (from memory)",
    )


def layout_findings(case: Case) -> Iterator[Finding]:
    plan, given = case.plan, case.given
    length = given.both(plan.length, "length", toward="up")
    bound = given.both(plan.bound, "length", toward="down")
    if plan.shortest:
        says = f"The layout takes {length}. Proven: no layout is shorter."
    elif case.searched and plan.layout.proven:
        says = (
            f"The layout takes {length}. Proven: laid in straight rows like these, no layout is "
            f"shorter; by area alone none could come below {bound}."
        )
    else:
        says = f"The layout takes {length}, the best found; none can be shorter than {bound}."
    yield Finding(standing=Standing.NOTE, says=says)
    if plan.spare < case.rules.values["selvage_spare"]:
        spare = given.both(max(0.0, plan.spare), "small_length")
        yield Finding(
            standing=Standing.NEAR,
            says=f"The widest row leaves {spare} beside it: an uneven selvage has no room. "
            "Measure the cloth before you cut.",
            rule=case.rules.clause("selvage_spare"),
        )
    if (given.maybe("repeat") or 0.0) > 0:
        yield Finding(
            standing=Standing.NOTE,
            says="One repeat for each panel is added, so that the print can be matched.",
        )


def corner_findings(case: Case) -> Iterator[Finding]:
    for each in case.patterns:
        if each.cut.bevelled:
            yield Finding(
                standing=Standing.NOTE,
                says=f"Panel {each.letter} has a corner under 30°: its long tip is cut off square "
                "at the width of the allowance.",
            )


def hem_findings(case: Case) -> Iterator[Finding]:
    """A hem beyond slanting sides does not lie flat when it is turned back."""
    for each, edge, way in ((case.patterns[0], "top", 1), (case.patterns[-1], "bottom", -1)):
        short = 4 * each.lean * each.allowances[edge] * way
        if abs(short) > case.rules.values["hem_eased"]:
            much = case.given.both(abs(short), "small_length")
            yield Finding(
                standing=Standing.NEAR,
                says=f"The sides of panel {each.letter} slant: turned back, its {edge} hem is "
                f"{much} {'narrower' if short > 0 else 'wider'} than the cloth it lies on. Turn "
                "a shallower hem, or sew on a facing cut to the slant.",
                rule=case.rules.clause("hem_eased"),
            )


def compared(case: Case) -> Iterator[Finding]:
    """Against the part that it is made for."""
    for name, found, words in (
        ("part_across", case.across, "across, corner to corner"),
        ("part_tall", case.tall, "tall"),
    ):
        known = case.given.maybe(name)
        if known is not None and abs(found - known) > APART * known:
            yield Finding(
                standing=Standing.NEAR,
                says=f"The skin is {case.given.both(found, 'length')} {words}; the part is "
                f"{case.given.both(known, 'length')}. Change one of them.",
            )


def sewn_grid(case: Case) -> Grid:
    show = case.given.show
    rows = [
        (
            each.letter,
            f"{each.number + 1} to {each.number + 2}",
            str(each.count),
            *(
                show(size, "small_length")
                for size in (
                    each.panel.top, each.panel.bottom, each.panel.slant, each.panel.edge,
                    each.panel.diagonal,
                )
            ),
        )
        for each in case.patterns
    ]  # fmt: skip
    return Grid(
        title="Panels as sewn, flat",
        head=("Panel", "Rings", "Count", "Top", "Bottom", "Middle", "Along the column", "Diagonal"),
        rows=tuple(rows),
        numeric=(2, 3, 4, 5, 6, 7),
        note="Panel A is the highest. The diagonals of one panel must be equal: check them.",
    )


def cut_grid(case: Case) -> Grid:
    show = case.given.show
    rows = []
    for each in case.patterns:
        width, height = each.cut.size
        rows.append(
            (
                each.letter,
                str(each.count),
                show(width, "small_length", toward="up"),
                show(height, "small_length", toward="up"),
                show(each.allowances["side"], "small_length"),
                show(each.allowances["top"], "small_length"),
                show(each.allowances["bottom"], "small_length"),
                show(each.cut.area * each.count, "area", toward="up"),
            )
        )
    total = show(case.cut_area, "area", toward="up")
    return Grid(
        title="Panels as cut",
        head=("Panel", "Cut", "Width", "Height", "At the sides", "At the top", "At the bottom",
              "Cloth of all"),
        rows=tuple(rows),
        numeric=(1, 2, 3, 4, 5, 6, 7),
        foot=("All", str(case.skin.count), "", "", "", "", "", total),
    )  # fmt: skip


def hands(case: Case) -> tuple[Hand, ...]:
    quantity, unit = case.sold
    return (
        ToLine(key="cloth", label="Cloth", quantity=quantity, unit=unit, cents=case.cents),
        ToRequest(
            key="cloth",
            label="Cloth and thread",
            title="Cloth and thread for the sewn skin",
            items=items(case),
        ),
        ToPart(key="mass", label="Mass of the skin", mass=case.mass),
    )


def items(case: Case) -> tuple[str, ...]:
    given = case.given
    cloth = (
        f"{bought_words(case)} of cloth {given.both(given['bolt'], 'small_length')} wide, "
        f"{given.both(given['cloth_mass'], 'cloth_mass')}, in one length, of one dye lot"
    )
    found = [cloth, f"{given.both(case.thread, 'length', places=0, toward='up')} of thread"]
    if given.flag("overhead"):
        found.append("Flame resistance papers for this cloth")
    return tuple(found)
