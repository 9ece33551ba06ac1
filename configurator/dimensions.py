"""Dimensions: what kind of quantity a number is, so that a millimetre is never added to a kilogram.

An angle counts as a dimension: a speed in rpm cannot then be taken for a frequency, and turns per second is
`speed / 1 rev`. A temperature (C, F) is a point on a scale, the difference of two is in K.
"""

from __future__ import annotations

from typing import NamedTuple


class Dimension(NamedTuple):
    """Exponents of the base dimensions; `point` marks a temperature on a scale, as against a difference."""

    length: int = 0
    mass: int = 0
    time: int = 0
    temperature: int = 0
    angle: int = 0
    point: bool = False

    def times(self, other: Dimension) -> Dimension:
        """The dimension of a product."""
        return self._with(other, 1)

    def over(self, other: Dimension) -> Dimension:
        """The dimension of a quotient."""
        return self._with(other, -1)

    def root(self) -> Dimension | None:
        """The dimension of a square root; None where an exponent is odd."""
        if any(n % 2 for n in self[:5]):
            return None
        return Dimension(self.length // 2, self.mass // 2, self.time // 2, self.temperature // 2, self.angle // 2)

    def _with(self, other: Dimension, sign: int) -> Dimension:
        return Dimension(
            self.length + sign * other.length,
            self.mass + sign * other.mass,
            self.time + sign * other.time,
            self.temperature + sign * other.temperature,
            self.angle + sign * other.angle,
        )

    def __str__(self) -> str:
        return _WORDS.get(self) or "a quantity in " + self._in_base_units()

    def _in_base_units(self) -> str:
        powers = [(sign, n) for sign, n in zip(("m", "kg", "s", "K", "rad"), self[:5], strict=True) if n]
        return " ".join(sign if n == 1 else f"{sign}^{n}" for sign, n in powers)


NUMBER = Dimension()
LENGTH, MASS, TIME, ANGLE = Dimension(length=1), Dimension(mass=1), Dimension(time=1), Dimension(angle=1)
TEMPERATURE, DIFFERENCE = Dimension(temperature=1, point=True), Dimension(temperature=1)
AREA, VOLUME, FREQUENCY = Dimension(2), Dimension(3), Dimension(time=-1)
VELOCITY, ACCELERATION, TURNING = Dimension(1, 0, -1), Dimension(1, 0, -2), Dimension(time=-1, angle=1)
FORCE, PRESSURE, TORQUE, POWER = Dimension(1, 1, -2), Dimension(-1, 1, -2), Dimension(2, 1, -2), Dimension(2, 1, -3)
FLOW, MASS_FLOW, DENSITY = Dimension(3, 0, -1), Dimension(0, 1, -1), Dimension(-3, 1)
VISCOSITY, KINEMATIC_VISCOSITY = Dimension(-1, 1, -1), Dimension(2, 0, -1)
EXPANSION, SPECIFIC_HEAT, HEATING_VALUE = Dimension(temperature=-1), Dimension(2, 0, -2, -1), Dimension(2, 0, -2)
CONDUCTIVITY, HEAT_TRANSFER = Dimension(1, 1, -3, -1), Dimension(0, 1, -3, -1)
INERTIA, STIFFNESS, TWIST_STIFFNESS = Dimension(2, 1), Dimension(0, 1, -2), Dimension(2, 1, -2, 0, -1)
CONSUMPTION = Dimension(-2, 0, 2)

_WORDS = {
    NUMBER: "a plain number", LENGTH: "a length", MASS: "a mass", TIME: "a time", ANGLE: "an angle",
    TEMPERATURE: "a temperature", DIFFERENCE: "a difference of temperatures", AREA: "an area", VOLUME: "a volume",
    FREQUENCY: "a frequency", VELOCITY: "a speed", ACCELERATION: "an acceleration", TURNING: "a speed of turning",
    FORCE: "a force", PRESSURE: "a pressure", TORQUE: "a torque", POWER: "a power", FLOW: "a flow",
    DENSITY: "a density", MASS_FLOW: "a flow of mass", VISCOSITY: "a viscosity",
    KINEMATIC_VISCOSITY: "a kinematic viscosity", EXPANSION: "an expansion coefficient",
    SPECIFIC_HEAT: "a specific heat", HEATING_VALUE: "a heating value", CONDUCTIVITY: "a conductivity",
    HEAT_TRANSFER: "a heat transfer coefficient", INERTIA: "a moment of inertia", STIFFNESS: "a stiffness",
    TWIST_STIFFNESS: "a stiffness in twist", CONSUMPTION: "a specific fuel consumption",
}  # fmt: skip
