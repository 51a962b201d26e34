"""Nitrogen from feed, the acid it makes on its way to nitrate, and how long alkalinity lasts."""

from __future__ import annotations

from bisect import bisect_right

ALKALINITY_PER_G_N = 7.14  # filter-maker-alkalinity; 7.05 and 7.15 are printed too
ALKALINITY_RETURNED_PER_G_N = {"theory": 3.57, "observed": 3.0}  # denit-handbook
OXYGEN_PER_G_N = {"filter-maker-alkalinity": 4.18, "gujer-jenkins": 4.33, "ebeling2006": 4.57}  # the last from memory
#: What each degree does to the speed of nitrifiers where the water warms or cools slowly (nitrification-theta).
RATE_PER_DEGREE = 1.072
#: Relative activity of nitrifiers by pH, 1.00 at pH 7.2 (weat-alk101, wastewater).
RATE_BY_PH: tuple[tuple[float, float], ...] = ((6.2, 0.17), (6.6, 0.50), (7.0, 0.83), (7.2, 1.00))


def tan_from_feed_ksu2021(feed_g: float, protein: float) -> float:
    """Total ammonia nitrogen that fish give off from their feed.

    Args:
        feed_g: feed, g (per day gives g per day).
        protein: protein as a fraction of the feed, 0 to 1.

    Returns:
        g N. 0.092 = 16 % nitrogen in protein × 80 % taken up × 80 % given off × 90 % of that as ammonia.

    Source: ksu2021 (its footnote misprints the constant as 0.92).

    >>> round(tan_from_feed_ksu2021(2000, 0.32), 1)
    58.9
    """
    return feed_g * protein * 0.092


def tan_from_feed_consultancy(feed_g: float, protein: float) -> float:
    """The same by another rule, 11 % higher: 64 % of the feed's nitrogen is given off.

    Args:
        feed_g: feed, g.
        protein: fraction of the feed.

    Returns:
        g N.

    Source: web-consultancy-tan, which rounds the factor to 0.10.

    >>> round(tan_from_feed_consultancy(1, 1), 2)
    0.1
    """
    return feed_g * protein * 0.16 * 0.64


tan_from_feed = tan_from_feed_ksu2021


def tan_from_biomass(fish: float, mean_g: float, rate_mg_per_100g: float = 25.0) -> float:
    """Ammonia from the mass of fish, a rule of thumb.

    Args:
        fish: number of fish.
        mean_g: mean mass, g.
        rate_mg_per_100g: mg of ammonia per 100 g of fish and day.

    Returns:
        g per day.

    Source: fisheries-blog.

    >>> tan_from_biomass(1000, 75)
    18.75
    """
    return fish * mean_g / 100 * rate_mg_per_100g / 1000


def ration(biomass: float, percent_per_day: float) -> float:
    """Feed for a mass of fish.

    Args:
        biomass: mass of fish.
        percent_per_day: ration, per cent of their mass.

    Returns:
        Feed per day in the unit of the mass.

    Source: losordo-flow (50 m3 at 80 kg/m3, 1.5 %).

    >>> ration(50 * 80, 1.5)
    60.0
    """
    return biomass * percent_per_day / 100


def plant_area(feed_g_per_day: float, ratio_g_per_m2_day: float) -> float:
    """Plant area that a daily ration feeds.

    Args:
        feed_g_per_day: feed, g per day.
        ratio_g_per_m2_day: g of feed per m2 of plants and day (60 to 100 for rafts in rakocy2007).

    Returns:
        m2.

    Source: rakocy2007.

    >>> round(plant_area(1000, 60), 1)
    16.7
    """
    return feed_g_per_day / ratio_g_per_m2_day


def alkalinity_consumed(nitrogen_g: float) -> float:
    """Alkalinity used up when ammonia becomes nitrate.

    Args:
        nitrogen_g: nitrogen turned to nitrate, g (or mg/L).

    Returns:
        As CaCO3, in the unit of the nitrogen.

    Source: filter-maker-alkalinity.

    >>> alkalinity_consumed(1)
    7.14
    """
    return nitrogen_g * ALKALINITY_PER_G_N


def alkalinity_to_add(nitrogen_mg_l: float, alkalinity_mg_l_caco3: float, residual_mg_l_caco3: float) -> float:
    """Alkalinity to add so that some is left once the nitrogen has been turned to nitrate.

    Args:
        nitrogen_mg_l: nitrogen to be turned to nitrate, mg/L.
        alkalinity_mg_l_caco3: what the water has.
        residual_mg_l_caco3: what shall be left (weat-alk101: 70 to 80 in wastewater).

    Returns:
        mg/L as CaCO3, 0 when there is enough.

    Source: wateronline (its inputs; the answer is arithmetic).

    >>> round(alkalinity_to_add(25, 125, 75), 1)
    128.5
    """
    return max(0.0, alkalinity_consumed(nitrogen_mg_l) + residual_mg_l_caco3 - alkalinity_mg_l_caco3)


def buffer_days(alkalinity_mg_l_caco3: float, nitrogen_mg_l_per_day: float, residual_mg_l_caco3: float = 0.0) -> float:
    """Days until nitrification has used the alkalinity down to a residual, if nothing brings any back.

    Args:
        alkalinity_mg_l_caco3: mg/L as CaCO3.
        nitrogen_mg_l_per_day: nitrogen turned to nitrate, mg/L per day; 0 makes it last for ever.
        residual_mg_l_caco3: where to stop.

    Returns:
        Days, 0 when already below the residual.

    Source: filter-maker-alkalinity (7.14 mg/L of alkalinity last one day at 1 mg/L of nitrogen a day).

    >>> buffer_days(7.14, 1.0)
    1.0
    """
    spare = max(0.0, alkalinity_mg_l_caco3 - residual_mg_l_caco3)
    return spare / alkalinity_consumed(nitrogen_mg_l_per_day) if nitrogen_mg_l_per_day > 0 else float("inf")


def nitrification_rate(ph: float) -> float:
    """Relative speed of nitrification by pH, along straight lines between the printed points.

    Args:
        ph: pH; below 6.2 the value at 6.2 stands, above 7.2 that at 7.2.

    Returns:
        Fraction of the speed at pH 7.2. purdue2023 saw no loss at 6.0 in filters that were used to it.

    Source: weat-alk101.

    >>> nitrification_rate(6.6), round(nitrification_rate(6.8), 3)
    (0.5, 0.665)
    """
    points = [point[0] for point in RATE_BY_PH]
    clamped = min(max(ph, points[0]), points[-1])
    right = min(bisect_right(points, clamped), len(points) - 1)
    (ph0, low), (ph1, high) = RATE_BY_PH[right - 1], RATE_BY_PH[right]
    return low + (high - low) * (clamped - ph0) / (ph1 - ph0)


def nitrification_rate_by_warmth(temperature_c: float) -> float:
    """Relative speed of nitrification by temperature, where the filter had weeks to get used to it.

    Args:
        temperature_c: degrees Celsius.

    Returns:
        Fraction of the speed at 20 degrees; a sudden fall of ten degrees costs a fifth more.

    Source: nitrification-theta. Ten degrees less halve it:

    >>> round(nitrification_rate_by_warmth(10), 2)
    0.5
    """
    return float(RATE_PER_DEGREE ** (temperature_c - 20))
