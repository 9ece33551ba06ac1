"""Thick cylinders: liners under gas pressure, and liners held by interference. Thin-wall formulas read too low."""

from __future__ import annotations

import math

from configurator.engineering.bounds import not_negative, positive, within
from configurator.engineering.expansion import check_warming, extra_growth


def hoop_stress(pressure_gauge: float, inner: float, outer: float, at: float) -> float:
    """The hoop stress in a thick cylinder with pressure inside: p a^2 (r^2 + b^2) / (r^2 (b^2 - a^2)).

    pressure_gauge, over what is outside, in Pa, from 0; inner and outer diameter and the diameter `at` which, in m,
    above 0, at from inner to outer. Gives Pa; the greatest is at the inner diameter. Holds below yield. Source: Lame;
    Boresi and Schmidt, Advanced Mechanics of Materials, chapter 11.
    """
    _check_wall(pressure_gauge, inner, outer)
    within("at", at, "mm", least=inner, most=outer)
    return pressure_gauge * inner**2 * (at**2 + outer**2) / (at**2 * (outer**2 - inner**2))


def radial_stress(pressure_gauge: float, inner: float, outer: float, at: float) -> float:
    """The radial stress in a thick cylinder with pressure inside: p a^2 (r^2 - b^2) / (r^2 (b^2 - a^2)), a push.

    Arguments and source as for `hoop_stress`. Gives Pa, from minus the pressure to 0.
    """
    _check_wall(pressure_gauge, inner, outer)
    within("at", at, "mm", least=inner, most=outer)
    return pressure_gauge * inner**2 * (at**2 - outer**2) / (at**2 * (outer**2 - inner**2))


def pressure_for_hoop(stress: float, inner: float, outer: float) -> float:
    """The pressure inside that brings the inner diameter to a hoop stress: s (b^2 - a^2) / (b^2 + a^2).

    stress in Pa, from 0; diameters in m, above 0, outer above inner. Gives Pa gauge.
    Source: as `hoop_stress`; Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8.
    """
    _check_wall(0.0, inner, outer)
    not_negative("stress", stress, "MPa")
    return stress * (outer**2 - inner**2) / (outer**2 + inner**2)


def bore_growth_under_pressure(
    pressure_gauge: float, inner: float, outer: float, modulus: float, poisson: float
) -> float:
    """How much the bore of a closed cylinder opens under pressure: p a ((1-2v) a^2 + (1+v) b^2) / (E (b^2 - a^2)).

    pressure_gauge in Pa, from 0; diameters in m, above 0, outer above inner; modulus in Pa, above 0; poisson's ratio
    from 0, below 0.5. Gives m on the diameter. Source: Boresi and Schmidt, Advanced Mechanics of Materials, chapter
    11.
    """
    _check_wall(pressure_gauge, inner, outer)
    _check_metal("", modulus, poisson)
    give = (1 - 2 * poisson) * inner**2 + (1 + poisson) * outer**2
    return pressure_gauge * inner * give / (modulus * (outer**2 - inner**2))


def interference_for_fit(
    fit_pressure: float,
    inner: float,
    interface: float,
    outer: float,
    sleeve_modulus: float,
    sleeve_poisson: float,
    hub_modulus: float,
    hub_poisson: float,
) -> float:
    """The interference on the diameter that presses a sleeve into a hub of another metal with a pressure.

    p d (1/E' ((c^2 + d^2)/(c^2 - d^2) + v') + 1/E ((d^2 + b^2)/(d^2 - b^2) - v)), E and v of the sleeve, E' and v' of
    the hub. fit_pressure in Pa, from 0; inner diameter b of the sleeve (0 for a shaft), interface d and outer
    diameter c of the hub in m, each above the one before; moduli in Pa, above 0; poisson's ratios from 0, below 0.5.
    Gives m. Source: Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8.
    """
    not_negative("fit_pressure", fit_pressure, "MPa")
    give = _give_of_fit(inner, interface, outer, sleeve_modulus, sleeve_poisson, hub_modulus, hub_poisson)
    return fit_pressure * interface * give


def pressure_of_fit(
    interference: float,
    inner: float,
    interface: float,
    outer: float,
    sleeve_modulus: float,
    sleeve_poisson: float,
    hub_modulus: float,
    hub_poisson: float,
) -> float:
    """The pressure between a sleeve and its hub for an interference on the diameter.

    interference in m, from 0 (none is left: see `interference_when_hot`); the rest as for `interference_for_fit`, which
    it turns round. Gives Pa. Source: as `interference_for_fit`.
    """
    not_negative("interference", interference, "mm")
    give = _give_of_fit(inner, interface, outer, sleeve_modulus, sleeve_poisson, hub_modulus, hub_poisson)
    return interference / (interface * give)


def interference_when_hot(
    interference: float, interface: float, sleeve_expansion: float, hub_expansion: float, rise: float
) -> float:
    """What is left of an interference when sleeve and hub are warmed alike: less D (a' - a) dT.

    interference on the diameter when cold and interface diameter in m, from 0 and above 0; mean expansions in 1/K, 0 to
    100e-6; rise at the interface in K, -300 to 500. Gives m; below 0 is a gap. Source: as `expansion.extra_growth`.
    """
    not_negative("interference", interference, "mm")
    positive("interface", interface, "mm")
    check_warming(sleeve_expansion, rise, "sleeve_expansion")
    check_warming(hub_expansion, rise, "hub_expansion")
    return interference - extra_growth(interface, hub_expansion, sleeve_expansion, rise)


def hoop_in_sleeve(fit_pressure: float, inner: float, interface: float) -> float:
    """The hoop stress at the bore of a sleeve pressed from outside: -2 p d^2 / (d^2 - b^2), a push.

    fit_pressure in Pa, from 0; inner diameter and interface diameter in m, above 0, the second above the first. Gives
    Pa. The hub's is `hoop_stress` at its inner diameter. Source: as `interference_for_fit`.
    """
    not_negative("fit_pressure", fit_pressure, "MPa")
    positive("inner", inner, "mm")
    within("interface", interface, "mm", above=inner)
    return -2 * fit_pressure * interface**2 / (interface**2 - inner**2)


def force_to_press_out(fit_pressure: float, interface: float, length: float, friction: float) -> float:
    """The force that pushes a sleeve out of its hub: pi d L p f.

    fit_pressure in Pa, from 0; interface diameter and length in m, above 0; friction 0 to 1. Gives N.
    Source: as `interference_for_fit`.
    """
    not_negative("fit_pressure", fit_pressure, "MPa")
    positive("interface", interface, "mm")
    positive("length", length, "mm")
    within("friction", friction, "", least=0.0, most=1.0)
    return math.pi * interface * length * fit_pressure * friction


def _give_of_fit(
    inner: float,
    interface: float,
    outer: float,
    sleeve_modulus: float,
    sleeve_poisson: float,
    hub_modulus: float,
    hub_poisson: float,
) -> float:
    not_negative("inner", inner, "mm")
    within("interface", interface, "mm", above=inner)
    within("outer", outer, "mm", above=interface)
    _check_metal("sleeve_", sleeve_modulus, sleeve_poisson)
    _check_metal("hub_", hub_modulus, hub_poisson)
    hub = (outer**2 + interface**2) / (outer**2 - interface**2) + hub_poisson
    sleeve = (interface**2 + inner**2) / (interface**2 - inner**2) - sleeve_poisson
    return hub / hub_modulus + sleeve / sleeve_modulus


def _check_wall(pressure_gauge: float, inner: float, outer: float) -> None:
    not_negative("pressure_gauge", pressure_gauge, "MPa")
    positive("inner", inner, "mm")
    within("outer", outer, "mm", above=inner)


def _check_metal(whose: str, modulus: float, poisson: float) -> None:
    positive(f"{whose}modulus", modulus, "GPa")
    within(f"{whose}poisson", poisson, "", least=0.0, below=0.5)
