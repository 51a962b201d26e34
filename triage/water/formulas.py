"""The table of formulas: what each gives, what it needs, and within which limits it was made."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from ..model.interval import Interval
from . import ammonia, carbonate, iron, metals, nitrite, nitrogen, oxygen, respiration


class Formula(msgspec.Struct, frozen=True):
    """One formula over quantities; every one rises or falls steadily with each of its inputs (tested)."""

    name: str  # name of the derived value in output
    quantity: str  # id that rules know it by
    unit: str
    source: str
    needs: tuple[str, ...]  # quantity ids; 'volume' is the system's, in litres
    of: Callable[..., float | Interval]


#: What a family of formulas was made for: outside it the curve is extended and the result says so.
MADE_FOR: dict[str, tuple[tuple[str, float, float], ...]] = {
    "epa2013": (("ph", 6.5, 9.0), ("temperature", 0, 30)),
    "emerson1975": (("temperature", 0, 50),),
    "sears2002": (("ph", 6.0, 8.4), ("temperature", 0, 30)),
    "wql-oxysol": (("temperature", 0, 40),),
    "cfr132": (("hardness", 25, 400),),
    "weat-alk101": (("ph", 6.2, 7.2),),
    "nitrification-theta": (("temperature", 8, 30),),
    "fu2005": (("temperature", 15, 30),),
}


def share_of(amount: float, limit: float) -> float:
    """Amount as a multiple of a limit; infinite where the limit is nothing and the amount is not.

    >>> share_of(1, 4), share_of(0, 0)
    (0.25, 0.0)
    """
    if limit > 0:
        return amount / limit
    return float("inf") if amount > 0 else 0.0


def _tan_per_day(feed_g: float, protein_percent: float, volume_l: float) -> float:
    return nitrogen.tan_from_feed(feed_g, protein_percent / 100) * 1000 / volume_l


def _saturation(temperature_c: float, salinity_g_kg: float, pressure_hpa: float) -> float:
    atmospheres = pressure_hpa / oxygen.HPA_PER_ATM
    return oxygen.saturation(temperature_c, salinity_g_kg=salinity_g_kg, pressure_atm=atmospheres)


def _oxygen(percent: float, temperature_c: float, salinity_g_kg: float, pressure_hpa: float) -> float:
    return percent / 100 * _saturation(temperature_c, salinity_g_kg, pressure_hpa)


def _percent(oxygen_mg_l: float, temperature_c: float, salinity_g_kg: float, pressure_hpa: float) -> float:
    return oxygen.percent_of_saturation(oxygen_mg_l, _saturation(temperature_c, salinity_g_kg, pressure_hpa))


def _chronic_share(tan_mg_l: float, ph: float, temperature_c: float) -> float:
    return share_of(tan_mg_l, ammonia.chronic_limit(ph, temperature_c))


def _copper_share(copper_mg_l: float, hardness_mg_l_caco3: float) -> float:
    return share_of(copper_mg_l * 1000, metals.copper_acute_limit(hardness_mg_l_caco3))


def _buffer_days(alkalinity: float, feed_g: float, protein_percent: float, volume_l: float) -> float:
    return nitrogen.buffer_days(alkalinity, _tan_per_day(feed_g, protein_percent, volume_l))


def _hours_left(
    oxygen_mg_l: float, least_mg_l: float, volume_l: float, stock_kg: float, feed_g: float, temperature_c: float
) -> Interval:
    use = respiration.system_mg_h(stock_kg, feed_g, temperature_c)
    hours = [respiration.hours_left(oxygen_mg_l, least_mg_l, volume_l, rate) for rate in (use.high, use.low)]
    return Interval(hours[0], hours[1])


def _after_top_up(top_up_mg_l: float, litres: float, volume_l: float) -> float:
    return top_up_mg_l * min(litres / volume_l, 1.0)


def _tan_g(feed_g: float, protein_percent: float) -> Interval:
    protein = protein_percent / 100
    return Interval(nitrogen.tan_from_feed(feed_g, protein), nitrogen.tan_from_feed_consultancy(feed_g, protein))


def _area(feed_g: float) -> Interval:
    return Interval(nitrogen.plant_area(feed_g, RAFT_G_PER_M2[1]), nitrogen.plant_area(feed_g, RAFT_G_PER_M2[0]))


def _tan_of_stock(stock_kg: float) -> float:
    return nitrogen.tan_from_biomass(1, stock_kg * 1000)


def _density(stock_kg: float, volume_l: float) -> float:
    return stock_kg * 1000 / volume_l


def _ration(stock_kg: float) -> Interval:
    low, high = (nitrogen.ration(stock_kg * 1000, percent) for percent in RATION_PERCENT)
    return Interval(low, high)


#: Feed for each m2 of rafts and day (rakocy2007), and a usual ration in per cent of the fish's mass a day (fao589).
RAFT_G_PER_M2 = (60.0, 100.0)
RATION_PERCENT = (1.0, 2.0)
_WARM = ("ph", "temperature")
_TOXIC = ("tan", "ph", "temperature")
_AIR = ("temperature", "salinity", "pressure")


def formulas(*, salmonids: bool) -> tuple[Formula, ...]:
    """Every formula, in an order in which later ones may use earlier ones; of two of one name the first counts."""
    f = Formula

    def acute(ph: float, temperature_c: float) -> float:
        return ammonia.acute_limit(ph, temperature_c, salmonids=salmonids)

    def acute_share(tan_mg_l: float, ph: float, temperature_c: float) -> float:
        return share_of(tan_mg_l, acute(ph, temperature_c))

    chronic, four_day = ammonia.chronic_limit, ammonia.highest_four_day_epa2013
    fraction, toxic = ammonia.unionised_fraction, ammonia.unionised_ammonia
    co2, copper = carbonate.carbon_dioxide, metals.copper_acute_limit
    table = (
        f("unionised_ammonia_fraction", "unionised-ammonia-fraction", "fraction", "emerson1975", _WARM, fraction),
        f("unionised_ammonia_mg_l", "unionised-ammonia", "mg/L N", "emerson1975", _TOXIC, toxic),
        f("ammonia_acute_limit_mg_l", "ammonia-acute-limit", "mg/L N", "epa2013", _WARM, acute),
        f("ammonia_chronic_limit_mg_l", "ammonia-chronic-limit", "mg/L N", "epa2013", _WARM, chronic),
        f("ammonia_four_day_limit_mg_l", "ammonia-four-day-limit", "mg/L N", "epa2013", _WARM, four_day),
        f("ammonia_acute_share", "ammonia-acute-share", "of the limit", "epa2013", _TOXIC, acute_share),
        f("ammonia_chronic_share", "ammonia-chronic-share", "of the limit", "epa2013", _TOXIC, _chronic_share),
        f("oxygen_saturation_mg_l", "oxygen-saturation", "mg/L", "wql-oxysol", _AIR, _saturation),
        f("oxygen_mg_l", "oxygen", "mg/L", "wql-oxysol", ("oxygen-percent", *_AIR), _oxygen),
        f("oxygen_percent", "oxygen-percent", "%", "wql-oxysol", ("oxygen", *_AIR), _percent),
        f("alkalinity_mg_l_caco3", "alkalinity", "mg/L CaCO3", "forum-hardness-units", ("alkalinity",), float),
        f("alkalinity_mg_l_caco3", "alkalinity", "mg/L CaCO3", "test-maker-titration",
          ("titration-acid", "titration-strength", "titration-sample"), carbonate.alkalinity_from_titration),
        f("carbon_dioxide_mg_l", "carbon-dioxide", "mg/L", "sears2002", ("ph", "alkalinity", "temperature"), co2),
        f("hardness_mg_l_caco3", "hardness", "mg/L CaCO3", "molar-mass", ("calcium", "magnesium"), carbonate.hardness),
        f("calcium_if_all_calcium_mg_l", "calcium-if-all-calcium", "mg/L", "wurts-hardness", ("hardness",),
          carbonate.calcium_if_all_calcium),
        f("copper_acute_limit_ug_l", "copper-acute-limit", "µg/L", "cfr132", ("hardness",), copper),
        f("copper_acute_share", "copper-acute-share", "of the limit", "cfr132", ("copper", "hardness"), _copper_share),
        f("nitrite_chloride_ratio", "nitrite-chloride-ratio", "times", "srac462", ("chloride", "nitrite"),
          nitrite.chloride_ratio),
        f("nitrification_rate", "nitrification-rate", "fraction", "weat-alk101", ("ph",), nitrogen.nitrification_rate),
        f("nitrification_rate_by_warmth", "nitrification-rate-by-warmth", "fraction", "nitrification-theta",
          ("temperature",), nitrogen.nitrification_rate_by_warmth),
        f("ammonia_given_off_g", "ammonia-given-off", "g N/day", "ksu2021", ("feed", "feed-protein"), _tan_g),
        f("ammonia_from_stock_g", "ammonia-from-stock", "g/day", "fisheries-blog", ("stock",), _tan_of_stock),
        f("stocking_density_kg_m3", "stocking-density", "kg/m3", "losordo-flow", ("stock", "volume"), _density),
        f("plant_area_m2", "plant-area", "m2", "rakocy2007", ("feed",), _area),
        f("usual_ration_g", "usual-ration", "g/day", "fao589", ("stock",), _ration),
        f("oxygen_hours_left", "oxygen-hours-left", "h", "fu2005",
          ("oxygen", "least-oxygen", "volume", "stock", "feed", "temperature"), _hours_left),
        f("oxygen_hours_at_most", "oxygen-hours-at-most", "h", "fu2005",
          ("oxygen-saturation", "least-oxygen", "volume", "stock", "feed", "temperature"), _hours_left),
        f("chlorine_after_top_up_mg_l", "chlorine-after-top-up", "mg/L", "our-judgement",
          ("top-up-chlorine", "top-up-per-day", "volume"), _after_top_up),
        f("buffer_days", "buffer-days", "days", "filter-maker-alkalinity",
          ("alkalinity", "feed", "feed-protein", "volume"), _buffer_days),
    )  # fmt: skip
    return (*table, *(_iron(form) for form in iron.CEILINGS))


def _iron(form: str) -> Formula:
    key, source = form.lower(), iron.CEILINGS[form][0][1]
    name, quantity = f"iron_held_share_{key}", f"iron-held-share-{key}"
    return Formula(name, quantity, "fraction", source, ("ph",), lambda ph: iron.held_share(form, ph))
