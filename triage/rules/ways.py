"""A condition as the ways in which it can hold: each way a list of needs, all of which must be met.

``not`` is pushed inwards until it says something that can be known: looked for and absent, measured and at most,
another crop. Only a conclusion can be plainly missing, and the layers see to it that it is decided by then.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from math import isnan
from operator import attrgetter

from ..model.rule import HEADS, LIMITS, Condition
from ..model.way import Need, NeedKind, Way

#: What a fact tells and a need asks for: (kind, id or word, state).
Key = tuple[str, str, str]

MOST_WAYS = 16
MOST_CONDITIONS = 40
DEEPEST = 12

_OPPOSITE = {"above": "at_most", "at_least": "below", "below": "at_least", "at_most": "above"}
#: What a case tells of its system.
SYSTEM_KEYS = ("beds", "filter", "top-up", "place")
_TRENDS = ("rising", "falling", "steady")
_read_heads, _read_limits = attrgetter(*HEADS), attrgetter(*LIMITS)
_NUMBER_HEADS = ("reading", "exposure", "suspect")
_WORD_HEADS = ("trend", "system")


class ConditionError(ValueError):
    """A condition that no rule can hold; the text says why and what is allowed."""


def gate_keys(need: Need) -> tuple[Key, ...]:
    """The keys of which one must be told for the need to be met at all; none: it may always be met."""
    if need.kind == "conclusion" and need.other:
        return ()
    if need.kind == "finding":
        return tuple((need.kind, need.id, state) for state in need.values)
    if need.kind in ("crop", "animal", "trait"):
        return tuple((need.kind, word, "") for word in (need.values if not need.other else ("",)))
    return ((need.kind, need.id, ""),)


def list_ways(condition: Condition) -> list[Way]:
    """Every way in which the condition can hold, in the order written, none twice.

    Raises ConditionError for a condition that is malformed, too large, or true of nothing.
    """
    _check_size(condition)
    return list(dict.fromkeys(tuple(dict.fromkeys(way)) for way in _ways(condition, False)))


def walk(condition: Condition) -> Iterator[tuple[Condition, int]]:
    """Every condition in a condition, itself first, with its depth (from 1); no recursion, however deep it is."""
    waiting = [(condition, 1)]
    while waiting:
        inner, depth = waiting.pop()
        yield inner, depth
        for parts in (inner.not_ and [inner.not_], inner.any, inner.all):
            if parts:
                waiting.extend([(part, depth + 1) for part in reversed(parts)])


def _check_size(condition: Condition) -> None:
    for count, (_, depth) in enumerate(walk(condition), start=1):
        if count > MOST_CONDITIONS or depth > DEEPEST:
            raise ConditionError(
                f"more than {MOST_CONDITIONS} conditions or {DEEPEST} levels in one rule: split it by a conclusion"
            )


def _ways(condition: Condition, negated: bool) -> list[Way]:
    head = _head_of(condition)
    if head == "not_" and condition.not_ is not None:
        return _ways(condition.not_, not negated)
    parts = condition.all if head == "all" else condition.any
    if parts is None:
        return _leaf_ways(condition, head, negated)
    if not parts:
        raise ConditionError(f"'{head}' holds no condition")
    inner = [_ways(part, negated) for part in parts]
    return _together(inner) if (head == "all") != negated else _bounded([way for ways in inner for way in ways])


def _together(parts: list[list[Way]]) -> list[Way]:
    found: list[Way] = [()]
    for ways in parts:
        found = _bounded([(*first, *second) for first, second in product(found, ways)])
    return found


def _bounded(ways: list[Way]) -> list[Way]:
    if len(ways) > MOST_WAYS:
        raise ConditionError(f"more than {MOST_WAYS} ways to hold ('any' within 'all' multiply): split it in rules")
    return ways


def _head_of(condition: Condition) -> str:
    values = _read_heads(condition)
    if values.count(None) != len(HEADS) - 1:
        said = ", ".join(written(head) for head in _named(HEADS, values)) or "none"
        raise ConditionError(f"a condition has exactly one head, this has {said}")
    head = _named(HEADS, values)[0]
    _check_limits(condition, head)
    return head


def _named(names: tuple[str, ...], values: tuple[object, ...]) -> list[str]:
    return [name for name, value in zip(names, values, strict=True) if value is not None]


def _check_limits(condition: Condition, head: str) -> None:
    limits = _named(LIMITS, _read_limits(condition))
    if head in _NUMBER_HEADS:
        if not limits or "is_" in limits:
            raise ConditionError(f"'{head}' needs above, at-least, below or at-most")
        _check_range(condition)
    elif head in _WORD_HEADS:
        if limits != ["is_"]:
            raise ConditionError(f"'{head}' needs 'is' and nothing else")
    elif limits:
        raise ConditionError(f"'{written(head)}' takes no '{written(limits[0])}'")


def _check_range(condition: Condition) -> None:
    lower = [value for value in (condition.above, condition.at_least) if value is not None]
    upper = [value for value in (condition.below, condition.at_most) if value is not None]
    if len(lower) > 1 or len(upper) > 1:
        raise ConditionError("one lower and one upper limit at most (above or at-least, below or at-most)")
    if any(isnan(value) for value in lower + upper):
        raise ConditionError("a limit is a number")
    if lower and upper and (lower > upper or (lower == upper and None in (condition.at_least, condition.at_most))):
        raise ConditionError(f"no value lies between {lower[0]:g} and {upper[0]:g}")


def _leaf_ways(condition: Condition, head: str, negated: bool) -> list[Way]:
    return [(need,) for need in _LEAVES[head](condition, negated)]


def _words(value: str | list[str] | None) -> tuple[str, ...]:
    words = (value,) if isinstance(value, str) else tuple(value or ())
    if not words or not all(words):
        raise ConditionError("an empty list of words holds for nothing")
    return words


def _seen(condition: Condition, negated: bool) -> Iterator[Need]:
    yield Need("finding", condition.finding or condition.change or "", ("absent" if negated else "seen",))


def _absent(condition: Condition, negated: bool) -> Iterator[Need]:
    yield Need("finding", condition.absent or "", ("seen" if negated else "absent",))


def _limits(condition: Condition) -> tuple[tuple[str, float], ...]:
    pairs = ((name, getattr(condition, name)) for name in _OPPOSITE)
    return tuple((name, float(value)) for name, value in pairs if value is not None)


def _number(kind: NeedKind, id_: str, condition: Condition, negated: bool) -> Iterator[Need]:
    limits = _limits(condition)
    if not negated:
        yield Need(kind, id_, limits=limits)
        return
    for name, value in limits:
        yield Need(kind, id_, limits=((_OPPOSITE[name], value),))


def _missing(kind: NeedKind, known: NeedKind, id_: str, negated: bool) -> Iterator[Need]:
    yield Need(known if negated else kind, id_)


def _trend(condition: Condition, negated: bool) -> Iterator[Need]:
    words = _words(condition.is_)
    strange = [word for word in words if word not in _TRENDS]
    if strange:
        raise ConditionError(f"a trend is {', '.join(_TRENDS)}, not '{strange[0]}'")
    yield Need("trend", condition.trend or "", words, other=negated)


def _worded(kind: NeedKind, value: str | list[str] | None, negated: bool) -> Iterator[Need]:
    yield Need(kind, values=_words(value), other=negated)


_LEAVES: dict[str, Callable[[Condition, bool], Iterator[Need]]] = {
    "finding": _seen,
    "change": _seen,
    "absent": _absent,
    "reading": lambda c, negated: _number("reading", c.reading or "", c, negated),
    "exposure": lambda c, negated: _number("exposure", c.exposure or "", c, negated),
    "suspect": lambda c, negated: _number("suspect", c.suspect or "", c, negated),
    "no_reading": lambda c, negated: _missing("no-reading", "reading", c.no_reading or "", negated),
    "no_exposure": lambda c, negated: _missing("no-exposure", "exposure", c.no_exposure or "", negated),
    "trend": _trend,
    "conclusion": lambda c, negated: iter((Need("conclusion", c.conclusion or "", other=negated),)),
    "crop": lambda c, negated: _worded("crop", c.crop, negated),
    "animal": lambda c, negated: _worded("animal", c.animal, negated),
    "trait": lambda c, negated: _worded("trait", c.trait, negated),
    "system": lambda c, negated: iter((Need("system", c.system or "", _words(c.is_), other=negated),)),
}


def written(name: str) -> str:
    """A field as authors write it."""
    return name.strip("_").replace("_", "-")
