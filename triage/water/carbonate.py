"""Carbon dioxide, alkalinity and hardness: the carbonate side of fresh water."""

from __future__ import annotations

import math

CACO3_PER_DKH = 17.848  # forum-hardness-units
CACO3_PER_MEQ = 50.045  # molar masses

#: First acid constant of carbonic acid at 0, 10, 15, 25 and 30 degrees Celsius (sears2002), as a parabola below and one
#: above 15 degrees: value at 15, slope and curve in powers of (t - 15).
_BELOW_15 = (6.42, -0.029 / 3, 0.0002 / 3)
_ABOVE_15 = (6.42, -0.009, 0.0002)
_PKA_ENDS = (0.0, 35.0)


def pka1(temperature_c: float) -> float:
    """First acid constant of carbonic acid, along parabolas through the printed temperatures.

    Args:
        temperature_c: degrees Celsius, 0 to 35 (the last five are extended); beyond the ends the end value holds.

    Returns:
        pKa, no unit.

    Source: sears2002; barr2006 prints values between, which this meets within 0.006.

    >>> round(pka1(25), 3), round(pka1(10), 3), round(pka1(30), 3)
    (6.35, 6.47, 6.33)
    """
    over = min(max(temperature_c, _PKA_ENDS[0]), _PKA_ENDS[1]) - 15
    at_15, slope, curve = _BELOW_15 if over < 0 else _ABOVE_15
    return at_15 + over * (slope + curve * over)


def carbon_dioxide_sears2002(ph: float, alkalinity_mg_l_caco3: float, temperature_c: float) -> float:
    """Dissolved carbon dioxide, where carbonate is the only weak acid in the water.

    Args:
        ph: pH, 6 to 8.4.
        alkalinity_mg_l_caco3: mg/L as CaCO3.
        temperature_c: degrees Celsius.

    Returns:
        mg/L CO2; grows with alkalinity, falls with pH and with temperature.

    Source: sears2002 (15.7 for each degree of carbonate hardness). A published factor at pH 6.8, 25 degrees is 0.313:

    >>> round(carbon_dioxide_sears2002(6.8, 1.0, 25), 3)
    0.312
    """
    return float(0.8795 * alkalinity_mg_l_caco3 * 10 ** (pka1(temperature_c) - ph))


def carbon_dioxide_miller1997(ph: float, alkalinity_dkh: float) -> float:
    """Carbon dioxide as the charts of aquarium keepers print it, 18 % below :func:`carbon_dioxide_sears2002`.

    Args:
        ph: pH.
        alkalinity_dkh: degrees of carbonate hardness.

    Returns:
        mg/L CO2.

    Source: miller1997 (kept to show the disagreement, not used). At the constant's own pH the factor is left over:

    >>> carbon_dioxide_miller1997(6.37, 1)
    12.839
    """
    return float(12.839 * alkalinity_dkh * 10 ** (6.37 - ph))


def carbon_dioxide_usgs(ph: float, bicarbonate_mg_l: float) -> float:
    """Carbon dioxide from bicarbonate at 25 degrees Celsius.

    Args:
        ph: pH.
        bicarbonate_mg_l: mg/L HCO3.

    Returns:
        mg/L CO2.

    Source: miller1997, which gives it as the form of the US Geological Survey.

    >>> carbon_dioxide_usgs(6.0, 10)
    16.0
    """
    return float(1.60 * bicarbonate_mg_l * 10 ** (6 - ph))


carbon_dioxide = carbon_dioxide_sears2002


def ph_change_from_carbon_dioxide(ratio: float) -> float:
    """What multiplying the carbon dioxide does to pH while alkalinity stays.

    Args:
        ratio: new divided by old carbon dioxide, above 0.

    Returns:
        Change in pH, whatever the alkalinity.

    Source: jesper2000.

    >>> ph_change_from_carbon_dioxide(10)
    -1.0
    """
    return -math.log10(ratio)


def acidity_ratio(ph_from: float, ph_to: float) -> float:
    """How many times more acid water is at one pH than at another.

    Args:
        ph_from: pH before.
        ph_to: pH after.

    Returns:
        Ratio of hydrogen ions.

    Source: ksu2021.

    >>> acidity_ratio(7, 5)
    100.0
    """
    return float(10 ** (ph_from - ph_to))


def alkalinity_from_titration(acid_ml: float, acid_eq_l: float, sample_ml: float) -> float:
    """Alkalinity from a titration with strong acid.

    Args:
        acid_ml: acid used, mL.
        acid_eq_l: strength of the acid, equivalents per litre.
        sample_ml: water titrated, mL.

    Returns:
        mg/L as CaCO3.

    Source: test-maker-titration.

    >>> alkalinity_from_titration(18, 0.02, 50)
    360.0
    """
    return acid_ml * acid_eq_l * 50000 / sample_ml


def hardness(calcium_mg_l: float, magnesium_mg_l: float) -> float:
    """General hardness from calcium and magnesium.

    Args:
        calcium_mg_l: mg/L Ca.
        magnesium_mg_l: mg/L Mg.

    Returns:
        mg/L as CaCO3.

    Source: molar-mass; forum-hardness-units works 72 and 26 out as 286 with rounded divisors.

    >>> round(hardness(72, 26))
    287
    """
    return 2.497 * calcium_mg_l + 4.118 * magnesium_mg_l


def calcium_if_all_calcium(hardness_mg_l_caco3: float) -> float:
    """Calcium, if the hardness is all calcium.

    Args:
        hardness_mg_l_caco3: mg/L as CaCO3.

    Returns:
        mg/L Ca.

    Source: wurts-hardness.

    >>> round(calcium_if_all_calcium(100))
    40
    """
    return hardness_mg_l_caco3 / 2.497
