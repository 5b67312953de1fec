"""What holds for every worksheet, whatever it reckons."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from projects.models import PartKind
from worksheets.engine.dimensions import DIMENSIONS, System
from worksheets.engine.inputs import Choice, Flag, Quantity, Table
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.sheet import Caution, Sheet
from worksheets.sheets import sheets

EVERY = list(sheets().values())
by_key = pytest.mark.parametrize("sheet", EVERY, ids=lambda sheet: sheet.key)
FORBIDDEN = re.compile(r"\bsafe(ly)?\b|\bOK\b|✓|✔", re.IGNORECASE)


def words_of(result: Any) -> list[str]:
    texts = [result.says, *result.assumptions]
    texts += [f"{f.label} {f.text} {f.note}" for f in result.figures]
    texts += [f.says for f in result.findings]
    texts += [cell for grid in result.grids for row in grid.rows for cell in row]
    return texts + [re.sub(r"<[^>]+>", " ", p.svg) + p.caption for p in result.pictures]


@by_key
@pytest.mark.parametrize("system", System)
def test_it_opens_with_an_example_that_can_be_reckoned(sheet: Sheet, system: System) -> None:
    reading = sheet.read({}, system=system)
    assert reading.problems == {}
    result = sheet.compute(reading.given)
    assert result.says.endswith(".")
    assert result.figures or result.grids


@by_key
def test_its_published_recipe_is_met(sheet: Sheet) -> None:
    recipe = sheet.recipe
    result = sheet.work(recipe.typed)
    assert recipe.source and recipe.finds and recipe.expects
    for key, expected in recipe.expects.items():
        assert result.figure(key).value == pytest.approx(expected, rel=recipe.within), key


@by_key
def test_it_names_its_formula_sources_and_cautions(sheet: Sheet) -> None:
    assert sheet.formula
    assert sheet.sources
    assert sheet.cautions
    assert sheet.purpose.endswith(".")
    names = [each.name for each in sheet.inputs]
    assert len(names) == len(set(names))


@by_key
def test_a_screening_says_so_and_promises_nothing(sheet: Sheet) -> None:
    result = sheet.work({})
    if sheet.caution == Caution.LICENSED:
        assert "creening" in result.says + " ".join(result.assumptions) + sheet.caution.words
        assert not [text for text in words_of(result) if FORBIDDEN.search(text)]


@by_key
def test_every_unit_it_names_is_known(sheet: Sheet) -> None:
    result = sheet.work({})
    for figure in result.figures:
        assert figure.of in DIMENSIONS or figure.of in ("", "money"), figure.key
        assert figure.value is not None or figure.text
        assert isinstance(figure.standing, Standing)


@by_key
def test_a_wrong_unit_is_said_beside_its_field(sheet: Sheet) -> None:
    for each in sheet.inputs:
        if isinstance(each, Quantity) and each.of != "fraction":
            other = "3 V" if each.of != "volts" else "3 kg"
            said = sheet.read({each.name: other}).problems[each.name]
            assert DIMENSIONS[each.of].noun in said


@by_key
def test_an_amount_out_of_range_is_answered_with_the_range(sheet: Sheet) -> None:
    for each in sheet.inputs:
        if isinstance(each, Quantity) and each.most is not None:
            unit = DIMENSIONS[each.of].unit(System.US)
            typed = f"{(each.most * 2 + 1) / unit.factor - unit.shift:.6f} {unit.symbol}"
            assert "Write" in sheet.read({each.name: typed}).problems[each.name]


def typed_for(each: Any, draw: Any) -> str:
    """Something within the range of an input, its ends included, in metric units."""
    if isinstance(each, Choice):
        return draw(st.sampled_from([key for key, _ in each.options]))
    if isinstance(each, Flag):
        return draw(st.sampled_from(["yes", "no"]))
    least, most = getattr(each, "least", None), getattr(each, "most", None)
    if least is None or most is None:
        return each.default(System.US)
    value = draw(st.floats(least, most) | st.sampled_from([float(least), float(most)]))
    if not isinstance(each, Quantity):
        return f"{round(value)}" if each.whole else f"{value:.6f}"
    unit = DIMENSIONS[each.of].unit(System.METRIC)
    return f"{value / unit.factor - unit.shift:.9f} {unit.symbol}"


def strayed(sheet: Sheet, draw: Any) -> dict[str, Any]:
    """Up to six inputs, tables among them, somewhere in their ranges."""
    every = list(sheet.inputs)
    typed: dict[str, Any] = {}
    for at in draw(st.sets(st.integers(0, len(every) - 1), max_size=6)):
        each = every[at]
        if isinstance(each, Table):
            rows = draw(st.integers(1, 3))
            typed[each.name] = [
                {c.name: typed_for(c, draw) for c in each.columns} for _ in range(rows)
            ]
        else:
            typed[each.name] = typed_for(each, draw)
    return typed


@by_key
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_any_inputs_within_their_ranges_give_a_result_or_a_sentence(
    sheet: Sheet, data: Any
) -> None:
    """Nothing but a sentence beside one of its inputs may come back, and nothing hangs."""
    reading = sheet.read(strayed(sheet, data.draw))
    if reading.problems:
        return
    try:
        result = sheet.compute(reading.given)
    except Impossible as wrong:
        assert str(wrong).endswith(".")
        assert wrong.name in {one.name for one in sheet.inputs}
    else:
        assert result.says.endswith(".")


@by_key
def test_it_is_offered_for_kinds_of_part_that_there_are(sheet: Sheet) -> None:
    assert set(sheet.kinds) <= set(PartKind.values)


def test_there_is_one_worksheet_in_each_file() -> None:
    folder = Path(__file__).resolve().parents[2] / "worksheets" / "sheets"
    files = {path.stem for path in folder.glob("[!_]*")} - {"__pycache__"}
    assert len(files) == len(EVERY)
