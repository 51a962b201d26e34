"""Made-up systems whose pH drifts, each for one reason, and the kits that look at them.

A small mass balance of its own, in moles and equivalents, that shares nothing with the code under test: fish give off
ammonia, a filter turns as much of it to nitrate as its bacteria can at this temperature, plants and airless sludge take
nitrate away, stones dissolve while the water is below their own pH, and people add water and base. pH follows from
alkalinity at a fixed carbon dioxide. Rates are of our own choosing; the stoichiometry is that of any textbook.
"""

from __future__ import annotations

import datetime
import math
import random
from collections.abc import Callable
from dataclasses import dataclass

START = datetime.date(2026, 3, 1)
DAYS = 56
LITRES = 1000.0
CACO3_G_PER_EQ = 50.04
EXCRETED = 0.097  # g of nitrogen for each g of feed and unit of protein, between the two published rules
PROTEIN = 0.32
FREE_CO2_MMOL_L = 0.25
CARD_PH = (6.0, 6.4, 6.6, 6.8, 7.0, 7.2, 7.6)
CARD_TAN = (0, 0.25, 0.5, 1, 2, 4, 8)
CARD_NITRATE = (0, 5, 10, 20, 40, 80, 160)


def always(value: float) -> Callable[[int], float]:
    return lambda day: value


def ramp(first: float, last: float) -> Callable[[int], float]:
    return lambda day: first + (last - first) * day / DAYS


USUAL_FEED, WARM = always(30), always(24)


@dataclass(frozen=True)
class System:
    """Each day: feed (g), temperature (°C), base (g KHCO3), top-up (L, mg/L CaCO3 of alkalinity and of hardness),
    stones (mol CaCO3 for each pH unit below 8), share of the nitrate made that sludge takes (may pass 1)."""

    feed_g: Callable[[int], float] = USUAL_FEED
    temperature_c: Callable[[int], float] = WARM
    base_g: float = 11.3
    top_up_l: float = 20.0
    top_up_mg_l: float = 10.0
    stones: float = 0.0
    sludge: float = 0.0
    alkalinity_mg_l: float = 60.0
    nitrate_n_mg_l: float = 10.0
    plants: float = 0.3  # share of the nitrogen given off that plants take


@dataclass
class Water:
    alkalinity_eq: float
    calcium_mol: float
    nitrate_mol: float
    ammonia_mol: float

    @property
    def ph(self) -> float:
        return 6.35 + math.log10(self.alkalinity_eq / LITRES * 1000 / FREE_CO2_MMOL_L)

    @property
    def mg_l(self) -> dict[str, float]:
        """What a perfect laboratory would find, in the units of the kits."""
        return {
            "ph": self.ph,
            "alkalinity": self.alkalinity_eq * CACO3_G_PER_EQ * 1000 / LITRES,
            "hardness": self.calcium_mol * 2 * CACO3_G_PER_EQ * 1000 / LITRES,
            "nitrate": self.nitrate_mol * 62.004 * 1000 / LITRES,
            "tan": self.ammonia_mol * 14.007 * 1000 / LITRES,
        }


def step(water: Water, system: System, day: int) -> None:
    """One day."""
    given_off = system.feed_g(day) * PROTEIN * EXCRETED / 14.007
    most = 0.085 * 1.072 ** (system.temperature_c(day) - 20)  # what the filter can turn over
    turned = min(water.ammonia_mol + given_off, most)
    water.ammonia_mol += given_off - turned
    taken = min(water.nitrate_mol + turned, turned * (system.plants + system.sludge))
    water.nitrate_mol += turned - taken
    dissolved = system.stones * max(0.0, 8.0 - water.ph)
    water.calcium_mol += dissolved + system.top_up_l * system.top_up_mg_l / 1000 / (2 * CACO3_G_PER_EQ)
    water.alkalinity_eq += (
        -2 * turned + taken + 2 * dissolved + system.base_g / 100.115
        + system.top_up_l * system.top_up_mg_l / 1000 / CACO3_G_PER_EQ
    )  # fmt: skip


def run(system: System) -> list[dict[str, float]]:
    """What is in the water at the start and after each day."""
    water = Water(
        system.alkalinity_mg_l / CACO3_G_PER_EQ * LITRES / 1000, 100 / (2 * CACO3_G_PER_EQ) * LITRES / 1000,
        system.nitrate_n_mg_l / 14.007 * LITRES / 1000, 0.1 / 14.007 * LITRES / 1000,
    )  # fmt: skip
    found = [water.mg_l]
    for day in range(DAYS):
        step(water, system, day)
        found.append(water.mg_l)
    return found


SYSTEMS: dict[str, tuple[str, System]] = {
    "stones": ("ph-high-carbonate-media", System(base_g=0, stones=0.14)),
    "airless waste": ("ph-rising-anaerobic-waste", System(sludge=1.3, nitrate_n_mg_l=36)),
    "alkaline top-up": ("ph-high-alkaline-water", System(base_g=0, top_up_l=32, top_up_mg_l=280)),
    "too much base": ("base-overdose", System(base_g=18.5)),
    "less feed": ("little-feed-in-cold", System(feed_g=lambda day: 30 if day < 18 else 8, temperature_c=ramp(22, 15))),
    "cold filter": ("nitrification-slow-cold", System(temperature_c=ramp(20, 6))),
}


def nearest(points: tuple[float, ...], value: float) -> float:
    return min(points, key=lambda point: abs(point - value))


def look_at(
    system: System, *, seed: int, every: int = 7, days: tuple[int, ...] = ()
) -> list[tuple[str, str, str, str]]:
    """A diligent grower's notes, with the noise and the steps of kits: (quantity, value as written, kit, ISO date)."""
    noise = random.Random(seed)
    history = run(system)
    notes = []
    for day in days or range(0, DAYS + 1, every):
        on = (START + datetime.timedelta(days=day)).isoformat()
        found = {name: value * (1 + noise.gauss(0, 0.05)) for name, value in history[day].items() if name != "ph"}
        notes += [
            ("ph", f"{nearest(CARD_PH, history[day]['ph'] + noise.gauss(0, 0.08))}", "card", on),
            ("alkalinity", f"{max(round(found['alkalinity'] / 17.848), 0)} dKH", "drops", on),
            ("hardness", f"{max(round(found['hardness'] / 17.848), 0)} dGH", "drops", on),
            ("nitrate", f"{nearest(CARD_NITRATE, found['nitrate'])} mg/L NO3", "card", on),
            ("tan", f"{nearest(CARD_TAN, found['tan'])} mg/L N", "card", on),
            ("temperature", f"{system.temperature_c(day) + noise.gauss(0, 0.3):.0f}", "meter", on),
            ("feed", f"{system.feed_g(day):g}", "", on),
        ]
    told = {
        "feed-protein": f"{100 * PROTEIN:g}",
        "top-up-per-day": f"{system.top_up_l:g}",
        "top-up alkalinity": f"{system.top_up_mg_l:g}",
        "top-up hardness": f"{system.top_up_mg_l:g}",
        "base-per-day": f"{system.base_g:g} g KHCO3",
    }
    return notes + [(quantity, value, "", START.isoformat()) for quantity, value in told.items()]
