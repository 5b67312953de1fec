"""Adapters for the published rows of fixtures/published/trade-power.json."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from worksheets.engine import lights, pump
from worksheets.engine.dimensions import DIMENSIONS, FOOT, INCH, Unit

Row = dict[str, Any]
HUNDRED_FEET = 100 * FOOT
LIMITS = pump.Limits()


def unit(of: str, symbol: str) -> float:
    found: Unit | None = DIMENSIONS[of].named(symbol)
    assert found is not None
    return found.factor


def hazen_williams(given: Row) -> Row:
    flow = given["flow_gpm"] * unit("flow", "gal/min")
    bore = given["inside_diameter_in"] * INCH
    head = pump.hazen_williams_checked(flow, bore, HUNDRED_FEET, given["C"], LIMITS)
    return {"loss_ft_per_100ft": head / FOOT}


def darcy_weisbach(given: Row) -> Row:
    water = pump.Water(density=given["rho_kg_m3"], viscosity=given["mu_Pa_s"])
    flow = given["flow_m3_s"]
    found = pump.darcy_weisbach(
        flow, given["diameter_m"], given["length_m"], given["roughness_m"], water
    )
    return {
        "velocity_m_s": found.velocity,
        "reynolds": found.reynolds,
        "friction_factor": found.factor,
        "dp_kPa": found.pressure / unit("pressure", "kPa"),
        "head_m": found.head,
        "power_W": pump.power(flow, found.head, water.density),
    }


def total_dynamic_head(given: Row) -> Row:
    lift, friction, outlet = (
        given[name] * FOOT for name in ("static_lift_ft", "friction_ft", "pressure_head_ft")
    )
    return {"tdh_ft": pump.total_dynamic_head(lift, friction, outlet) / FOOT}


def head_pressure(given: Row) -> Row:
    return {"psi": pump.pressure_of(given["head_ft"] * FOOT) / unit("pressure", "psi")}


def siphon_limit(given: Row) -> Row:
    return {"max_lift_m": pump.siphon_crest(pump.air_pressure(given["altitude_m"]))}


def siphon_limit_us(given: Row) -> Row:
    pressure = given["pressure_psia"] * unit("pressure", "psi")
    return {"max_lift_ft": pump.siphon_crest(pressure) / FOOT}


def dropped(found: lights.Drop) -> Row:
    return {"drop_V": found.volts, "drop_pct": found.share / unit("fraction", "%")}


def voltage_drop(given: Row) -> Row:
    resistance = given["ohm_per_kft"] * unit("line_resistance", "ohm/kft")
    one_way = given["one_way_ft"] * FOOT
    return dropped(lights.drop(given["current_A"], one_way, resistance, given["supply_V"]))


def voltage_drop_resistivity(given: Row) -> Row:
    square = unit("area", "mm²")
    area = given["area_mm2"] * square
    resistance = lights.resistance_of(area, given["resistivity_ohm_mm2_m"] * square)
    return dropped(
        lights.drop(given["current_A"], given["one_way_m"], resistance, given["supply_V"])
    )


def load_energy(given: Row) -> Row:
    loads = [tuple(pair) for pair in given["loads_W_h"]]
    return {
        "wh_day": lights.energy(loads),
        "wh_day_with_losses": lights.energy(loads, given["loss_factor"]),
    }


def battery(given: Row) -> Row:
    need = given["wh_day"] if "wh_day" in given else given["kwh_day"] * kilo()
    efficiency = given.get("inverter_eff", 1) * given.get("cable_eff", 1)
    found = lights.battery(
        need, given["days"], given["depth_of_discharge"], given["system_V"], efficiency
    )
    return {"battery_Ah": found.charge, "battery_kwh": found.room / kilo()}


def kilo() -> float:
    return unit("energy", "kWh") / unit("energy", "Wh")


def pv_array(given: Row) -> Row:
    found = lights.array(given["wh_day"], given["peak_sun_h"], given["system_efficiency"])
    return {"array_W": found}


FOUND: dict[str, Callable[[Row], Row]] = {
    "hazen_williams": hazen_williams,
    "darcy_weisbach": darcy_weisbach,
    "total_dynamic_head": total_dynamic_head,
    "head_pressure": head_pressure,
    "siphon_limit": siphon_limit,
    "siphon_limit_us": siphon_limit_us,
    "voltage_drop": voltage_drop,
    "voltage_drop_resistivity": voltage_drop_resistivity,
    "load_energy": load_energy,
    "battery_autonomy": battery,
    "battery_autonomy_efficiency": battery,
    "pv_array": pv_array,
}


def answering(find: Callable[[Row], Row]) -> Callable[[Row], Row]:
    return lambda row: find(row["inputs"])


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"trade:{name}": answering(find) for name, find in FOUND.items()
}
