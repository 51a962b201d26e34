"""The carbonate system of fresh water, closed to the air or open to it: pH from alkalinity and carbon.

``closed`` is the water in the minutes after a dose: its carbon stays. ``settled`` is the water of the next day: fish,
air and plants have brought its carbon dioxide back to where it was.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from .ammonia import KELVIN_AT_0_C
from .carbonate import CACO3_PER_MEQ, pka1

_PH_ENDS = (2.0, 13.0)


def pka2(temperature_c: float) -> float:
    """Second acid constant of carbonic acid.

    Args:
        temperature_c: degrees Celsius, 0 to 90.

    Returns:
        pKa, no unit.

    Source: plummer-busenberg1982 (from memory; compared with an independent program in the tests).

    >>> round(pka2(25), 2)
    10.33
    """
    t = temperature_c + KELVIN_AT_0_C
    return 107.8871 + 0.03252849 * t - 5151.79 / t - 38.92561 * math.log10(t) + 563713.9 / t**2


def pkw(temperature_c: float) -> float:
    """Ion product of water.

    Args:
        temperature_c: degrees Celsius, 0 to 60.

    Returns:
        pKw, no unit.

    Source: stumm-morgan (from memory): 14.00 at 25 degrees Celsius.

    >>> round(pkw(25), 1), round(pkw(10), 1)
    (14.0, 14.5)
    """
    t = temperature_c + KELVIN_AT_0_C
    return 4470.99 / t - 6.0875 + 0.01706 * t


def _water_ions(ph: float, temperature_c: float) -> float:
    """Hydroxide less hydrogen ions, mmol/L."""
    return float(1000 * (10 ** (ph - pkw(temperature_c)) - 10**-ph))


def _shares(ph: float, temperature_c: float) -> tuple[float, float]:
    """Bicarbonate and carbonate for each carbon dioxide."""
    first = 10 ** (ph - pka1(temperature_c))
    return float(first), float(first * 10 ** (ph - pka2(temperature_c)))


def carbon_dioxide_mmol(ph: float, alkalinity_mg_l_caco3: float, temperature_c: float) -> float:
    """Free carbon dioxide, with carbonate and the ions of water counted.

    Args:
        ph: pH.
        alkalinity_mg_l_caco3: mg/L as CaCO3.
        temperature_c: degrees Celsius.

    Returns:
        mmol/L, 0 at the least.

    Source: sears2002 gives the constant; at pH 6.8 and 25 degrees 0.313 mg/L for each mg/L of alkalinity:

    >>> round(carbon_dioxide_mmol(6.8, 100, 25) * 44.009 / 100, 2)
    0.31
    """
    one, two = _shares(ph, temperature_c)
    carbonate = alkalinity_mg_l_caco3 / CACO3_PER_MEQ - _water_ions(ph, temperature_c)
    return max(0.0, carbonate / (one + 2 * two))


def total_carbon_mmol(ph: float, alkalinity_mg_l_caco3: float, temperature_c: float) -> float:
    """All inorganic carbon.

    Args:
        ph, alkalinity_mg_l_caco3, temperature_c: see :func:`carbon_dioxide_mmol`.

    Returns:
        mmol/L. At the pH of the first constant as much is carbon dioxide as bicarbonate:

    >>> round(total_carbon_mmol(6.35, CACO3_PER_MEQ, 25), 2)
    2.0
    """
    one, two = _shares(ph, temperature_c)
    return carbon_dioxide_mmol(ph, alkalinity_mg_l_caco3, temperature_c) * (1 + one + two)


def ph_closed(alkalinity_mg_l_caco3: float, carbon_mmol: float, temperature_c: float) -> float:
    """pH of water that keeps its carbon.

    Args:
        alkalinity_mg_l_caco3: mg/L as CaCO3; below 0 once acid has used it up.
        carbon_mmol: all inorganic carbon, mmol/L.
        temperature_c: degrees Celsius.

    Returns:
        pH between 2 and 13; grows with alkalinity, falls with carbon.

    >>> round(ph_closed(CACO3_PER_MEQ, 2.0, 25), 2)
    6.35
    """

    def short(ph: float) -> float:
        one, two = _shares(ph, temperature_c)
        held = carbon_mmol * (one + 2 * two) / (1 + one + two) + _water_ions(ph, temperature_c)
        return held - alkalinity_mg_l_caco3 / CACO3_PER_MEQ

    return _zero(short)


def alkalinity_settled(ph: float, carbon_dioxide: float, temperature_c: float) -> float:
    """Alkalinity that holds a pH at a given carbon dioxide.

    Args:
        ph: pH.
        carbon_dioxide: free carbon dioxide, mmol/L.
        temperature_c: degrees Celsius.

    Returns:
        mg/L as CaCO3. A tenth of the carbon dioxide at the same alkalinity is one pH higher (jesper2000):

    >>> round(alkalinity_settled(7.35, 0.1, 25) / alkalinity_settled(6.35, 1.0, 25), 2)
    1.0
    """
    one, two = _shares(ph, temperature_c)
    return (carbon_dioxide * (one + 2 * two) + _water_ions(ph, temperature_c)) * CACO3_PER_MEQ


def ph_settled(alkalinity_mg_l_caco3: float, carbon_dioxide: float, temperature_c: float) -> float:
    """pH of water whose carbon dioxide is given; the inverse of :func:`alkalinity_settled`.

    Args:
        alkalinity_mg_l_caco3: mg/L as CaCO3.
        carbon_dioxide: free carbon dioxide, mmol/L.
        temperature_c: degrees Celsius.

    Returns:
        pH between 2 and 13.

    >>> round(ph_settled(alkalinity_settled(6.9, 0.2, 20), 0.2, 20), 6)
    6.9
    """
    return _zero(lambda ph: alkalinity_settled(ph, carbon_dioxide, temperature_c) - alkalinity_mg_l_caco3)


def _zero(rising: Callable[[float], float]) -> float:
    """Where a rising function passes 0, between the ends of pH."""
    low, high = _PH_ENDS
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < 0 else (low, middle)
    return (low + high) / 2
