"""What the engine cannot hold, said before it is built: for the checker of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..model.rule import HEADS, Condition, Rule, Stage
from .layers import CircleError, conclusions_in, layer_rules, stage_of
from .texts import FREE_NAMES, names_in, templates_of
from .ways import SYSTEM_KEYS, ConditionError, list_ways, walk, written

_CASE_HEADS = frozenset(HEADS) - {"suspect", "exposure", "no_exposure", "trait"}
_GUARD_HEADS = frozenset(
    {"all", "any", "not_", "reading", "no_reading", "animal", "system", "exposure", "no_exposure", "trait"}
)
_HEADS: dict[Stage, frozenset[str]] = {
    "alarm": _CASE_HEADS,
    "conclude": _CASE_HEADS,
    "favour": _CASE_HEADS,
    "respond": _CASE_HEADS | {"suspect"},
    "guard": _GUARD_HEADS,
}


def check_rule(rule: Rule) -> list[str]:
    """What is wrong with one rule by itself; nothing for a sound one."""
    return [*_outcome_faults(rule), *_condition_faults(rule), *_reason_faults(rule)]


def rule_faults(rules: Mapping[str, Rule]) -> list[tuple[str, str]]:
    """(rule id, what is wrong) for a whole book of rules, in its order: each rule, then how they rest on each other."""
    faults = [(id_, fault) for id_, rule in rules.items() for fault in check_rule(rule)]
    drawn = {rule.conclude for rule in rules.values() if rule.conclude}
    for id_, rule in rules.items():
        unknown = sorted(conclusions_in(rule.when) - drawn)
        faults += [(id_, f"no rule concludes '{conclusion}'") for conclusion in unknown]
    return faults + _circles(rules)


def _outcome_faults(rule: Rule) -> Iterator[str]:
    try:
        stage_of(rule)
    except ValueError as error:
        yield str(error)
    if (rule.grade is None) != (rule.harm is None):
        yield "a grade needs the harm it is given for, and a harm its grade"
    for first, second in (("favour", "against"), ("offer", "set_aside")):
        for id_ in sorted(set(getattr(rule, first)) & set(getattr(rule, second))):
            yield f"'{id_}' stands in both {first} and {second.replace('_', '-')}"


def _condition_faults(rule: Rule) -> Iterator[str]:
    try:
        ways = list_ways(rule.when)
    except ConditionError as error:
        yield str(error)
        return
    if not all(any(not (need.kind == "conclusion" and need.other) for need in way) for way in ways):
        yield "a rule cannot rest only on what was not concluded: add something that is known"
    yield from _strange_heads(rule)


def _strange_heads(rule: Rule) -> Iterator[str]:
    try:
        stage = stage_of(rule)
    except ValueError:
        return
    for head in sorted(_heads_in(rule.when) - _HEADS[stage]):
        allowed = ", ".join(written(head) for head in HEADS if head in _HEADS[stage])
        yield f"'{written(head)}' is not known to a rule of the stage {stage} (allowed: {allowed})"
    keys = {inner.system for inner, _ in walk(rule.when) if inner.system is not None} - set(SYSTEM_KEYS)
    if stage != "guard" and keys:
        yield f"a case tells nothing of the system's '{min(keys)}' (allowed: {', '.join(SYSTEM_KEYS)})"


def _heads_in(condition: Condition) -> set[str]:
    return {head for inner, _ in walk(condition) for head in HEADS if getattr(inner, head) is not None}


def _reason_faults(rule: Rule) -> Iterator[str]:
    known = FREE_NAMES | _measured_in(rule.when)
    for text in templates_of(rule):
        for name in names_in(text):
            if name not in known:
                yield f"{{{name}}} names no reading, trend or exposure that the rule looks at"


def _measured_in(condition: Condition) -> frozenset[str]:
    named = ((inner.reading, inner.trend, inner.exposure) for inner, _ in walk(condition))
    return frozenset(name for names in named for name in names if name)


def _circles(rules: Mapping[str, Rule]) -> list[tuple[str, str]]:
    """Every circle of conclusions once, named at its first rule."""
    uses = {id_: conclusions_in(rule.when) for id_, rule in rules.items()}
    draws = {id_: rule.conclude or "" for id_, rule in rules.items()}
    found = []
    while True:
        try:
            layer_rules(uses, draws)
        except CircleError as circle:
            found.append((circle.rules[0], str(circle)))
            draws[circle.rules[-1]] = ""
            continue
        return found
