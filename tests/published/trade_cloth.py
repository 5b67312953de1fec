"""Adapters for the published rows of fixtures/published/trade-cloth.json."""

from collections.abc import Callable

from worksheets.engine.amounts import parse
from worksheets.engine.outline import cut_line
from worksheets.engine.packing.exact import shortest
from worksheets.engine.packing.pieces import Rectangle, faults
from worksheets.engine.packing.rows import in_rows
from worksheets.engine.sewing import thread, yards
from worksheets.engine.skin import Ring, Skin, chord, floor_area, skin


def one_ring(inputs: dict) -> Skin:
    upper = Ring(inputs["top_radius"], inputs["height_difference"])
    return skin(inputs["columns"], [upper, Ring(inputs["bottom_radius"], 0.0)])


def chord_factor(row: dict) -> dict:
    inputs = row["inputs"]
    return {"chord": chord(inputs["circle_diameter"] / 2, inputs["divisions"])}


def facet_panel_total(row: dict) -> dict:
    found = one_ring(row["inputs"])
    base = floor_area(found.columns, found.rings[-1].radius)
    return {
        "slant": found.panels[0].slant,
        "lateral_area": found.area,
        "total_with_base": found.area + base,
    }


def facet_panel(row: dict) -> dict:
    panel = one_ring(row["inputs"]).panels[0]
    return {
        "top_width": panel.top,
        "bottom_width": panel.bottom,
        "slant": panel.slant,
        "edge": panel.edge,
        "diagonal": panel.diagonal,
        "area": panel.area,
        "panel_area": panel.area,
    }


def canopy_total(row: dict) -> dict:
    inputs = row["inputs"]
    pairs = zip(inputs["radii_m"], inputs["heights_m"], strict=True)
    found = skin(inputs["columns"], [Ring(*pair) for pair in pairs])
    return {
        "panels": found.count,
        "cloth_net_m2": found.area,
        "seam_length_columns_m": found.column_seams,
    }


def seam_offset(row: dict) -> dict:
    """The rows keep every mitre, however long."""
    polygon, allowance = row["inputs"]["polygon"], row["inputs"]["allowance"]
    return {"cut_area": cut_line(polygon, [allowance] * len(polygon), sharpest=0.0).area}


def strip_packing(row: dict) -> dict:
    """Instances are known here by their sizes: the collection and the paper label them apart."""
    inputs = row["inputs"]
    assert not inputs["rotation"]
    pieces = [Rectangle(*size) for size in inputs["rectangles"]]
    found = shortest(pieces, inputs["strip_width"])
    assert not list(faults(found, pieces))
    assert found.proven
    return {
        "optimum_height": found.length,
        "total_area": sum(piece.width * piece.height for piece in pieces),
    }


def trapezoid_rows(row: dict) -> dict:
    inputs = row["inputs"]
    sizes = (inputs["top_in"], inputs["bottom_in"], inputs["height_in"])
    found = in_rows(*sizes, inputs["panels"], inputs["bolt_in"], turned=True)
    return {
        "per_row": found.per_row,
        "rows": found.rows,
        "length_in": found.length,
        "yards": yards(parse(f"{found.length} in", "length")),
    }


def thread_needed(row: dict) -> dict:
    inputs = row["inputs"]
    seam = parse(f"{inputs['seam_cm']} cm", "length")
    length = thread(seam, 1, per_seam=inputs["thread_per_seam"], spare=inputs.get("spare", 0.0))
    return {"thread_cm": length / parse("1 cm", "length")}


ADAPTERS: dict[str, Callable[[dict], dict]] = {
    "trade:chord_factor": chord_factor,
    "trade:facet_panel_total": facet_panel_total,
    "trade:facet_limit_cone": facet_panel_total,
    "trade:facet_panel_true_lengths": facet_panel,
    "trade:facet_panel": facet_panel,
    "trade:canopy_total": canopy_total,
    "trade:seam_offset": seam_offset,
    "trade:strip_packing": strip_packing,
    "trade:trapezoid_rows": trapezoid_rows,
    "trade:thread_needed": thread_needed,
}
