"""Units in SI, from an independent library: so many of one times its name is the SI value."""

from __future__ import annotations

from scipy import constants

MM, CM, M = 1e-3, 1e-2, 1.0
INCH, FOOT = constants.inch, constants.foot
MM2, INCH2 = MM**2, INCH**2
CM3, INCH3, LITRE = CM**3, INCH**3, constants.liter
GALLON = constants.gallon_US
POUND, LBF = constants.pound, constants.lbf
PSI, KSI = constants.psi, 1000 * constants.psi
REYN = PSI  # a pound-force second over a square inch
BAR, KPA, MPA, GPA = constants.bar, 1e3, 1e6, 1e9
KN, KJ, KW = 1e3, 1e3, 1e3
HP = constants.hp
MINUTE, HOUR = constants.minute, constants.hour
DEGREE = constants.degree
RPM = 2 * constants.pi / constants.minute
CELSIUS = constants.zero_Celsius  # to be added
FAHRENHEIT = constants.degree_Fahrenheit  # a difference of one degree
PER_FAHRENHEIT = 1 / FAHRENHEIT
MM2_S, MPA_S = 1e-6, 1e-3
