"""Mass: of a block, of the chips, and what it does to the front axle."""

from __future__ import annotations

from configurator.engineering.bounds import not_negative, positive, within


def mass_of_volume(volume: float, density: float) -> float:
    """The mass of a volume: rho V.

    volume in m3, from 0; density in kg/m3, above 0. Gives kg. Source: definition.
    """
    not_negative("volume", volume, "cm3")
    positive("density", density, "kg/m3")
    return density * volume


def mass_of_chips(stock_length: float, stock_width: float, stock_height: float, density: float, left: float) -> float:
    """What is cut away from a billet: its mass less what is left of it.

    stock sizes in m, above 0; density in kg/m3, above 0; mass left in kg, from 0 to the billet's. Gives kg.
    Source: definition.
    """
    positive("stock_length", stock_length, "mm")
    positive("stock_width", stock_width, "mm")
    positive("stock_height", stock_height, "mm")
    billet = mass_of_volume(stock_length * stock_width * stock_height, density)
    within("left", left, "kg", least=0.0, most=billet)
    return billet - left


def front_load_of_mass(added: float, behind_front_axle: float, wheelbase: float) -> float:
    """How much of an added mass rests on the front axle: m (1 - x / wheelbase).

    added in kg, below 0 where it is taken away; behind_front_axle in m, below 0 in front of it; wheelbase in m, above
    0. Gives kg. Source: balance of moments about the rear axle.
    """
    within("added", added, "kg")
    within("behind_front_axle", behind_front_axle, "mm")
    positive("wheelbase", wheelbase, "mm")
    return added * (1 - behind_front_axle / wheelbase)


def front_share_after(
    vehicle: float, front_share: float, added: float, behind_front_axle: float, wheelbase: float
) -> float:
    """The share of a vehicle's mass on its front axle after a mass was added: (m f + dF) / (m + dm).

    vehicle in kg, above 0; front_share before, from 0 to 1; added above minus the vehicle's mass, and the rest as for
    `front_load_of_mass`. Gives a number. Source: as `front_load_of_mass`.
    """
    positive("vehicle", vehicle, "kg")
    within("front_share", front_share, "", least=0.0, most=1.0)
    within("added", added, "kg", above=-vehicle)
    front = vehicle * front_share + front_load_of_mass(added, behind_front_axle, wheelbase)
    return front / (vehicle + added)
