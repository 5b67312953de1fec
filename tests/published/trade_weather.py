"""Adapters for the published rows of fixtures/published/trade-weather.json."""

from collections.abc import Callable
from datetime import date, datetime, timedelta, timezone
from typing import Any

from worksheets.engine import air, sun, water
from worksheets.engine.amounts import parse
from worksheets.engine.dimensions import DIMENSIONS, FOOT, GALLON, INCH, System
from worksheets.engine.paintable import Limits, in_window
from worksheets.engine.readings import Reading
from worksheets.engine.rules import rule_set

Row = dict[str, Any]


def celsius(fahrenheit: float) -> float:
    return parse(f"{fahrenheit!r} °F", "temperature")


def warmth(fahrenheit: float) -> float:
    return parse(f"{fahrenheit!r} °F", "warmth")


def fahrenheit(value: float) -> float:
    unit = DIMENSIONS["temperature"].unit(System.US)
    return value / unit.factor - unit.shift


def percent(value: float) -> float:
    return parse(f"{value!r} %", "fraction")


def dew_point_f(row: Row) -> Row:
    given = row["inputs"]
    return {"dew_F": fahrenheit(air.dew_point(celsius(given["air_F"]), percent(given["rh_pct"])))}


def dew_point_c(row: Row) -> Row:
    return {"dew_C": air.dew_point(row["inputs"]["air_C"], percent(row["inputs"]["rh_pct"]))}


def saturation_pressure(row: Row) -> Row:
    return {"es_Pa": air.saturation_pressure(row["inputs"]["T_C"])}


def dew_point_from_wet_bulb(row: Row) -> Row:
    given = row["inputs"]
    dry = given["dry_bulb_C"]
    found = air.humidity_from_wet_bulb(dry, given["wet_bulb_C"], given["pressure_Pa"])
    return {"rh_pct": found / percent(1), "dew_C": air.dew_point(dry, found)}


def min_surface_temperature(row: Row) -> Row:
    given = row["inputs"]
    warm, damp = celsius(given["air_F"]), percent(given["rh_pct"])
    return {"min_surface_F": fahrenheit(air.least_surface(warm, damp, warmth(given["spread_F"])))}


def paint_window(row: Row) -> Row:
    given, told = row["inputs"], rule_set("paint-hours", "us-steel").values
    ends = (celsius(given["min_F"]), celsius(given["max_F"]))
    limits = Limits(spread=told["spread"], humidity=told["humidity"], surface=ends, air=ends)
    reading = Reading(
        at=datetime(2031, 6, 14, 12),
        air=celsius(given["air_F"]),
        humidity=percent(given["rh_pct"]),
        surface=celsius(given["surface_F"]),
        wet=False,
    )
    return {"ok": not in_window(reading, limits)}


def minutes(moment: datetime | None, given: Row) -> float:
    """After midnight of the row's day, by its own clock."""
    assert moment is not None
    zone = timezone(timedelta(hours=given["utc_offset_h"]))
    midnight = datetime.combine(date.fromisoformat(given["date"]), datetime.min.time(), zone)
    return (moment - midnight) / timedelta(minutes=1)


def place(given: Row) -> sun.Place:
    return sun.Place(given["lat_deg"], given["lon_deg"])


def sun_events(row: Row) -> Row:
    given = row["inputs"]
    found = sun.events(date.fromisoformat(given["date"]), place(given))
    told = {"rise_min": found.rise, "noon_min": found.noon, "set_min": found.set}
    return {key: minutes(moment, given) for key, moment in told.items()}


def civil_dawn(row: Row) -> Row:
    given = row["inputs"]
    day = date.fromisoformat(given["date"])
    found = sun.crossings(day, place(given), given["zenith_deg"])
    return {
        key: minutes(moment, given)
        for key, moment in zip(("rise_min", "set_min"), found, strict=True)
    }


def incidence_angle(row: Row) -> Row:
    given = row["inputs"]
    angle = sun.incidence(
        given["lat_deg"],
        given["declination_deg"],
        given["hour_angle_deg"],
        given["tilt_deg"],
        given["surface_azimuth_deg_west_of_south"],
    )
    return {"incidence_deg": angle}


def sun_position(row: Row) -> Row:
    given = row["inputs"]
    found = sun.position(given["lat_deg"], given["declination_deg"], given["hour_angle_deg"])
    return {"zenith_deg": found[0], "azimuth_deg_west_of_south": found[1]}


def wall_sun_hours(row: Row) -> Row:
    given = row["inputs"]
    wall = sun.Wall(bearing=180 + given["wall_azimuth_deg_west_of_south"])
    return {"hours": sun.wall_hours(given["lat_deg"], given["declination_deg"], wall)}


def light_class(row: Row) -> Row:
    told = rule_set("light", "garden").values
    hours = row["inputs"]["direct_sun_h"]
    return {"light_class": sun.light_class(hours, told["full"], told["part"])}


def extraterrestrial_radiation(row: Row) -> Row:
    given = row["inputs"]["lat_deg"], row["inputs"]["day_of_year"]
    return {
        "Ra_MJ_m2_day": water.extraterrestrial(*given),
        "daylight_h": water.daylight(*given),
    }


def et0_penman_monteith(row: Row) -> Row:
    given = row["inputs"]
    weather = water.Weather(
        high=given["tmax_C"],
        low=given["tmin_C"],
        damp_most=percent(given["rhmax_pct"]),
        damp_least=percent(given["rhmin_pct"]),
        wind=given["u2_m_s"],
        sunshine=given["sunshine_h"],
        elevation=given["elevation_m"],
    )
    where = given["lat_deg"], given["day_of_year"]
    return {
        "et0_mm_day": water.penman_monteith(weather, *where),
        "Ra_MJ_m2_day": water.extraterrestrial(*where),
        "Rn_MJ_m2_day": water.net_radiation(weather, *where),
    }


def et0_hargreaves(row: Row) -> Row:
    given = row["inputs"]
    ends = given["tmax_C"], given["tmin_C"]
    return {"et0_mm_day": water.hargreaves(*ends, given["lat_deg"], given["day_of_year"])}


def vapour_pressure(row: Row) -> Row:
    high, low = row["inputs"]["tmax_C"], row["inputs"]["tmin_C"]
    return {
        "es_tmax_kPa": water.vapour_pressure(high),
        "es_tmin_kPa": water.vapour_pressure(low),
        "es_mean_kPa": water.mean_vapour_pressure(high, low),
    }


def air_pressure(row: Row) -> Row:
    return {"P_kPa": water.air_pressure(row["inputs"]["elevation_m"])}


def wind_to_2m(row: Row) -> Row:
    given = row["inputs"]
    return {"u2_m_s": water.wind_at_two_metres(given["wind_m_s"], given["height_m"])}


def rs_from_temperature(row: Row) -> Row:
    given = row["inputs"]
    ends = given["tmax_C"], given["tmin_C"]
    found = water.radiation_from_temperature(given["Ra_MJ_m2_day"], *ends, given["k_rs"])
    return {"Rs_MJ_m2_day": found}


def landscape_water_use(row: Row) -> Row:
    given = row["inputs"]
    found = water.used(
        given["et0_in_year"],
        given["plant_factor"],
        given["area_ft2"],
        given["irrigation_efficiency"],
        per=given["factor"],
    )
    return {"gal_year": found}


def water_allowance(row: Row) -> Row:
    """A row that says its filing slipped is reckoned with the slip, to meet what was printed."""
    given = row["inputs"]
    found = water.allowance(
        given["et0_in_year"],
        given["etaf"],
        given["area_ft2"],
        given.get("special_area_ft2", 0),
        special_share=given["etaf"] if "slip" in row.get("note", "") else None,
        per=given["factor"],
    )
    return {"gal_year": found}


def gallons_per_week(row: Row) -> Row:
    given = row["inputs"]
    factor = INCH * FOOT**2 / GALLON
    found = water.used(
        given["et0_in_week"],
        given["plant_factor"],
        given["area_ft2"],
        given["irrigation_efficiency"],
        per=factor,
    )
    return {"gal_week": found, "factor": factor}


def planter_week(row: Row) -> Row:
    given = row["inputs"]
    planting = water.Planting(
        area=given["canopy_area_m2"],
        factor=given["crop_coefficient"],
        rain_share=given["rain_effective_frac"],
        efficiency=given["distribution_efficiency"],
    )
    litres = water.week_litres(planting, given["et0_mm_day"], given["rain_mm_week"])
    return {"need_L_week": litres, "cans": water.cans(litres, given["can_L"])}


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    "trade:dew_point_F": dew_point_f,
    "trade:dew_point_C": dew_point_c,
    "trade:saturation_pressure": saturation_pressure,
    "trade:dew_point_from_wet_bulb": dew_point_from_wet_bulb,
    "trade:min_surface_temperature": min_surface_temperature,
    "trade:paint_window": paint_window,
    "trade:sun_events": sun_events,
    "trade:civil_dawn": civil_dawn,
    "trade:incidence_angle": incidence_angle,
    "trade:sun_position": sun_position,
    "trade:wall_sun_hours_geometric": wall_sun_hours,
    "trade:light_class": light_class,
    "trade:extraterrestrial_radiation": extraterrestrial_radiation,
    "trade:et0_penman_monteith": et0_penman_monteith,
    "trade:et0_hargreaves": et0_hargreaves,
    "trade:vapour_pressure": vapour_pressure,
    "trade:air_pressure": air_pressure,
    "trade:wind_to_2m": wind_to_2m,
    "trade:rs_from_temperature": rs_from_temperature,
    "trade:landscape_water_use": landscape_water_use,
    "trade:water_allowance": water_allowance,
    "trade:gallons_per_week": gallons_per_week,
    "trade:planter_week": planter_week,
}
