"""What a formula in a rule may call: every name with its module, its arguments and their dimensions, and its result's.

A module is imported when one of its functions is first called; reading a formula needs only this table.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module
from typing import NamedTuple

from configurator.dimensions import (
    ACCELERATION,
    ANGLE,
    AREA,
    CONSUMPTION,
    DENSITY,
    DIFFERENCE,
    EXPANSION,
    FLOW,
    FORCE,
    HEATING_VALUE,
    KINEMATIC_VISCOSITY,
    LENGTH,
    MASS,
    MASS_FLOW,
    NUMBER,
    POWER,
    PRESSURE,
    SPECIFIC_HEAT,
    STIFFNESS,
    TEMPERATURE,
    TIME,
    TORQUE,
    TURNING,
    VELOCITY,
    VISCOSITY,
    VOLUME,
    Dimension,
)


class Entry(NamedTuple):
    """A function that a formula may call: where it stands, its arguments in order, and the dimension of its result."""

    module: str
    arguments: Mapping[str, Dimension]
    result: Dimension


_WARMED = {"expansion": EXPANSION, "rise": DIFFERENCE}
_THREAD = {"diameter": LENGTH, "pitch": LENGTH}
_WALL = {"pressure_gauge": PRESSURE, "inner": LENGTH, "outer": LENGTH}
_FIT = {
    "inner": LENGTH, "interface": LENGTH, "outer": LENGTH, "sleeve_modulus": PRESSURE, "sleeve_poisson": NUMBER,
    "hub_modulus": PRESSURE, "hub_poisson": NUMBER,
}  # fmt: skip
_SLIDER = {"stroke": LENGTH, "rod": LENGTH, "speed": TURNING, "crank_angle": ANGLE}
_INLET = {"inlet_absolute": PRESSURE, "inlet_temperature": TEMPERATURE, "ratio": NUMBER}
_BEARING = {
    "diameter": LENGTH, "housing_expansion": EXPANSION, "housing_rise": DIFFERENCE, "shaft_expansion": EXPANSION,
    "shaft_rise": DIFFERENCE,
}  # fmt: skip
_TWO_VISCOSITIES = {
    "first_viscosity": KINEMATIC_VISCOSITY, "first_temperature": TEMPERATURE,
    "second_viscosity": KINEMATIC_VISCOSITY, "second_temperature": TEMPERATURE,
}  # fmt: skip
_AXLE = {"added": MASS, "behind_front_axle": LENGTH, "wheelbase": LENGTH}

_ROWS: Mapping[str, Mapping[str, tuple[Mapping[str, Dimension], Dimension]]] = {
    "expansion": {
        "growth_of": ({"length": LENGTH, **_WARMED}, LENGTH),
        "growth_between": (
            {"length": LENGTH, "mean_to_first": EXPANSION, "first": TEMPERATURE, "mean_to_second": EXPANSION,
             "second": TEMPERATURE, "reference": TEMPERATURE}, LENGTH),
        "extra_growth": (
            {"length": LENGTH, "expansion": EXPANSION, "other_expansion": EXPANSION, "rise": DIFFERENCE}, LENGTH),
        "rise_for_extra_growth": (
            {"growth": LENGTH, "length": LENGTH, "expansion": EXPANSION, "other_expansion": EXPANSION}, DIFFERENCE),
        "stress_when_held": ({"modulus": PRESSURE, **_WARMED}, PRESSURE),
        "length_of_6061": ({"temperature": TEMPERATURE}, NUMBER),
        "expansion_of_6061": ({"temperature": TEMPERATURE}, EXPANSION),
    },
    "threads": {
        "stress_area": (_THREAD, AREA),
        "unified_stress_area": (_THREAD, AREA),
        "strong_stress_area": ({"least_pitch_diameter": LENGTH, "pitch": LENGTH}, AREA),
        "load_at_stress": ({"area": AREA, "stress": PRESSURE, "share": NUMBER}, FORCE),
        "shear_area": (
            {"engagement": LENGTH, "pitch": LENGTH, "least_bolt_diameter": LENGTH,
             "greatest_nut_pitch_diameter": LENGTH}, AREA),
        "metric_shear_area": ({**_THREAD, "engagement": LENGTH}, AREA),
        "strip_load": ({"area": AREA, "shear_strength": PRESSURE}, FORCE),
        "engagement_for_load": ({**_THREAD, "load": FORCE, "shear_strength": PRESSURE}, LENGTH),
        "pitch_diameter": (_THREAD, LENGTH),
        "root_diameter": (_THREAD, LENGTH),
    },
    "torque": {
        "torque_for_preload": ({"nut_factor": NUMBER, "diameter": LENGTH, "preload": FORCE}, TORQUE),
        "preload_of_torque": ({"torque": TORQUE, "nut_factor": NUMBER, "diameter": LENGTH}, FORCE),
        "nut_factor_of_friction": ({**_THREAD, "thread_friction": NUMBER, "collar_friction": NUMBER}, NUMBER),
        "preload_within_yield": ({**_THREAD, "yield_strength": PRESSURE, "thread_friction": NUMBER}, FORCE),
        "torque_of_friction": (
            {"preload": FORCE, **_THREAD, "thread_friction": NUMBER, "head_friction": NUMBER,
             "head_diameter": LENGTH}, TORQUE),
        "turn_for_preload": (
            {"preload": FORCE, "length": LENGTH, "area": AREA, "modulus": PRESSURE, "pitch": LENGTH}, ANGLE),
    },
    "preload": {
        "hot_gain_of_preload": (
            {"stud_area": AREA, "member_area": AREA, "stud_modulus": PRESSURE, "member_modulus": PRESSURE,
             "stud_expansion": EXPANSION, "member_expansion": EXPANSION, "rise": DIFFERENCE}, FORCE),
        "hot_gain_through_head": (
            {"stud_area": AREA, "stud_modulus": PRESSURE, "stud_expansion": EXPANSION,
             "head_length": LENGTH, "head_area": AREA, "head_modulus": PRESSURE, "head_expansion": EXPANSION,
             "block_length": LENGTH, "block_area": AREA, "block_modulus": PRESSURE, "block_expansion": EXPANSION,
             "rise": DIFFERENCE}, FORCE),
        "share_of_load": (
            {"diameter": LENGTH, "length": LENGTH, "modulus": PRESSURE, "member_length": LENGTH,
             "member_modulus": PRESSURE}, NUMBER),
        "stress_under_load": ({"preload": FORCE, "load_share": NUMBER, "load": FORCE, "area": AREA}, PRESSURE),
        "bolts_for_load": (
            {"load_share": NUMBER, "load": FORCE, "safety": NUMBER, "area": AREA, "proof_stress": PRESSURE,
             "preload_share": NUMBER}, NUMBER),
    },
    "cylinders": {
        "hoop_stress": ({**_WALL, "at": LENGTH}, PRESSURE),
        "radial_stress": ({**_WALL, "at": LENGTH}, PRESSURE),
        "pressure_for_hoop": ({"stress": PRESSURE, "inner": LENGTH, "outer": LENGTH}, PRESSURE),
        "bore_growth_under_pressure": ({**_WALL, "modulus": PRESSURE, "poisson": NUMBER}, LENGTH),
        "interference_for_fit": ({"fit_pressure": PRESSURE, **_FIT}, LENGTH),
        "pressure_of_fit": ({"interference": LENGTH, **_FIT}, PRESSURE),
        "interference_when_hot": (
            {"interference": LENGTH, "interface": LENGTH, "sleeve_expansion": EXPANSION, "hub_expansion": EXPANSION,
             "rise": DIFFERENCE}, LENGTH),
        "hoop_in_sleeve": ({"fit_pressure": PRESSURE, "inner": LENGTH, "interface": LENGTH}, PRESSURE),
        "force_to_press_out": (
            {"fit_pressure": PRESSURE, "interface": LENGTH, "length": LENGTH, "friction": NUMBER}, FORCE),
    },
    "kinematics": {
        "swept_volume": ({"bore": LENGTH, "stroke": LENGTH, "cylinders": NUMBER}, VOLUME),
        "volume_at_top": ({"swept": VOLUME, "ratio": NUMBER}, VOLUME),
        "ratio_of_compression": (
            {"bore": LENGTH, "stroke": LENGTH, "chamber": VOLUME, "gasket_bore": LENGTH, "gasket_thickness": LENGTH,
             "deck_clearance": LENGTH, "dish": VOLUME}, NUMBER),
        "clearance_at_deck": (
            {"deck_height": LENGTH, "stroke": LENGTH, "rod": LENGTH, "compression_height": LENGTH}, LENGTH),
        "mean_speed_of_piston": ({"stroke": LENGTH, "speed": TURNING}, VELOCITY),
        "speed_at_piston_speed": ({"mean_speed": VELOCITY, "stroke": LENGTH}, TURNING),
        "travel_of_piston": ({"stroke": LENGTH, "rod": LENGTH, "crank_angle": ANGLE}, LENGTH),
        "speed_of_piston": (_SLIDER, VELOCITY),
        "acceleration_of_piston": (_SLIDER, ACCELERATION),
        "speed_in_two_terms": (_SLIDER, VELOCITY),
        "acceleration_in_two_terms": (_SLIDER, ACCELERATION),
        "dwell_at_top": ({"stroke": LENGTH, "rod": LENGTH, "travel": LENGTH}, ANGLE),
    },
    "pressure": {
        "absolute_of_gauge": ({"pressure_gauge": PRESSURE, "ambient_absolute": PRESSURE}, PRESSURE),
        "gauge_of_absolute": ({"pressure_absolute": PRESSURE, "ambient_absolute": PRESSURE}, PRESSURE),
        "boost_over_ambient": ({"boost_gauge": PRESSURE, "ambient_absolute": PRESSURE}, NUMBER),
        "compressed_pressure": ({"inlet_absolute": PRESSURE, "ratio": NUMBER, "exponent": NUMBER}, PRESSURE),
        "compressed_temperature": (
            {"inlet_temperature": TEMPERATURE, "ratio": NUMBER, "exponent": NUMBER}, TEMPERATURE),
        "peak_at_temperature": ({**_INLET, "peak_temperature": TEMPERATURE}, PRESSURE),
        "peak_pressure_bound": (
            {**_INLET, "exponent": NUMBER, "charge_heat": HEATING_VALUE, "specific_heat": SPECIFIC_HEAT}, PRESSURE),
        "efficiency_of_cycle": ({"ratio": NUMBER, "exponent": NUMBER}, NUMBER),
        "mean_pressure_of_work": ({"work": HEATING_VALUE, "density": DENSITY, "ratio": NUMBER}, PRESSURE),
    },
    "output": {
        "power_of_torque": ({"torque": TORQUE, "speed": TURNING}, POWER),
        "mean_pressure_of_torque": ({"torque": TORQUE, "swept": VOLUME}, PRESSURE),
        "mean_pressure_of_power": ({"power": POWER, "swept": VOLUME, "speed": TURNING}, PRESSURE),
        "fuel_for_power": ({"fuel_flow": MASS_FLOW, "power": POWER}, CONSUMPTION),
        "efficiency_of_fuel": ({"consumption": CONSUMPTION, "heating_value": HEATING_VALUE}, NUMBER),
        "air_for_power": ({"power": POWER, "consumption": CONSUMPTION, "air_fuel_ratio": NUMBER}, MASS_FLOW),
        "charge_temperature": (
            {"inlet_temperature": TEMPERATURE, "pressure_ratio": NUMBER, "efficiency": NUMBER, "exponent": NUMBER},
            TEMPERATURE),
        "power_of_compressor": (
            {"air_flow": MASS_FLOW, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE,
             "mechanical_efficiency": NUMBER}, POWER),
        "filling_of_cylinders": ({"air_flow": MASS_FLOW, "density": DENSITY, "swept_flow": FLOW}, NUMBER),
    },
    "sealing": {
        "gas_load": ({"pressure_gauge": PRESSURE, "seal_diameter": LENGTH}, FORCE),
        "clamp_over_gas": ({"studs": NUMBER, "preload": FORCE, "lifting": FORCE}, NUMBER),
        "load_of_cover_bolts": (
            {"bolts": NUMBER, "preload": FORCE, "bolt_stiffness": STIFFNESS, "flange_stiffness": STIFFNESS,
             "lifting": FORCE}, FORCE),
        "seating_width": ({"contact_width": LENGTH}, LENGTH),
        "seating_diameter": ({"outer": LENGTH, "contact_width": LENGTH}, LENGTH),
        "load_to_seat": ({"width": LENGTH, "diameter": LENGTH, "seating_stress": PRESSURE}, FORCE),
        "load_to_hold": (
            {"width": LENGTH, "diameter": LENGTH, "factor": NUMBER, "pressure_gauge": PRESSURE}, FORCE),
        "squeeze_of_ring": ({"section": LENGTH, "gland_depth": LENGTH}, NUMBER),
        "proud_through_gasket": (
            {"ring_height": LENGTH, "groove_depth": LENGTH, "gasket_thickness": LENGTH}, LENGTH),
        "proud_under_gasket": ({"wire": LENGTH, "groove_depth": LENGTH}, LENGTH),
    },
    "bearings": {
        "clearance_when_hot": ({"cold_clearance": LENGTH, **_BEARING}, LENGTH),
        "clearance_when_cold": ({"hot_clearance": LENGTH, **_BEARING}, LENGTH),
        "rise_to_clearance": (
            {"cold_clearance": LENGTH, "wanted_clearance": LENGTH, "diameter": LENGTH, "housing_expansion": EXPANSION,
             "shaft_expansion": EXPANSION}, DIFFERENCE),
        "usual_clearance": ({"diameter": LENGTH}, LENGTH),
        "load_over_area": ({"load": FORCE, "diameter": LENGTH, "length": LENGTH}, PRESSURE),
        "friction_without_load": (
            {"viscosity": VISCOSITY, "diameter": LENGTH, "length": LENGTH, "speed": TURNING, "clearance": LENGTH},
            FORCE),
        "torque_of_force": ({"force": FORCE, "diameter": LENGTH}, TORQUE),
        "bearing_number": (
            {"viscosity": VISCOSITY, "speed": TURNING, "diameter": LENGTH, "clearance": LENGTH,
             "unit_load": PRESSURE}, NUMBER),
        "viscosity_for_number": (
            {"number": NUMBER, "speed": TURNING, "diameter": LENGTH, "clearance": LENGTH, "unit_load": PRESSURE},
            VISCOSITY),
    },
    "oil": {
        "orifice_flow": (
            {"diameter": LENGTH, "pressure_drop": PRESSURE, "density": DENSITY, "coefficient": NUMBER}, FLOW),
        "share_of_pump": ({"jets": NUMBER, "jet_flow": FLOW, "pump_flow": FLOW}, NUMBER),
        "slope_of_viscosity": (_TWO_VISCOSITIES, NUMBER),
        "viscosity_at": ({"temperature": TEMPERATURE, **_TWO_VISCOSITIES}, KINEMATIC_VISCOSITY),
    },
    "cooling": {
        "heat_to_water": ({"power": POWER, "efficiency": NUMBER, "share": NUMBER}, POWER),
        "mass_flow_for_heat": ({"heat": POWER, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE}, MASS_FLOW),
        "flow_for_heat": (
            {"heat": POWER, "density": DENSITY, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE}, FLOW),
        "rise_of_coolant": (
            {"heat": POWER, "flow": FLOW, "density": DENSITY, "specific_heat": SPECIFIC_HEAT}, DIFFERENCE),
        "heat_of_flow": ({"mass_flow": MASS_FLOW, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE}, POWER),
        "speed_in_lines": ({"flow": FLOW, "line_bore": LENGTH, "lines": NUMBER}, VELOCITY),
        "time_to_heat": (
            {"mass": MASS, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE, "heat": POWER}, TIME),
        "mass_for_time": (
            {"time": TIME, "heat": POWER, "specific_heat": SPECIFIC_HEAT, "rise": DIFFERENCE}, MASS),
    },
    "mass": {
        "mass_of_volume": ({"volume": VOLUME, "density": DENSITY}, MASS),
        "mass_of_chips": (
            {"stock_length": LENGTH, "stock_width": LENGTH, "stock_height": LENGTH, "density": DENSITY, "left": MASS},
            MASS),
        "front_load_of_mass": (_AXLE, MASS),
        "front_share_after": ({"vehicle": MASS, "front_share": NUMBER, **_AXLE}, NUMBER),
    },
    "timing": {
        "belt_length": (
            {"centre_distance": LENGTH, "crank_teeth": NUMBER, "cam_teeth": NUMBER, "pitch": LENGTH}, LENGTH),
        "path_added_by_deck": ({"deck_rise": LENGTH}, LENGTH),
        "cam_lag_of_deck": ({"deck_rise": LENGTH, "cam_teeth": NUMBER, "pitch": LENGTH}, ANGLE),
    },
    "banks": {
        "spread_of_banks": ({"deck_rise": LENGTH, "half_angle": ANGLE}, LENGTH),
        "height_of_banks": ({"deck_rise": LENGTH, "half_angle": ANGLE}, LENGTH),
    },
}  # fmt: skip

ENTRIES: Mapping[str, Entry] = {
    name: Entry(module, arguments, result)
    for module, rows in _ROWS.items()
    for name, (arguments, result) in rows.items()
}
"""Every function that a formula may call, by its name; a shop may call nothing else so."""


@cache
def find_work(name: str) -> Callable[..., float]:
    """The function itself, on SI floats; its module is imported now. KeyError for a name that is not in ENTRIES."""
    work: Callable[..., float] = getattr(import_module(f"configurator.engineering.{ENTRIES[name].module}"), name)
    return work
