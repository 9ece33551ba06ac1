"""The belt to the camshaft when the deck rises: how much longer its path is, and how late the cam is."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within


def belt_length(centre_distance: float, crank_teeth: float, cam_teeth: float, pitch: float) -> float:
    """The length of a belt round two pulleys, pulled tight: two straight runs and what lies on the pulleys.

    2 sqrt(C^2 - (R - r)^2) + pi (R + r) + 2 (R - r) asin((R - r) / C), R and r the pitch radii. centre_distance and
    pitch in m, above 0; teeth from 6, the cam's at least the crank's; the pulleys may not touch. Gives m. A tensioner
    or a third pulley adds to it. Source: geometry of the open belt.
    """
    positive("pitch", pitch, "mm")
    within("crank_teeth", crank_teeth, "", least=6.0)
    within("cam_teeth", cam_teeth, "", least=crank_teeth)
    small, large = (teeth * pitch / (2 * math.pi) for teeth in (crank_teeth, cam_teeth))
    within("centre_distance", centre_distance, "mm", above=small + large)
    runs = 2 * math.sqrt(centre_distance**2 - (large - small) ** 2)
    return runs + math.pi * (large + small) + 2 * (large - small) * math.asin((large - small) / centre_distance)


def path_added_by_deck(deck_rise: float) -> float:
    """How much longer the path of a belt is under a higher deck: twice the rise, for two runs near parallel.

    deck_rise in m, from 0. Gives m, a little more than `belt_length` would. Source: geometry; common practice.
    """
    not_negative("deck_rise", deck_rise, "mm")
    return 2 * deck_rise


def cam_lag_of_deck(deck_rise: float, cam_teeth: float, pitch: float) -> float:
    """How late a cam is on its fixed pulley under a higher deck, whose pulled run is longer: h / (z P) of a turn.

    deck_rise in m, from 0; cam_teeth from 6; pitch in m, above 0. Gives the angle of the cam in rad; of the crank it is
    twice that. Source: geometry.
    """
    not_negative("deck_rise", deck_rise, "mm")
    within("cam_teeth", cam_teeth, "", least=6.0)
    positive("pitch", pitch, "mm")
    return deck_rise / (cam_teeth * pitch) * 2 * math.pi
