"""Total ammonia: the toxic share, and the limits of the US EPA (2013).

All of it holds for fresh water. Salt lowers the toxic share, so these functions err on the strict side in salty water.
"""

from __future__ import annotations

KELVIN_AT_0_C = 273.15


def pka_emerson1975(temperature_c: float) -> float:
    """Acid constant of ammonium in fresh water.

    Args:
        temperature_c: degrees Celsius, 0 to 50.

    Returns:
        pKa, no unit.

    Source: emerson1975. One manual prints 2727.92 in place of 2729.92, a slip worth 1.5 % in the result.

    >>> round(pka_emerson1975(25), 3)
    9.246
    """
    return 0.09018 + 2729.92 / (temperature_c + KELVIN_AT_0_C)


def unionised_fraction_emerson1975(ph: float, temperature_c: float) -> float:
    """Share of total ammonia that is NH3, the form that harms fish.

    Args:
        ph: pH, no unit.
        temperature_c: degrees Celsius, 0 to 50.

    Returns:
        Fraction between 0 and 1; grows with pH and with temperature.

    Source: emerson1975. The value below is in the table of uf-fa031.

    >>> round(unionised_fraction_emerson1975(8.0, 24), 4)
    0.0502
    """
    return float(1 / (10 ** (pka_emerson1975(temperature_c) - ph) + 1))


unionised_fraction = unionised_fraction_emerson1975


def unionised_ammonia(tan_mg_l: float, ph: float, temperature_c: float) -> float:
    """NH3 in the water, counted as nitrogen like the total it is part of.

    Args:
        tan_mg_l: total ammonia nitrogen, mg/L N.
        ph: pH, no unit.
        temperature_c: degrees Celsius.

    Returns:
        mg/L N.

    Source: emerson1975; worked example of uf-fa031.

    >>> round(unionised_ammonia(1.0, 8.0, 24), 4)
    0.0502
    """
    return tan_mg_l * unionised_fraction(ph, temperature_c)


def _acute_ph_term(ph: float) -> float:
    return float(0.7249 * (0.0114 / (1 + 10 ** (7.204 - ph)) + 1.6181 / (1 + 10 ** (ph - 7.204))))


def _chronic_ph_term(ph: float) -> float:
    return float(0.8876 * (0.0278 / (1 + 10 ** (7.688 - ph)) + 1.1994 / (1 + 10 ** (ph - 7.688))))


def acute_limit_epa2013(ph: float, temperature_c: float, *, salmonids: bool) -> float:
    """Total ammonia that a one-hour average must not pass (criterion maximum concentration).

    Args:
        ph: pH, 6.5 to 9; outside it the curve is extended.
        temperature_c: degrees Celsius, 0 to 30.
        salmonids: whether trout, char or salmon are kept (stricter in cold water).

    Returns:
        mg/L total ammonia nitrogen; never grows with pH or temperature.

    Source: azdeq-script (formulas); the values below are those of epa2013 and odeq-pkg-tests.

    >>> round(acute_limit_epa2013(7.0, 20, salmonids=True)), round(acute_limit_epa2013(8.0, 10, salmonids=False), 1)
    (17, 8.8)
    """
    warm = 23.12 * 10 ** (0.036 * (20 - temperature_c))
    if not salmonids:
        return _acute_ph_term(ph) * min(51.93, warm)
    cold = 0.275 / (1 + 10 ** (7.204 - ph)) + 39.0 / (1 + 10 ** (ph - 7.204))
    return float(min(cold, _acute_ph_term(ph) * warm))


def chronic_limit_epa2013(ph: float, temperature_c: float) -> float:
    """Total ammonia that a 30-day rolling average must not pass (criterion continuous concentration).

    Args:
        ph: pH, 6.5 to 9.
        temperature_c: degrees Celsius, 0 to 30; below 7 it counts as 7.

    Returns:
        mg/L total ammonia nitrogen. It protects mussels too: for fish alone see :func:`chronic_limit_mussels_absent`.

    Source: azdeq-script (formula); the value below is that of epa2013.

    >>> round(chronic_limit_epa2013(7.0, 20), 1)
    1.9
    """
    return float(_chronic_ph_term(ph) * 2.126 * 10 ** (0.028 * (20 - max(temperature_c, 7))))


def highest_four_day_epa2013(ph: float, temperature_c: float) -> float:
    """Total ammonia that the highest 4-day average within 30 days must not pass: 2.5 times the chronic limit.

    Args:
        ph: pH, 6.5 to 9.
        temperature_c: degrees Celsius, 0 to 30.

    Returns:
        mg/L total ammonia nitrogen.

    Source: epa2013, which prints 4.8 (2.5 times its rounded 1.9).

    >>> round(highest_four_day_epa2013(7.0, 20), 1)
    4.7
    """
    return 2.5 * chronic_limit_epa2013(ph, temperature_c)


def acute_limit_mussels_absent(ph: float, temperature_c: float) -> float:
    """Acute limit of one state for waters without mussels, as a fish tank is; salmonids absent.

    Args:
        ph: pH, 6.5 to 9.
        temperature_c: degrees Celsius, 0 to 30.

    Returns:
        mg/L total ammonia nitrogen; never below :func:`acute_limit_epa2013`.

    Source: azdeq-script (62.15 in place of 23.12). The cap is shared, so in cold water both give one value:

    >>> round(acute_limit_mussels_absent(8.0, 10), 1)
    8.8
    """
    return float(_acute_ph_term(ph) * min(51.93, 62.15 * 10 ** (0.036 * (20 - temperature_c))))


def chronic_limit_mussels_absent(ph: float, temperature_c: float) -> float:
    """Chronic limit of one state for waters without mussels, up to 3.5 times milder than the national one.

    Args:
        ph: pH, 6.5 to 9.
        temperature_c: degrees Celsius, 0 to 30.

    Returns:
        mg/L total ammonia nitrogen.

    Source: azdeq-script (7.547 in place of 2.126). No table was read: the ratio of the two factors is checked.

    >>> round(chronic_limit_mussels_absent(7.0, 20) / chronic_limit_epa2013(7.0, 20), 2)
    3.55
    """
    return chronic_limit_epa2013(ph, temperature_c) * 7.547 / 2.126


acute_limit = acute_limit_epa2013
chronic_limit = chronic_limit_epa2013
