"""Everything the safety rules look at, measured for one substance in this water, by name.

The names are what rules write after ``exposure:``. A measure that matters but could not be computed is missing, by
name; the rules decide what that means.
"""

from __future__ import annotations

import math

import msgspec

from ..model.facts import GuardFacts
from ..model.interval import Interval
from ..model.substance import Trait
from .exposure import Reckoned
from .filtering import filter_data, filter_level_mg_l
from .notes import draws_oxygen, moves_ph
from .setting import Plan
from .toxicity import CHRONIC, Chosen, Kind, Lookup, becomes_ammonia, choose_value, data_on, lowest_known

#: Traits whose level in the water is a measure of its own (mg/L), under this name.
_LEVELS: tuple[tuple[Trait, str], ...] = (
    ("film", "film"),
    ("salt", "salt-rise"),
    ("chlorine", "chlorine"),
)
Named = dict[str, float | None]  # None: it matters and could not be computed


class Measured(msgspec.Struct, frozen=True, kw_only=True):
    """The measures, what is missing, and the values behind the quotients, by kind of animal."""

    exposures: dict[str, Interval]
    missing: frozenset[str]
    chosen: dict[Kind, Chosen | None]
    data: dict[Kind, str]


class Levels(msgspec.Struct, frozen=True, kw_only=True):
    """Concentrations by what happened: {'sprayed': …, 'spilled': …}, or {'dosed': …}; mg/L, None if unknown.

    ``single_mg_l`` is one filling or one day's dose. What passes within a day (oxygen drawn, pH moved) is measured by
    it, for a dose.
    """

    by_event: dict[str, float | None]
    single_mg_l: float | None

    @classmethod
    def of(cls, reckoned: Reckoned, plan: Plan) -> Levels:
        exposure = reckoned.exposure
        if plan.way == "dosed":
            events = {"dosed": exposure.as_sprayed_mg_l}
        else:
            events = {"sprayed": exposure.as_sprayed_mg_l, "spilled": exposure.spilled_mg_l}
        return cls(by_event=events, single_mg_l=reckoned.single_mg_l)


def measure(lookup: Lookup, plan: Plan, reckoned: Reckoned) -> Measured:
    """All measures of a substance used like this in this water."""
    levels = Levels.of(reckoned, plan)
    kinds: list[Kind] = ["fish", "crustacean"] if lookup.water.crustaceans_kept else ["fish"]
    named: Named = {}
    for kind in kinds:
        named |= _dosed(lookup, kind, levels) if plan.way == "dosed" else _sprayed(lookup, kind, levels, plan)
    named |= _in_the_water(lookup, levels)
    return Measured(
        exposures={name: Interval.exactly(value) for name, value in sorted(named.items()) if value is not None},
        missing=frozenset(name for name, value in named.items() if value is None),
        chosen={kind: _shown(lookup, kind, plan) for kind in kinds},
        data={kind: data_on(lookup, kind) for kind in kinds},
    )


def as_facts(lookup: Lookup, plan: Plan, measured: Measured) -> GuardFacts:
    """The measures as the safety rules are told them, with the water and what is known of it."""
    water, substance = lookup.water, lookup.substance
    system = {"cover": plan.cover, "way": plan.way, "filter-data": filter_data(substance)}
    system |= {f"{kind}-data": data for kind, data in measured.data.items()}
    system["animals"] = "told" if water.animals else "not-told"
    system["volume"] = "told" if water.volume_l is not None else "not-told"
    return GuardFacts(
        substance=substance.name, exposures=measured.exposures, missing=measured.missing,
        traits=frozenset(substance.traits), animals=water.animals, readings=water.readings, system=system,
    )  # fmt: skip


def risk_quotient(level_mg_l: float, value_mg_l: float) -> float:
    """Exposure over effect: how far a level in the water reaches towards the one that does the harm.

    Args:
        level_mg_l: level in the water, mg/L.
        value_mg_l: published value (LC50 or EC50 for days, NOEC for longer), mg/L, above 0.

    Returns:
        Ratio, not per cent.

    Source: epa-toera-riskchar. Molinate and carp, 0.04409 over 0.21 mg/L; the study prints a hundred times as much
    (wanhu2012):

    >>> round(risk_quotient(0.04409, 0.21), 4)
    0.21
    """
    return level_mg_l / value_mg_l


def _quotient(level: float | None, limit: float | None) -> float | None:
    return None if level is None or not limit else risk_quotient(level, limit)


def _shown(lookup: Lookup, kind: Kind, plan: Plan) -> Chosen | None:
    return choose_value(lookup, kind, margins=plan.way != "dosed")


def _sprayed(lookup: Lookup, kind: Kind, levels: Levels, plan: Plan) -> Named:
    """Quotients of something that is not meant for the water, and the lowest value known at all."""
    chosen = choose_value(lookup, kind)
    limit = chosen.effective_mg_l if chosen else None
    named: Named = {f"{kind}-quotient-{event}": _quotient(level, limit) for event, level in levels.by_event.items()}
    if (lowest := lowest_known(lookup.substance, kind)) is not None:
        named[f"{kind}-lowest-mg-l"] = lowest[0]
    if plan.times > 1 and (lasting := choose_value(lookup, kind, CHRONIC)) is not None:
        level = levels.by_event["sprayed"]
        named[f"{kind}-lasting-quotient-sprayed"] = _quotient(level, lasting.effective_mg_l)
    return named


def _dosed(lookup: Lookup, kind: Kind, levels: Levels) -> Named:
    """Quotients of something put into the water on purpose.

    Ten times too much in one go takes the place of the margins between animals. A level that only proved harmless
    says how far anybody tested, not how much is too much. What harms by moving pH is gone by the next day's dose, and
    its tenfold is measured by the pH.
    """
    moves = moves_ph(lookup.substance)
    level = levels.single_mg_l if moves else levels.by_event["dosed"]
    harmful = choose_value(lookup, kind, margins=False, floors=False)
    any_value = harmful or choose_value(lookup, kind, margins=False)
    if any_value is None or level is None or levels.single_mg_l is None:
        return {f"{kind}-quotient-dosed": None}
    if harmful is None:
        return {f"{kind}-tested-share-dosed": _quotient(level, any_value.effective_mg_l)}
    named: Named = {f"{kind}-quotient-dosed": _quotient(level, harmful.effective_mg_l)}
    if not moves:
        overdose = levels.single_mg_l * lookup.assumed.margin("overdose")
        named[f"{kind}-quotient-overdosed"] = _quotient(overdose, harmful.effective_mg_l)
    return named


def _in_the_water(lookup: Lookup, levels: Levels) -> Named:
    """What it does to the water itself and to the filter, for each event."""
    substance = lookup.substance
    named: Named = {}
    for event, level in levels.by_event.items():
        passing = levels.single_mg_l if event == "dosed" else level
        named |= {f"{name}-{event}-mg-l": level for trait, name in _LEVELS if trait in substance.traits}
        if draws_oxygen(substance):
            named[f"oxygen-drawn-share-{event}"] = _oxygen_share(lookup, passing)
        if moves_ph(lookup.substance):
            named[f"ph-shift-share-{event}"] = _buffer_share(lookup, passing)
        if (stops := filter_level_mg_l(substance)) is not None:
            named[f"filter-quotient-{event}"] = _quotient(level, stops)
        if becomes_ammonia(substance):
            named[f"ammonia-limit-share-{event}"] = _ammonia_share(lookup, passing)
    if "dosed" in levels.by_event:
        named |= _overdosed(lookup, levels.single_mg_l)
    return named


def _overdosed(lookup: Lookup, single: float | None) -> Named:
    """What ten times the dose would do to the water."""
    tenfold = None if single is None else single * lookup.assumed.margin("overdose")
    named: Named = {}
    if moves_ph(lookup.substance):
        named["ph-shift-share-overdosed"] = _buffer_share(lookup, tenfold)
    if becomes_ammonia(lookup.substance):
        named["ammonia-limit-share-overdosed"] = _ammonia_share(lookup, tenfold)
    return named


def _ammonia_share(lookup: Lookup, level: float | None) -> float | None:
    """Total ammonia with what is added, as a share of this water's acute limit."""
    share, tan = lookup.substance.element_share, lookup.water.reading("tan")
    if level is None or share is None:
        return None
    limit = lookup.water.reading("ammonia-acute-limit")
    allowed = lookup.assumed.margin("ammonia-limit-unmeasured") if limit is None or limit.low <= 0 else limit.low
    already = 0.0 if tan is None or math.isinf(tan.high) else tan.high
    return (already + level * share.value) / allowed


def _oxygen_share(lookup: Lookup, level: float | None) -> float | None:
    """Oxygen it draws when all of it is eaten, as a share of what this water holds."""
    demand = lookup.substance.oxygen_demand
    per_gram = lookup.assumed.margin("oxygen-demand-unmeasured") if demand is None else demand.value
    return None if level is None else oxygen_share(level, per_gram, oxygen_held(lookup))


def oxygen_share(level_mg_l: float, demand_g_g: float, oxygen_mg_l: float) -> float:
    """Oxygen drawn when all of a substance is eaten, as a share of the oxygen in the water.

    Args:
        level_mg_l: substance in the water, mg/L.
        demand_g_g: oxygen demand, g O2 per g.
        oxygen_mg_l: oxygen in the water, mg/L, above 0.

    Returns:
        Share; 1 and more means that nothing is left without aeration.

    Source: stoichiometry. Four grams of ethanol (2.08 g/g) in 1,000 L of water that holds 8.3 mg/L use it all up:

    >>> round(oxygen_share(4, 2.08, 8.3), 2)
    1.0
    """
    return level_mg_l * demand_g_g / oxygen_mg_l


def oxygen_held(lookup: Lookup) -> float:
    """Oxygen in the water, mg/L: the low end of the reading, else what the caller knows, else the assumption."""
    water = lookup.water
    reading = water.reading("oxygen")
    told = water.oxygen_mg_l if reading is None or reading.low <= 0 else reading.low
    return told if told is not None and told > 0 else lookup.assumed.margin("oxygen-unmeasured")


def _buffer_share(lookup: Lookup, level: float | None) -> float | None:
    """Alkalinity it uses up or adds, as a share of this water's."""
    known = lookup.substance.alkalinity_per_g
    per_gram = lookup.assumed.margin("alkalinity-per-g-unmeasured") if known is None else abs(known.value)
    reading = lookup.water.reading("alkalinity")
    held = reading.low if reading is not None and reading.low > 0 else lookup.assumed.margin("alkalinity-unmeasured")
    return None if level is None else per_gram * level / held
