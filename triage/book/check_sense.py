"""Checks of sense: what is well formed and still wrong, or of no use to anybody."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import combinations

from ..model.cause import Cause
from ..model.rule import HEADS, LIMITS, Condition, Rule
from .check_links import walk_conditions
from .load import Loaded
from .records import texts_of

_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_TAKES_LIMIT = {"reading": True, "exposure": True, "suspect": True, "trend": False, "system": False}
_AFTERMATH_PLACEHOLDERS = {"treatment", "cause", "day", "days", "expected"}
_FREE_PLACEHOLDERS = {"crop", "animal", "probability", "substance"}


def check_sense(loaded: Loaded) -> None:
    """Run every check of sense over what was loaded."""
    _unasked_findings(loaded)
    _cause_tables(loaded)
    _causes(loaded)
    _rules(loaded)
    _aftermath(loaded)
    _conclusions(loaded)
    _treatments(loaded)
    _names(loaded)
    _limits(loaded)
    _memory(loaded)
    _unused_sources(loaded)


def _unasked_findings(loaded: Loaded) -> None:
    asked = {option for question in loaded.entries["questions"].values() for option in question.options}
    for id_ in loaded.entries["findings"]:
        if id_ not in asked:
            loaded.fault("findings", id_, (), "KB203", f"no question asks for '{id_}' (add it to a question's options)")
    for id_, cause in _live_causes(loaded):
        if not asked.intersection(cause.shows):
            loaded.fault("causes", id_, ("shows",), "KB210", f"no question asks for anything that '{id_}' shows")


def _live_causes(loaded: Loaded) -> list[tuple[str, Cause]]:
    return [(id_, cause) for id_, cause in loaded.entries["causes"].items() if cause.status != "retired"]


def _cause_tables(loaded: Loaded) -> None:
    for (first, a), (second, b) in combinations(_live_causes(loaded), 2):
        if a.shows == b.shows:
            loaded.fault("causes", second, ("shows",), "KB204", f"'{second}' shows the same as '{first}'")


def _causes(loaded: Loaded) -> None:
    for id_, cause in _live_causes(loaded):
        if not cause.settle:
            loaded.fault("causes", id_, ("settle",), "KB211", f"'{id_}' names no check that would settle it")
        if not cause.not_to_confuse:
            loaded.fault("causes", id_, (), "KB211", f"'{id_}' says nothing about what it is taken for", "warning")


def check_neighbours(loaded: Loaded, nearest: Mapping[str, Sequence[str]]) -> None:
    """Whether each cause tells itself from those that the ranking finds nearest to it."""
    for id_, others in nearest.items():
        known = loaded.entries["causes"][id_].not_to_confuse
        for other in others:
            if other not in known:
                said = f"'{id_}' does not say how to tell it from '{other}', which the ranking would name in its place"
                loaded.fault("causes", id_, ("not-to-confuse",), "KB217", said, "warning")


def condition_fault(condition: Condition) -> str:
    """What is wrong with one condition on its own; empty if nothing is."""
    heads = [head for head in HEADS if getattr(condition, head) is not None]
    limits = [limit for limit in LIMITS if getattr(condition, limit) is not None]
    if len(heads) != 1:
        said = ", ".join(head.strip("_").replace("_", "-") for head in heads) or "nothing"
        return f"a condition has exactly one head, this has {said}"
    takes = _TAKES_LIMIT.get(heads[0])
    if takes is None:
        return f"'{heads[0]}' takes no limit" if limits else ""
    if takes:
        return "" if limits and "is_" not in limits else f"'{heads[0]}' needs above, at-least, below or at-most"
    return "" if limits == ["is_"] else f"'{heads[0]}' needs 'is:'"


def _rules(loaded: Loaded) -> None:
    for id_, rule in loaded.entries["rules"].items():
        for path, condition in walk_conditions(rule.when):
            if wrong := condition_fault(condition):
                loaded.fault("rules", id_, path, "KB206", wrong)
        if not _has_outcome(rule):
            allowed = "alarm, conclude, favour, against, offer, set-aside, or grade with harm"
            loaded.fault("rules", id_, (), "KB207", f"rule '{id_}' does nothing ({allowed})")
        for name in _strange_placeholders(rule):
            loaded.fault("rules", id_, ("because",), "KB208", f"{{{name}}} is not a reading this rule looks at")


def _has_outcome(rule: Rule) -> bool:
    if (rule.grade is None) != (rule.harm is None):
        return False
    return bool(
        rule.alarm or rule.conclude or rule.favour or rule.against or rule.offer or rule.set_aside or rule.grade
    )


def _strange_placeholders(rule: Rule) -> list[str]:
    known = set(_FREE_PLACEHOLDERS)
    for _, condition in walk_conditions(rule.when):
        known |= {condition.reading or "", condition.exposure or "", condition.trend or ""}
    return sorted(set(_PLACEHOLDER.findall(rule.because)) - known)


def _aftermath(loaded: Loaded) -> None:
    for id_, entry in loaded.entries["aftermath"].items():
        if not (entry.favour or entry.against or entry.set_aside):
            loaded.fault("aftermath", id_, (), "KB207", f"'{id_}' does nothing (allowed: favour, against, set-aside)")
        for name in sorted(set(_PLACEHOLDER.findall(entry.because)) - _AFTERMATH_PLACEHOLDERS):
            loaded.fault("aftermath", id_, ("because",), "KB208", f"{{{name}}} is not known of what was done")


def _conclusions(loaded: Loaded) -> None:
    drawn = {rule.conclude for rule in loaded.entries["rules"].values() if rule.conclude}
    for id_, rule in loaded.entries["rules"].items():
        for path, condition in walk_conditions(rule.when):
            if condition.conclusion is not None and condition.conclusion not in drawn:
                loaded.fault(
                    "rules", id_, (*path, "conclusion"), "KB209", f"no rule concludes '{condition.conclusion}'"
                )


def _treatments(loaded: Loaded) -> None:
    substances = loaded.entries["substances"]
    for id_, treatment in loaded.entries["treatments"].items():
        for number, name in enumerate(treatment.substances):
            substance = substances.get(name)
            if substance is not None and not (substance.toxicity or substance.no_data):
                loaded.fault(
                    "treatments", id_, ("substances", number), "KB205", f"'{name}' has no toxicity rows and no no-data"
                )


def _names(loaded: Loaded) -> None:
    for shelf in ("causes", "treatments", "findings", "crops", "animals", "substances"):
        entries = loaded.entries[shelf]
        counts = Counter(entry.name.lower() for entry in entries.values())
        for id_, entry in entries.items():
            if counts[entry.name.lower()] > 1:
                loaded.fault(shelf, id_, ("name",), "KB213", f"another entry is named '{entry.name}' too", "warning")


def _limits(loaded: Loaded) -> None:
    for id_, quantity in loaded.entries["quantities"].items():
        for key in ("possible", "likely"):
            limits = getattr(quantity, key)
            if (key == "possible" or limits) and (len(limits) != 2 or limits[0] > limits[1]):
                loaded.fault("quantities", id_, (key,), "KB214", f"'{key}' needs [low, high], low first")


def _memory(loaded: Loaded) -> None:
    weak = {id_ for id_, source in loaded.entries["sources"].items() if source.read == "memory"}
    for shelf in ("causes", "treatments", "substances"):
        for id_, entry in loaded.entries[shelf].items():
            if entry.status == "reviewed" and entry.sources and set(entry.sources) <= weak:
                loaded.fault(
                    shelf, id_, ("sources",), "KB212", f"'{id_}' is reviewed but rests on memory alone", "warning"
                )


def _unused_sources(loaded: Loaded) -> None:
    used: set[str] = set()
    for shelf, entries in loaded.entries.items():
        if shelf != "sources":
            used |= {word for entry in entries.values() for word in texts_of(entry)}
    for id_ in loaded.entries["sources"]:
        if id_ not in used:
            loaded.fault("sources", id_, (), "KB215", f"nothing names source '{id_}'", "warning")
