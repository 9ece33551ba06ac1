"""The head joint: gas load against clamp load, rings proud of the gasket, and the flange code as a reference."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from configurator.engineering.bounds import not_negative, positive, within

PSI = 4.4482216152605 / 0.0254**2


class Gasket(NamedTuple):
    """The factors of a flange gasket: m, and the least stress y in Pa that seats it."""

    factor: float
    seating_stress: float


GASKETS: Mapping[str, Gasket] = {
    "flat soft copper or brass": Gasket(4.75, 13_000 * PSI),
    "flat stainless": Gasket(6.5, 26_000 * PSI),
    "corrugated soft copper or brass": Gasket(3.0, 4_500 * PSI),
    "corrugated stainless": Gasket(3.75, 7_600 * PSI),
    "flat soft aluminium": Gasket(4.0, 8_800 * PSI),
    "spiral wound stainless": Gasket(3.0, 10_000 * PSI),
}
"""Published: ASME Boiler and Pressure Vessel Code VIII-1, appendix 2, table 2-5.1. Flanges, not head gaskets."""


def gas_load(pressure_gauge: float, seal_diameter: float) -> float:
    """The force with which the gas lifts the head off one cylinder: p pi/4 d^2.

    pressure_gauge, the peak over the air outside, in Pa, from 0; seal_diameter, where the gasket seals, in m, above 0.
    Gives N. Source: definition of pressure.
    """
    not_negative("pressure_gauge", pressure_gauge, "bar")
    positive("seal_diameter", seal_diameter, "mm")
    return pressure_gauge * math.pi / 4 * seal_diameter**2


def clamp_over_gas(studs: float, preload: float, lifting: float) -> float:
    """The clamp load of the studs that act on one cylinder over the gas load: n F / P.

    studs a number, above 0 (a stud between two cylinders acts on each with half); preload of one in N, from 0; lifting
    force in N, above 0 (see `gas_load`). Gives a number, nominal: scatter of the preload is a band about it. Source:
    definition; what ratio is enough is common practice, no source.
    """
    positive("studs", studs, "")
    not_negative("preload", preload, "N")
    positive("lifting", lifting, "N")
    return studs * preload / lifting


def load_of_cover_bolts(
    bolts: float, preload: float, bolt_stiffness: float, flange_stiffness: float, lifting: float
) -> float:
    """The load of all bolts of a cover under pressure: n F + n kb / (n kb + kf) P.

    bolts a number, from 1; preload of one in N, from 0; stiffness of one bolt and of the flange in N/m, above 0;
    lifting force in N, from 0. Gives N, while the joint stays closed. Source: Wentzell, Machine Design, chapter 6.
    """
    within("bolts", bolts, "", least=1.0)
    not_negative("preload", preload, "N")
    positive("bolt_stiffness", bolt_stiffness, "N/mm")
    positive("flange_stiffness", flange_stiffness, "N/mm")
    not_negative("lifting", lifting, "N")
    held = bolts * bolt_stiffness / (bolts * bolt_stiffness + flange_stiffness)
    return bolts * preload + held * lifting


def seating_width(contact_width: float) -> float:
    """The effective width b of a flat flange gasket: b0 = N/2, and beyond a quarter inch sqrt(b0)/2, in inches.

    contact_width N in m, above 0. Gives m. Source: ASME Boiler and Pressure Vessel Code VIII-1, appendix 2.
    """
    positive("contact_width", contact_width, "mm")
    basic, inch = contact_width / 2, 0.0254
    return basic if basic <= 0.25 * inch else math.sqrt(basic / inch) / 2 * inch


def seating_diameter(outer: float, contact_width: float) -> float:
    """The diameter G at which a flat flange gasket is taken to act: the middle of a narrow face, or outer - 2 b.

    outer diameter of the contact and contact_width N in m, above 0, the width below half the diameter. Gives m. Source:
    as `seating_width`.
    """
    positive("outer", outer, "mm")
    within("contact_width", contact_width, "mm", above=0.0, below=outer / 2)
    return outer - 2 * seating_width(contact_width)


def load_to_seat(width: float, diameter: float, seating_stress: float) -> float:
    """The bolt load that seats a flange gasket: pi b G y.

    effective width b and diameter G in m, above 0; seating_stress y in Pa, from 0 (see GASKETS). Gives N. Source: as
    `seating_width`.
    """
    positive("width", width, "mm")
    positive("diameter", diameter, "mm")
    not_negative("seating_stress", seating_stress, "MPa")
    return math.pi * width * diameter * seating_stress


def load_to_hold(width: float, diameter: float, factor: float, pressure_gauge: float) -> float:
    """The bolt load that a flange gasket wants under pressure: pi/4 G^2 p + 2 b pi G m p.

    effective width b and diameter G in m, above 0; factor m from 0 (see GASKETS); pressure_gauge in Pa, from 0. Gives
    N. As a clamp load for a head it is very conservative: a reference, no target. Source: as `seating_width`.
    """
    positive("width", width, "mm")
    positive("diameter", diameter, "mm")
    not_negative("factor", factor, "")
    return gas_load(pressure_gauge, diameter) + 2 * width * math.pi * diameter * factor * pressure_gauge


def squeeze_of_ring(section: float, gland_depth: float) -> float:
    """The share by which an O-ring is squeezed: (w - depth) / w.

    section w and gland_depth in m, above 0; the depth up to the section. Gives a number. Source: definition; sections
    of ISO 3601.
    """
    positive("section", section, "mm")
    within("gland_depth", gland_depth, "mm", above=0.0, most=section)
    return (section - gland_depth) / section


def proud_through_gasket(ring_height: float, groove_depth: float, gasket_thickness: float) -> float:
    """How far a ring that stands through the gasket's bore is proud of the gasket: ring - groove - gasket.

    ring_height and gasket_thickness in m, above 0; groove_depth in m, from 0. Gives m; below 0 the ring does not touch
    the head. Another design than `proud_under_gasket`. Source: definition.
    """
    positive("ring_height", ring_height, "mm")
    not_negative("groove_depth", groove_depth, "mm")
    positive("gasket_thickness", gasket_thickness, "mm")
    return ring_height - groove_depth - gasket_thickness


def proud_under_gasket(wire: float, groove_depth: float) -> float:
    """How far a wire that lies under the gasket is proud of its deck: wire - groove.

    wire diameter in m, above 0; groove_depth in m, from 0. Gives m. Another design than `proud_through_gasket`. Source:
    definition; what height is right is common practice, no published standard.
    """
    positive("wire", wire, "mm")
    not_negative("groove_depth", groove_depth, "mm")
    return wire - groove_depth
