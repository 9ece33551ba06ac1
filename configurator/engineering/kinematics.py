"""Crank, rod and piston: volumes, where the piston is, how fast it goes. Crank angles count from top dead centre."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within


def swept_volume(bore: float, stroke: float, cylinders: float) -> float:
    """The volume that all pistons sweep: n pi/4 B^2 S.

    bore and stroke in m, above 0; cylinders a number, from 1. Gives m3. Source: definition.
    """
    positive("bore", bore, "mm")
    positive("stroke", stroke, "mm")
    within("cylinders", cylinders, "", least=1.0)
    return cylinders * math.pi / 4 * bore**2 * stroke


def volume_at_top(swept: float, ratio: float) -> float:
    """The volume over the piston at top dead centre that gives a compression ratio: Vs / (r - 1).

    swept volume in m3, above 0; ratio above 1. Gives m3. Source: definition.
    """
    positive("swept", swept, "cm3")
    within("ratio", ratio, "", above=1.0)
    return swept / (ratio - 1)


def ratio_of_compression(
    bore: float,
    stroke: float,
    chamber: float,
    gasket_bore: float,
    gasket_thickness: float,
    deck_clearance: float,
    dish: float,
) -> float:
    """The compression ratio with the gasket at hand: (Vs + Vc) / Vc, Vc of chamber, gasket, deck clearance and dish.

    bore, stroke, gasket_bore in m, above 0; gasket_thickness as squeezed in m, from 0; deck_clearance in m, below 0
    where the piston stands out; chamber in m3, above 0; dish in m3, below 0 for a dome. Vc must come out above 0.
    Gives a number. Source: definition.
    """
    positive("chamber", chamber, "cm3")
    positive("gasket_bore", gasket_bore, "mm")
    not_negative("gasket_thickness", gasket_thickness, "mm")
    within("deck_clearance", deck_clearance, "mm")
    within("dish", dish, "cm3")
    swept = swept_volume(bore, stroke, 1.0)
    at_top = chamber + math.pi / 4 * (gasket_bore**2 * gasket_thickness + bore**2 * deck_clearance) + dish
    positive("volume_at_top", at_top, "cm3")
    return (swept + at_top) / at_top


def clearance_at_deck(deck_height: float, stroke: float, rod: float, compression_height: float) -> float:
    """How far the piston stays below the deck at top dead centre: deck height - stroke/2 - rod - compression height.

    all in m, above 0. Gives m; below 0 the piston stands out. Source: definition.
    """
    positive("deck_height", deck_height, "mm")
    positive("stroke", stroke, "mm")
    positive("rod", rod, "mm")
    positive("compression_height", compression_height, "mm")
    return deck_height - stroke / 2 - rod - compression_height


def mean_speed_of_piston(stroke: float, speed: float) -> float:
    """The mean speed of the piston: two strokes a turn.

    stroke in m, above 0; speed of the crank in rad/s, from 0. Gives m/s.
    Source: definition; Gupta, Fundamentals of Internal Combustion Engines, chapter 16.
    """
    positive("stroke", stroke, "mm")
    not_negative("speed", speed, "rpm")
    return stroke * speed / math.pi


def speed_at_piston_speed(mean_speed: float, stroke: float) -> float:
    """The speed of the crank at which the piston has a mean speed.

    mean_speed in m/s, from 0; stroke in m, above 0. Gives rad/s. Source: as `mean_speed_of_piston`.
    """
    not_negative("mean_speed", mean_speed, "m/s")
    positive("stroke", stroke, "mm")
    return mean_speed * math.pi / stroke


def travel_of_piston(stroke: float, rod: float, crank_angle: float) -> float:
    """How far the piston is below its top dead centre: r + l - (r cos + sqrt(l^2 - r^2 sin^2)).

    stroke in m, above 0; rod between centres in m, longer than half the stroke; crank_angle in rad. Gives m.
    Source: geometry of the slider crank, pin not offset; Heywood, Internal Combustion Engine Fundamentals, chapter 2.
    """
    crank = _crank_radius(stroke, rod, crank_angle)
    return crank + rod - crank * math.cos(crank_angle) - _rod_upright(crank, rod, crank_angle)


def speed_of_piston(stroke: float, rod: float, speed: float, crank_angle: float) -> float:
    """The speed of the piston, downwards above 0: w r sin (1 + r cos / sqrt(l^2 - r^2 sin^2)).

    stroke and rod as for `travel_of_piston`; speed of the crank in rad/s, from 0; crank_angle in rad. Gives m/s.
    Source: as `travel_of_piston`.
    """
    crank = _crank_radius(stroke, rod, crank_angle)
    not_negative("speed", speed, "rpm")
    lean = crank * math.cos(crank_angle) / _rod_upright(crank, rod, crank_angle)
    return speed * crank * math.sin(crank_angle) * (1 + lean)


def acceleration_of_piston(stroke: float, rod: float, speed: float, crank_angle: float) -> float:
    """The acceleration of the piston, downwards above 0; exact, at the top r w^2 (1 + r/l).

    stroke and rod as for `travel_of_piston`; speed of the crank in rad/s, from 0; crank_angle in rad. Gives m/s2.
    Source: second derivative of `travel_of_piston`.
    """
    crank = _crank_radius(stroke, rod, crank_angle)
    not_negative("speed", speed, "rpm")
    sine, cosine = math.sin(crank_angle), math.cos(crank_angle)
    upright = _rod_upright(crank, rod, crank_angle)
    leaning = crank * (cosine**2 - sine**2) / upright + (crank * sine * cosine) ** 2 * crank / upright**3
    return speed**2 * crank * (cosine + leaning)


def speed_in_two_terms(stroke: float, rod: float, speed: float, crank_angle: float) -> float:
    """The speed of the piston as handbooks give it: w r (sin + sin 2 r/(2 l)).

    Arguments as for `speed_of_piston`. Gives m/s, within 1 % of the greatest for rods over three crank radii. Source:
    Khurmi and Gupta, Theory of Machines, chapter 15.
    """
    crank = _crank_radius(stroke, rod, crank_angle)
    not_negative("speed", speed, "rpm")
    return speed * crank * (math.sin(crank_angle) + math.sin(2 * crank_angle) * crank / (2 * rod))


def acceleration_in_two_terms(stroke: float, rod: float, speed: float, crank_angle: float) -> float:
    """The acceleration of the piston as handbooks give it, first and second order: w^2 r (cos + cos 2 r/l).

    Arguments as for `acceleration_of_piston`. Gives m/s2, exact at the dead centres. Source: as `speed_in_two_terms`.
    """
    crank = _crank_radius(stroke, rod, crank_angle)
    not_negative("speed", speed, "rpm")
    return speed**2 * crank * (math.cos(crank_angle) + math.cos(2 * crank_angle) * crank / rod)


def dwell_at_top(stroke: float, rod: float, travel: float) -> float:
    """Through what angle of the crank, before and after the top together, the piston stays within a travel of the top.

    stroke and rod as for `travel_of_piston`; travel in m, from 0 to the stroke. Gives rad. A longer rod dwells longer.
    Source: the triangle of crank and rod, cosine rule.
    """
    crank = _crank_radius(stroke, rod, 0.0)
    within("travel", travel, "mm", least=0.0, most=stroke)
    square = travel * (2 * rod - travel) / (4 * crank * (crank + rod - travel))  # sine of half the angle, squared
    return 4 * math.asin(math.sqrt(min(1.0, square)))  # at the bottom the last digit may stand a hair above


def _crank_radius(stroke: float, rod: float, crank_angle: float) -> float:
    positive("stroke", stroke, "mm")
    within("rod", rod, "mm", above=stroke / 2)
    within("crank_angle", crank_angle, "deg")
    return stroke / 2


def _rod_upright(crank: float, rod: float, crank_angle: float) -> float:
    return math.sqrt(rod**2 - (crank * math.sin(crank_angle)) ** 2)
