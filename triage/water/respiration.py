"""How fast fish and filter use up oxygen, and how long what is in the water lasts once nothing brings more."""

from __future__ import annotations

from ..model.interval import Interval

#: fu2005 (southern catfish at 27.5 degrees, abstract read): oxygen of unfed fish, mg for each kg and hour, and what
#: each per cent of their mass in feed adds to it at the peak.
UNFED_MG_KG_H, FED_MG_KG_H_PER_PERCENT, AT_C = 175.4, 47.3, 27.5
#: sea-cage-oxygen: ten degrees more than double what fish use (sea bass and sea bream); twice is reckoned with.
TIMES_PER_TEN_DEGREES = 2.0
#: boyd-feed-oxygen: all oxygen that feed calls for in the end, fish and bacteria together, g for each g of feed.
OXYGEN_PER_G_FEED = 1.25


def fish_mg_h(stock_kg: float, feed_g: float, temperature_c: float) -> float:
    """Oxygen that the fish themselves use at the peak after feeding.

    Args:
        stock_kg: mass of all fish, kg, above 0.
        feed_g: feed, g per day.
        temperature_c: degrees Celsius.

    Returns:
        mg per hour; grows with each of the three.

    Source: fu2005, which measured 207.8 mg/kg/h at a ration of 0.5 % and 378.8 at 4 % (the line lies 4 % below both):

    >>> round(fish_mg_h(1, 5, 27.5)), round(fish_mg_h(1, 40, 27.5))
    (199, 365)
    """
    percent = feed_g / 10 / stock_kg if stock_kg > 0 else 0.0
    warmth: float = TIMES_PER_TEN_DEGREES ** ((temperature_c - AT_C) / 10)
    return stock_kg * (UNFED_MG_KG_H + FED_MG_KG_H_PER_PERCENT * percent) * warmth


def system_mg_h(stock_kg: float, feed_g: float, temperature_c: float) -> Interval:
    """Oxygen that fish and bacteria use together.

    Args:
        stock_kg, feed_g, temperature_c: see :func:`fish_mg_h`.

    Returns:
        mg per hour: from unfed fish alone to fed fish, or to all that the feed calls for spread over the day, whichever
        is more.

    Source: fu2005, boyd-feed-oxygen (1.25 kg of oxygen for each kilo of feed, fish and bacteria together):

    >>> round(system_mg_h(1, 1000, 20).high * 24 / 1e6, 2)
    1.25
    """
    unfed, fed = fish_mg_h(stock_kg, 0.0, temperature_c), fish_mg_h(stock_kg, feed_g, temperature_c)
    return Interval(unfed, max(fed, feed_g * OXYGEN_PER_G_FEED * 1000 / 24))


def hours_left(oxygen_mg_l: float, least_mg_l: float, volume_l: float, use_mg_h: float) -> float:
    """Hours until oxygen is down to a level, if nothing brings any.

    Args:
        oxygen_mg_l: in the water now.
        least_mg_l: the level that the animals just bear.
        volume_l: water that the fish share, L.
        use_mg_h: oxygen used, mg per hour.

    Returns:
        Hours, 0 when it is there already. Air at a still surface brings a little; this leaves it out.

    Source: arithmetic: 1000 L that hold 4 mg/L more than needed last a day at 4000 mg a day.

    >>> round(hours_left(8, 4, 1000, 4000 / 24), 6)
    24.0
    """
    spare = max(0.0, oxygen_mg_l - least_mg_l) * volume_l
    return spare / use_mg_h if use_mg_h > 0 else float("inf")
