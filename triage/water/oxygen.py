"""Dissolved oxygen at saturation, from temperature, salt and air pressure."""

from __future__ import annotations

import math

from .ammonia import KELVIN_AT_0_C

HPA_PER_ATM = 1013.25
MMHG_PER_ATM = 760.0


def saturation_benson_krause1984(temperature_c: float, salinity_g_kg: float = 0.0) -> float:
    """Oxygen in water that stands in equilibrium with damp air at one atmosphere.

    Args:
        temperature_c: degrees Celsius, 0 to 40.
        salinity_g_kg: grams of salt per kilogram, 0 to 40.

    Returns:
        mg/L; falls with temperature and with salt.

    Source: wql-oxysol (Benson and Krause 1984). EN 25814 prints 10.1 at 15 degrees Celsius:

    >>> round(saturation_benson_krause1984(15), 1)
    10.1
    """
    t = temperature_c + KELVIN_AT_0_C
    fresh = -139.34411 + 157570.1 / t - 66423080 / t**2 + 1.2438e10 / t**3 - 862194900000 / t**4
    return math.exp(fresh - salinity_g_kg * (0.017674 - 10.754 / t + 2140.7 / t**2))


def vapour_pressure_atm(temperature_c: float) -> float:
    """Pressure of water vapour over fresh water.

    Args:
        temperature_c: degrees Celsius, 0 to 40.

    Returns:
        Atmospheres.

    Source: apha4500o (from memory). At 20 degrees it gives the 17.5 mm of mercury of common vapour tables (memory too):

    >>> round(vapour_pressure_atm(20) * MMHG_PER_ATM, 1)
    17.5
    """
    t = temperature_c + KELVIN_AT_0_C
    return math.exp(11.8571 - 3840.70 / t - 216961 / t**2)


def pressure_factor(temperature_c: float, pressure_atm: float) -> float:
    """What a pressure other than one atmosphere does to saturation.

    Args:
        temperature_c: degrees Celsius.
        pressure_atm: air pressure at the place, atmospheres (not reduced to sea level).

    Returns:
        Factor on the saturation at one atmosphere.

    Source: apha4500o (from memory); kit-maker-altitude-factors prints 0.92 for 699 mm of mercury.

    >>> round(pressure_factor(20, 699 / MMHG_PER_ATM), 2)
    0.92
    """
    theta = 0.000975 - 1.426e-5 * temperature_c + 6.436e-8 * temperature_c**2
    vapour = vapour_pressure_atm(temperature_c)
    share = (1 - vapour / pressure_atm) * (1 - theta * pressure_atm) / ((1 - vapour) * (1 - theta))
    return pressure_atm * share


def pressure_at_altitude_atm(altitude_m: float) -> float:
    """Air pressure of the standard atmosphere.

    Args:
        altitude_m: metres above the sea, up to 11,000.

    Returns:
        Atmospheres.

    Source: apha4500o (standard atmosphere, from memory); kit-maker-altitude-factors pairs 2274 ft with 699 mm of
    mercury.

    >>> round(pressure_at_altitude_atm(2274 * 0.3048) * MMHG_PER_ATM)
    700
    """
    return float((1 - 2.25577e-5 * altitude_m) ** 5.25588)


def pressure_at_altitude_mmhg_wdnr(altitude_ft: float) -> float:
    """Quick rule for low places: 26 mm of mercury less for each 1000 ft.

    Args:
        altitude_ft: feet above the sea.

    Returns:
        Millimetres of mercury.

    Source: wdnr-bod.

    >>> pressure_at_altitude_mmhg_wdnr(1000)
    734.0
    """
    return 760 - 0.026 * altitude_ft


def saturation(temperature_c: float, *, salinity_g_kg: float = 0.0, pressure_atm: float = 1.0) -> float:
    """Oxygen at saturation for this temperature, salt and air pressure.

    Args:
        temperature_c: degrees Celsius, 0 to 40.
        salinity_g_kg: grams of salt per kilogram.
        pressure_atm: air pressure at the place, atmospheres.

    Returns:
        mg/L.

    Source: wql-oxysol, apha4500o; kit-maker-oxygen-altitude prints 8.8 for 20 degrees at 300 m.

    >>> round(saturation(20, pressure_atm=pressure_at_altitude_atm(300)), 1)
    8.8
    """
    return saturation_benson_krause1984(temperature_c, salinity_g_kg) * pressure_factor(temperature_c, pressure_atm)


def percent_of_saturation(oxygen_mg_l: float, saturation_mg_l: float) -> float:
    """Measured oxygen as a share of saturation.

    Args:
        oxygen_mg_l: measured, mg/L.
        saturation_mg_l: at saturation, mg/L.

    Returns:
        Per cent; above 100 in water that plants or pressure have over-filled.

    Source: definition; the 10.1 of EN 25814 (en25814) is 100 % at 15 degrees Celsius.

    >>> round(percent_of_saturation(10.1, saturation(15)))
    100
    """
    return 100 * oxygen_mg_l / saturation_mg_l
