"""What the trade's metals and coolants are like: a figure a row, each with its source and what it rests on.

A shop's own figures stand in its files; these are what the formulas are tested with and what a shop may copy.
"""

from __future__ import annotations

from typing import NamedTuple


class Property(NamedTuple):
    """One figure: of what metal or liquid, which property, its value in SI, under what conditions, from where.

    status is "published" where the figure was read in the source named, else "from memory".
    """

    material: str
    property: str
    value: float
    condition: str
    source: str
    status: str = "published"


EXPANSION, DENSITY, MODULUS, YIELD = "mean expansion", "density", "modulus", "yield strength"
HEAT, CONDUCTIVITY, POISSON = "specific heat", "conductivity", "Poisson's ratio"
SHEAR = "shear strength"

_CALLISTER = "Callister, Materials Science and Engineering, table"
_B1, _B2, _B4, _B6 = (f"{_CALLISTER} {number}" for number in ("B.1", "B.2", "B.4", "B.6"))
_AA = "Aluminum Association, data sheet"
_ASM = "ASM data sheet"
_ASM_356 = "ASM data sheet for 356.0 and A356.0 castings"
_ROOM, _NEAR, _TO_200, _TO_300 = "room temperature", "20 to 100 C", "20 to 200 C", "20 to 300 C"
_IAPWS, _GLYCOL_MODEL = "IAPWS-95, by CoolProp", "incompressible mixture model, by CoolProp"
_LB_IN3, _KSI = 0.45359237 / 0.0254**3, 1000 * 4.4482216152605 / 0.0254**2
_GLYCOL = "ethylene glycol 50 % by mass in water"

PROPERTIES: tuple[Property, ...] = (
    Property("aluminium 6061", EXPANSION, 23.6e-6, _NEAR, _B6),
    Property("aluminium 6061", EXPANSION, 25.2e-6, _TO_300, f"{_AA}: estimated from similar alloys"),
    Property("aluminium 7075", EXPANSION, 23.4e-6, _NEAR, _B6),
    Property("aluminium 2024", EXPANSION, 22.9e-6, _NEAR, _B6),
    Property("aluminium 356.0", EXPANSION, 21.5e-6, _NEAR, _B6),
    Property("aluminium 356.0", EXPANSION, 22.5e-6, _TO_200, _ASM_356),
    Property("aluminium 356.0", EXPANSION, 23.5e-6, _TO_300, _ASM_356),
    Property("grey iron G3000", EXPANSION, 11.4e-6, _NEAR, _B6),
    Property("ductile iron 60-40-18", EXPANSION, 11.2e-6, _NEAR, _B6),
    Property("steel 4340", EXPANSION, 12.3e-6, _NEAR, _B6),
    Property("steel 4340", EXPANSION, 12.7e-6, _TO_200, f"{_ASM}: oil hardened, 600 C temper"),
    Property("copper C11000", EXPANSION, 17.0e-6, _NEAR, _B6),
    Property("stainless 304", EXPANSION, 17.2e-6, _NEAR, _B6),
    Property("aluminium 6061", DENSITY, 2700.0, _ROOM, _AA),
    Property("aluminium 7075", DENSITY, 0.101 * _LB_IN3, _ROOM, "Aluminum Association, typical properties"),
    Property("aluminium 356.0", DENSITY, 2685.0, _ROOM, _ASM_356),
    Property("aluminium 2618", DENSITY, 2760.0, _ROOM, "a supplier's property table"),
    Property("grey iron G3000", DENSITY, 7200.0, _ROOM, "a web database of materials, grey iron"),
    Property("grey iron ASTM class 20", DENSITY, 7190.0, _ROOM, "Hibbeler, Mechanics of Materials, appendix C"),
    Property("steel 4340", DENSITY, 7850.0, _ROOM, _B1),
    Property("stainless 304", DENSITY, 8000.0, _ROOM, _B1),
    Property("aluminium 6061", MODULUS, 69e9, _ROOM, _B2),
    Property("aluminium 7075", MODULUS, 71e9, _ROOM, _B2),
    Property("aluminium 2024", MODULUS, 72.4e9, _ROOM, _B2),
    Property("aluminium 356.0", MODULUS, 72.4e9, _ROOM, _B2),
    Property("grey iron G3000", MODULUS, 90e9, "the least of 90 to 113 GPa: secant at a quarter of strength", _B2),
    Property("ductile iron 60-40-18", MODULUS, 169e9, _ROOM, _B2),
    Property("steel 4340", MODULUS, 207e9, _ROOM, _B2),
    Property("copper C11000", MODULUS, 115e9, _ROOM, _B2),
    Property("stainless 304", MODULUS, 193e9, _ROOM, _B2),
    Property("aluminium 6061-T6", YIELD, 276e6, _ROOM, _B4),
    Property("aluminium 7075-T6", YIELD, 505e6, _ROOM, _B4),
    Property("aluminium 2024-T3", YIELD, 345e6, _ROOM, _B4),
    Property("aluminium 356.0-T6", YIELD, 164e6, _ROOM, _B4),
    Property("aluminium A356.0-T6", YIELD, 30 * _KSI, _ROOM, "a foundry's alloy table: grade and form matter"),
    Property("ductile iron 60-40-18", YIELD, 276e6, _ROOM, _B4),
    Property("steel 4340", YIELD, 1620e6, "quenched in oil, tempered at 315 C", _B4),
    Property("aluminium 6061-T6", SHEAR, 207e6, _ROOM, _AA),
    Property("aluminium 6061", HEAT, 896.0, _ROOM, _ASM),
    Property("aluminium 356.0", HEAT, 963.0, "100 C", _ASM_356),
    Property("aluminium 6061-T6", CONDUCTIVITY, 167.0, _ROOM, _ASM),
    Property("aluminium 2024-T6", CONDUCTIVITY, 177.0, "300 K", "Incropera, Heat and Mass Transfer, table A.1"),
    Property("copper C11000", CONDUCTIVITY, 380.0, "373 K", "CRC Handbook, table of alloys: electrolytic tough pitch"),
    Property("aluminium 6061-T6", POISSON, 0.33, _ROOM, _AA),
    Property("steel 4340", POISSON, 0.29, _ROOM, _ASM),
    Property("grey iron ASTM class 20", POISSON, 0.28, _ROOM, "Hibbeler, appendix C; other books have 0.21 to 0.26"),
    Property("water", DENSITY, 965.355, "90 C, 2 bar absolute", _IAPWS),
    Property("water", HEAT, 4204.99, "90 C, 2 bar absolute", _IAPWS),
    Property(_GLYCOL, DENSITY, 1019.043, "90 C", _GLYCOL_MODEL),
    Property(_GLYCOL, HEAT, 3615.75, "90 C", _GLYCOL_MODEL),
    Property(_GLYCOL, HEAT, 3312.04, "20 C", _GLYCOL_MODEL),
)


def find_property(material: str, property: str, condition: str = "") -> Property:
    """The first figure of a material, or the one under a condition; KeyError where there is none."""
    for row in PROPERTIES:
        if (row.material, row.property) == (material, property) and condition in ("", row.condition):
            return row
    raise KeyError(f"{property} of {material}" + (f", {condition}" if condition else ""))
