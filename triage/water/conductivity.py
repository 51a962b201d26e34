"""What dissolved salts do to conductivity: an estimate from the ions."""

from __future__ import annotations

from collections.abc import Mapping

from .carbonate import CACO3_PER_MEQ

#: mg of each ion for one milliequivalent (molar-mass), and its equivalent conductivity at infinite dilution and 25
#: degrees Celsius, S cm2/mol. crc-ions: calcium, potassium and magnesium were read, the others are from memory.
#: Alkalinity counts as bicarbonate, phosphate (measured as PO4) as H2PO4.
IONS: dict[str, tuple[float, float]] = {
    "potassium": (39.098, 73.48),
    "sodium": (22.990, 50.08),
    "calcium": (20.039, 59.47),
    "magnesium": (12.1525, 53.0),
    "chloride": (35.45, 76.31),
    "nitrate": (62.004, 71.42),
    "sulfate": (48.03, 80.0),
    "phosphate": (94.970, 36.0),
    "alkalinity": (CACO3_PER_MEQ, 44.5),
}


def ec_change(changes_mg_l: Mapping[str, float]) -> float:
    """Change of conductivity when ions come in or go.

    Args:
        changes_mg_l: change of each quantity, mg/L in its own unit; what carries hardly any current is left out.

    Returns:
        mS/cm at 25 degrees Celsius, some per cent too high (ions hinder each other, which is not counted).

    Source: crc-ions. A milliequivalent of a calcium salt carries 59.47 microsiemens by its calcium:

    >>> round(ec_change({"calcium": 20.039}) * 1000, 2)
    59.47
    """
    return sum(change / IONS[name][0] * IONS[name][1] for name, change in changes_mg_l.items() if name in IONS) / 1000
