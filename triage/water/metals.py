"""Copper limits for aquatic life, by hardness, from four authorities that disagree.

Units: hardness in mg/L as CaCO3, limits in micrograms of copper per litre. ``share`` 0.960 turns total into dissolved.
"""

from __future__ import annotations

import math

DISSOLVED_SHARE = 0.960
_HARDEST = 400.0  # above this the formulas are not extended: the limit stays


def _hardness_curve(hardness_mg_l_caco3: float, slope: float, intercept: float) -> float:
    if hardness_mg_l_caco3 <= 0:
        return 0.0
    return math.exp(slope * math.log(min(hardness_mg_l_caco3, _HARDEST)) + intercept)


def copper_acute_limit_cfr132(hardness_mg_l_caco3: float, *, dissolved: bool = True) -> float:
    """US federal acute limit (Great Lakes guidance); the strictest of the hardness formulas.

    Args:
        hardness_mg_l_caco3: above 0; the formula was made for 25 to 400.
        dissolved: dissolved copper (default) or total.

    Returns:
        Micrograms per litre; grows with hardness.

    Source: cfr132. No table of it was read; it lies exp(-0.236) below the older form that a state's tests print:

    >>> round(copper_acute_limit_cfr132(225, dissolved=False) / copper_acute_limit_wac(225, dissolved=False), 3)
    0.79
    """
    return _hardness_curve(hardness_mg_l_caco3, 0.9422, -1.700) * (DISSOLVED_SHARE if dissolved else 1)


def copper_chronic_limit_cfr132(hardness_mg_l_caco3: float, *, dissolved: bool = True) -> float:
    """US federal chronic limit.

    Args:
        hardness_mg_l_caco3: above 0; the formula was made for 25 to 400.
        dissolved: dissolved copper (default) or total.

    Returns:
        Micrograms per litre.

    Source: cfr132, coefficients from memory. Below the older form that a state's tests print:

    >>> copper_chronic_limit_cfr132(225, dissolved=False) < 23.6428
    True
    """
    return _hardness_curve(hardness_mg_l_caco3, 0.8545, -1.702) * (DISSOLVED_SHARE if dissolved else 1)


def copper_acute_limit_wac(hardness_mg_l_caco3: float, *, dissolved: bool = True) -> float:
    """Older acute limit, still in the rules of some states; 27 % above the federal one.

    Args:
        hardness_mg_l_caco3: above 0.
        dissolved: dissolved copper (default) or total.

    Returns:
        Micrograms per litre.

    Source: wac-173-201a; the total value below is printed in odeq-pkg-tests.

    >>> round(copper_acute_limit_wac(225, dissolved=False), 4)
    38.0557
    """
    return _hardness_curve(hardness_mg_l_caco3, 0.9422, -1.464) * (DISSOLVED_SHARE if dissolved else 1)


def copper_chronic_limit_wac(hardness_mg_l_caco3: float, *, dissolved: bool = True) -> float:
    """Older chronic limit.

    Args:
        hardness_mg_l_caco3: above 0.
        dissolved: dissolved copper (default) or total.

    Returns:
        Micrograms per litre.

    Source: wac-173-201a; the total value below is printed in odeq-pkg-tests.

    >>> round(copper_chronic_limit_wac(25, dissolved=False), 4)
    3.6166
    """
    return _hardness_curve(hardness_mg_l_caco3, 0.8545, -1.465) * (DISSOLVED_SHARE if dissolved else 1)


def copper_acute_limit_bc2006(hardness_mg_l_caco3: float) -> float:
    """British Columbia's maximum for total copper.

    Args:
        hardness_mg_l_caco3: 0 or more.

    Returns:
        Micrograms per litre.

    Source: bc-limits (a straight line; 2 is its value without hardness).

    >>> copper_acute_limit_bc2006(0)
    2.0
    """
    return 0.094 * hardness_mg_l_caco3 + 2


def copper_chronic_limit_bc2006(hardness_mg_l_caco3: float) -> float:
    """British Columbia's 30-day limit for total copper.

    Args:
        hardness_mg_l_caco3: 0 or more.

    Returns:
        Micrograms per litre.

    Source: bc-limits (2 up to a hardness of 50).

    >>> copper_chronic_limit_bc2006(50), copper_chronic_limit_bc2006(100)
    (2.0, 4.0)
    """
    return 2.0 if hardness_mg_l_caco3 <= 50 else 0.04 * hardness_mg_l_caco3


def copper_guideline_ccme(hardness_mg_l_caco3: float) -> float:
    """Canadian guideline for total copper.

    Args:
        hardness_mg_l_caco3: 0 or more.

    Returns:
        Micrograms per litre.

    Source: statcan-ccme (2 up to a hardness of 90).

    >>> copper_guideline_ccme(90)
    2.0
    """
    return 2.0 if hardness_mg_l_caco3 <= 90 else 0.2 * _hardness_curve(hardness_mg_l_caco3, 0.8545, -1.465)


copper_acute_limit = copper_acute_limit_cfr132
