"""Adapters for the published rows of fixtures/published/trade-loads.json."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from worksheets.engine import anchors, lifting, wind
from worksheets.engine.dimensions import FOOT, INCH, MILE, POUND, POUND_FORCE
from worksheets.engine.rules import rule_set

Row = dict[str, Any]
MPH, PSF, MM = MILE / 3600, POUND_FORCE / FOOT**2, 1e-3
KIP_FOOT, KN, KPA, MPA = 1000 * POUND_FORCE * FOOT, 1000.0, 1000.0, 1e6
ASCE = rule_set("wind", "asce-7-16").values
EN = rule_set("wind", "en-1991-1-4").values
LIFTING = rule_set("lifting", "niosh-1994").values


def kz(row: Row) -> Row:
    given = row["inputs"]
    return {"Kz": wind.exposure_coefficient(given["z_ft"] * FOOT, given["exposure"], ASCE)}


def asce_pressure(row: Row) -> Row:
    given = row["inputs"]
    share = given["Kz"] * given["Kzt"] * given["Kd"]
    pressure = wind.velocity_pressure(given["V_mph"] * MPH, share, ASCE["half_density"])
    return {"qz_psf": pressure / PSF}


def asce_sign(row: Row) -> Row:
    given = row["inputs"]
    found = kz(row) | asce_pressure({"inputs": given | kz(row)})
    force = found["qz_psf"] * PSF * given["G"] * given["Cf"] * given["area_ft2"] * FOOT**2
    pounds = force / POUND_FORCE
    return found | {"force_lbf": pounds, "asd_force_lbf": pounds * ASCE["service"]}


def en_signboard(row: Row) -> Row:
    given = row["inputs"]
    code = dict(EN) | {"density": given["rho_kg_m3"], "turbulence": given["kI"]}
    found = wind.gusts(given["vb_m_s"], given["z_m"], given["z0_m"], code, hills=given["co"])
    return {
        "kr": found.roughness,
        "cr": found.terrain,
        "Iv": found.turbulence,
        "vm_m_s": found.mean,
        "qb_kPa": found.basic / KPA,
        "qp_kPa": found.peak / KPA,
        "Fw_kN": found.peak * given["cf"] * given["area_m2"] / KN,
    }


def faces(given: Row) -> list[wind.Face]:
    pairs = zip(given["areas_ft2"], given["heights_ft"], strict=True)
    return [wind.Face(area=area * FOOT**2, centre=height * FOOT) for area, height in pairs]


def overturning(row: Row) -> Row:
    given = row["inputs"]
    moment = wind.overturning(given["pressure_psf"] * PSF, faces(given))
    return {"overturning_kip_ft": moment / KIP_FOOT}


def overturning_stability(row: Row) -> Row:
    given = row["inputs"]
    pressure, moved = given["pressure_psf"] * PSF, faces(given)
    found = wind.stability(
        force=pressure * sum(face.area for face in moved),
        moment=wind.overturning(pressure, moved),
        weight=given["total_weight_lb"] * POUND_FORCE,
        width=given["base_width_ft"] * FOOT,
        length=given["base_length_ft"] * FOOT,
        friction=1.0,
    )
    return {
        "overturning_kip_ft": found.overturning / KIP_FOOT,
        "eccentricity_ft": found.eccentricity / FOOT,
        "toe_pressure_psf": found.toe / PSF,
        "resisting_kip_ft": found.resisting / KIP_FOOT,
        "resisting_over_sf_kip_ft": found.resisting / given["safety_factor"] / KIP_FOOT,
        "ok": found.by_overturning >= given["safety_factor"],
    }


def free_standing(row: Row) -> Row:
    given = row["inputs"]
    gravity, width, force = given["g_m_s2"], given["base_width_m"], given["force_N"]
    moment = force * given["arm_m"]
    found = wind.stability(
        force=force, moment=moment, weight=given["mass_kg"] * gravity, width=width, length=width,
        friction=given["friction"],
    )  # fmt: skip
    answer = {
        "overturning_Nm": found.overturning,
        "restoring_Nm": found.resisting,
        "sf_overturning": found.by_overturning,
        "sf_sliding": found.by_sliding,
    }
    for key in row["expected"]:
        if key.startswith("ballast_kg_for_sf_"):
            factor = float(key.removeprefix("ballast_kg_for_sf_").replace("_", "."))
            needed = wind.weight_for_overturning(moment, width, factor)
            answer[key] = needed / gravity - given["mass_kg"]
    return answer


def embedment(row: Row) -> Row:
    given = row["inputs"]
    a, depth = wind.embedment(
        given["lateral_lb"] * POUND_FORCE, given["height_ft"] * FOOT, given["S1_psf"] * PSF,
        given["width_ft"] * FOOT, coefficient=ASCE["post_coefficient"], lever=ASCE["post_arm"],
    )  # fmt: skip
    return {"A_ft": a / FOOT, "depth_ft": depth / FOOT}


def footing(row: Row) -> Row:
    given = row["inputs"]
    density = given["concrete_pcf"] * POUND / FOOT**3
    mass = wind.round_weight(given["diameter_ft"] * FOOT, given["depth_ft"] * FOOT, density)
    return {"weight_lb": mass / POUND}


def porous(row: Row) -> Row:
    return {"factor": wind.solid_share(row["inputs"]["solidity"])}


def pressure_units(row: Row) -> Row:
    pressure = wind.velocity_pressure(row["inputs"]["V_mph"] * MPH, 1.0, ASCE["half_density"])
    return {"q_psf": pressure / PSF, "q_Pa": pressure}


def drag(row: Row) -> Row:
    given = row["inputs"]
    speed, air = given["V_m_s"], given["rho_kg_m3"]
    return {
        "q_Pa": wind.drag(1.0, 1.0, speed, air),
        "force_N": wind.drag(given["Cd"], given["area_m2"], speed, air),
    }


def bolt_group(row: Row) -> Row:
    given = row["inputs"]
    bolts = [(x * MM, y * MM) for x, y in given["bolts_mm"]]
    at = (given["load_x_mm"] * MM, given["load_y_mm"] * MM)
    forces = [
        math.hypot(*force) for force in anchors.in_plane(bolts, (given["Px_N"], given["Py_N"]), at)
    ]
    return {"max_N": max(forces), "min_N": min(forces)}


def vector_sum(row: Row) -> Row:
    given = row["inputs"]
    return {
        "resultant_N": anchors.added(
            given["direct_N"], given["torsional_N"], given["cos_angle"]
        )
    }  # fmt: skip


def bracket(row: Row) -> Row:
    """Half of the bolts stand at each height, as the example’s two rows."""
    given = row["inputs"]
    half = given["bolts"] // 2
    heights = [given["l1_mm"] * MM] * half + [given["l2_mm"] * MM] * (given["bolts"] - half)
    pull = max(anchors.tension(heights, given["P_N"] * given["ecc_mm"] * MM))
    shear = given["P_N"] / given["bolts"]
    area = anchors.core_area(pull, shear, given["allow_tension_MPa"] * MPA)
    return {"tension_N": pull, "shear_N": shear, "core_area_mm2": area / MM**2}


def interaction(row: Row) -> Row:
    shares = row["inputs"]["tension_ratio"], row["inputs"]["shear_ratio"]
    linear = anchors.interaction(*shares, rule_set("anchors", "linear").values)
    power = anchors.interaction(*shares, rule_set("anchors", "power").values)
    return {
        "linear_sum": linear.total,
        "power_5_3_sum": power.total,
        "linear_ok": linear.within,
        "power_ok": power.within,
    }


def niosh(row: Row) -> Row:
    given = row["inputs"]
    found = lifting.limit(
        reach=given["H_in"] * INCH,
        height=given["V_in"] * INCH,
        travel=given["D_in"] * INCH,
        turn=given["A_deg"],
        frequency=given["FM"],
        grip=given["coupling"],
        rules=LIFTING,
    )
    return {
        "HM": found.reach, "VM": found.height, "DM": found.travel, "AM": found.turn,
        "CM": found.coupling, "RWL_lb": found.mass / POUND,
    }  # fmt: skip


def lifting_index(row: Row) -> Row:
    given = row["inputs"]
    return {"LI": lifting.index(given["load_lb"] * POUND, given["RWL_lb"] * POUND)}


def rollup(row: Row) -> Row:
    names = row["inputs"]["columns"]
    rows = [dict(zip(names, part, strict=True)) for part in row["inputs"]["parts"]]
    pieces = [
        lifting.Piece(
            name=part["name"], count=part["qty"], each=part["kg_each"],
            at=(part["x_m"], part.get("y_m", 0), part["z_m"]),
        )
        for part in rows
    ]  # fmt: skip
    x, y, z = lifting.centre(pieces)
    return {"total_kg": lifting.total_mass(pieces), "cg_x_m": x, "cg_y_m": y, "cg_z_m": z}


ADAPTERS: dict[str, Callable[[dict], dict]] = {
    "trade:Kz": kz,
    "trade:velocity_pressure_asce": asce_pressure,
    "trade:wind_sign_asce": asce_sign,
    "trade:wind_signboard_en": en_signboard,
    "trade:overturning": overturning,
    "trade:overturning_stability": overturning_stability,
    "trade:sliding_overturning_free_standing": free_standing,
    "trade:post_embedment": embedment,
    "trade:footing_weight": footing,
    "trade:porous_reduction": porous,
    "trade:velocity_pressure_units": pressure_units,
    "trade:drag_force": drag,
    "trade:bolt_group_in_plane": bolt_group,
    "trade:vector_sum": vector_sum,
    "trade:bracket_tension": bracket,
    "trade:anchor_interaction": interaction,
    "trade:niosh_rwl": niosh,
    "trade:lifting_index": lifting_index,
    "trade:mass_rollup": rollup,
}
