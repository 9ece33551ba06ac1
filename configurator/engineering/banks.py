"""The two banks of a V engine when the deck rises. The half angle is from the upright: 45 degrees in a 90 degree V."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, within


def spread_of_banks(deck_rise: float, half_angle: float) -> float:
    """How much farther apart the two heads stand: 2 h sin b.

    deck_rise along the bores in m, from 0; half_angle in rad, 0 to 90 degrees. Gives m. Source: geometry.
    """
    _check_bank(deck_rise, half_angle)
    return 2 * deck_rise * math.sin(half_angle)


def height_of_banks(deck_rise: float, half_angle: float) -> float:
    """How much higher each head stands: h cos b.

    deck_rise along the bores in m, from 0; half_angle in rad, 0 to 90 degrees. Gives m. Source: geometry.
    """
    _check_bank(deck_rise, half_angle)
    return deck_rise * math.cos(half_angle)


def _check_bank(deck_rise: float, half_angle: float) -> None:
    not_negative("deck_rise", deck_rise, "mm")
    within("half_angle", half_angle, "deg", least=0.0, most=math.pi / 2)
