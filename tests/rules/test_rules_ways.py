"""Conditions as ways to hold: what ``not``, ``any`` and limits become, and what no rule can hold."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from triage.model.rule import Condition
from triage.rules.ways import MOST_WAYS, ConditionError, Need, gate_keys, list_ways, walk


def ways_of(condition: dict[str, Any]) -> list[tuple[Need, ...]]:
    return list_ways(msgspec.convert(condition, Condition))


SEEN, ABSENT = Need("finding", "webbing", ("seen",)), Need("finding", "webbing", ("absent",))
SPOTS, NO_SPOTS = Need("finding", "spots", ("seen",)), Need("finding", "spots", ("absent",))


@pytest.mark.parametrize(
    ("condition", "ways"),
    [
        ({"finding": "webbing"}, [(SEEN,)]),
        ({"change": "webbing"}, [(SEEN,)]),
        ({"absent": "webbing"}, [(ABSENT,)]),
        ({"not": {"finding": "webbing"}}, [(ABSENT,)]),
        ({"not": {"absent": "webbing"}}, [(SEEN,)]),
        ({"not": {"not": {"finding": "webbing"}}}, [(SEEN,)]),
        ({"not": {"reading": "ph", "above": 7}}, [(Need("reading", "ph", limits=(("at_most", 7.0),)),)]),
        ({"not": {"reading": "ph", "at-least": 7}}, [(Need("reading", "ph", limits=(("below", 7.0),)),)]),
        ({"not": {"reading": "ph", "below": 7}}, [(Need("reading", "ph", limits=(("at_least", 7.0),)),)]),
        ({"not": {"reading": "ph", "at-most": 7}}, [(Need("reading", "ph", limits=(("above", 7.0),)),)]),
        ({"reading": "ph", "above": 6, "below": 7}, [(Need("reading", "ph", limits=(("above", 6), ("below", 7))),)]),
        (
            {"not": {"reading": "ph", "above": 6, "below": 7}},
            [
                (Need("reading", "ph", limits=(("at_most", 6.0),)),),
                (Need("reading", "ph", limits=(("at_least", 7.0),)),),
            ],
        ),
        ({"no-reading": "ph"}, [(Need("no-reading", "ph"),)]),
        ({"not": {"no-reading": "ph"}}, [(Need("reading", "ph"),)]),
        ({"not": {"no-exposure": "fish-quotient"}}, [(Need("exposure", "fish-quotient"),)]),
        ({"not": {"exposure": "q", "at-least": 0.5}}, [(Need("exposure", "q", limits=(("below", 0.5),)),)]),
        ({"not": {"suspect": "mites", "at-least": 0.3}}, [(Need("suspect", "mites", limits=(("below", 0.3),)),)]),
        ({"trend": "ph", "is": "rising"}, [(Need("trend", "ph", ("rising",)),)]),
        ({"not": {"trend": "ph", "is": ["rising"]}}, [(Need("trend", "ph", ("rising",), other=True),)]),
        ({"not": {"crop": "basil"}}, [(Need("crop", "", ("basil",), other=True),)]),
        ({"animal": ["shrimp", "fish"]}, [(Need("animal", "", ("shrimp", "fish")),)]),
        ({"not": {"conclusion": "c"}}, [(Need("conclusion", "c", other=True),)]),
        ({"not": {"system": "beds", "is": "media"}}, [(Need("system", "beds", ("media",), other=True),)]),
        ({"not": {"trait": "film"}}, [(Need("trait", "", ("film",), other=True),)]),
        ({"all": [{"finding": "webbing"}, {"finding": "spots"}]}, [(SEEN, SPOTS)]),
        ({"any": [{"finding": "webbing"}, {"finding": "spots"}]}, [(SEEN,), (SPOTS,)]),
        ({"not": {"all": [{"finding": "webbing"}, {"finding": "spots"}]}}, [(ABSENT,), (NO_SPOTS,)]),
        ({"not": {"any": [{"finding": "webbing"}, {"finding": "spots"}]}}, [(ABSENT, NO_SPOTS)]),
        ({"all": [{"finding": "webbing"}, {"finding": "webbing"}]}, [(SEEN,)]),
        ({"any": [{"finding": "webbing"}, {"change": "webbing"}]}, [(SEEN,)]),
        (
            {"all": [{"any": [{"finding": "webbing"}, {"finding": "spots"}]}, {"absent": "spots"}]},
            [(SEEN, NO_SPOTS), (SPOTS, NO_SPOTS)],
        ),
    ],
)
def test_a_condition_becomes_ways(condition: dict[str, Any], ways: list[tuple[Need, ...]]) -> None:
    assert ways_of(condition) == ways


@pytest.mark.parametrize(
    ("condition", "message"),
    [
        ({}, "exactly one head, this has none"),
        ({"finding": "a", "absent": "b"}, "exactly one head, this has finding, absent"),
        ({"no-reading": "a", "crop": "b"}, "exactly one head, this has no-reading, crop"),
        ({"finding": "a", "above": 3}, "'finding' takes no 'above'"),
        ({"no-reading": "ph", "at-least": 3}, "'no-reading' takes no 'at-least'"),
        ({"reading": "ph"}, "'reading' needs above, at-least, below or at-most"),
        ({"reading": "ph", "is": "high"}, "'reading' needs above, at-least, below or at-most"),
        ({"reading": "ph", "above": 5, "at-least": 6}, "one lower and one upper limit"),
        ({"reading": "ph", "above": 7, "below": 6}, "no value lies between 7 and 6"),
        ({"reading": "ph", "above": 7, "at-most": 7}, "no value lies between 7 and 7"),
        ({"reading": "ph", "above": float("nan")}, "a limit is a number"),
        ({"trend": "ph"}, "'trend' needs 'is'"),
        ({"trend": "ph", "is": "up"}, "a trend is rising, falling, steady, not 'up'"),
        ({"system": "beds", "above": 3}, "'system' needs 'is'"),
        ({"crop": []}, "an empty list of words"),
        ({"all": []}, "'all' holds no condition"),
        ({"any": [{"all": []}]}, "'all' holds no condition"),
    ],
)
def test_what_no_rule_can_hold_is_said(condition: dict[str, Any], message: str) -> None:
    with pytest.raises(ConditionError, match=message):
        ways_of(condition)


def test_a_value_at_both_inclusive_limits_is_one_value() -> None:
    ((need,),) = ways_of({"reading": "ph", "at-least": 7, "at-most": 7})
    assert need.limits == (("at_least", 7.0), ("at_most", 7.0))


def test_any_within_all_multiplies_and_is_bounded() -> None:
    pair = [{"any": [{"finding": f"a{n}"}, {"finding": f"b{n}"}]} for n in range(5)]
    assert len(ways_of({"all": pair[:4]})) == MOST_WAYS == 16
    with pytest.raises(ConditionError, match="more than 16 ways"):
        ways_of({"all": pair})


def test_very_many_pairs_are_refused_before_they_are_multiplied_out() -> None:
    pair = [{"any": [{"finding": f"a{n}"}, {"finding": f"b{n}"}]} for n in range(12)]
    with pytest.raises(ConditionError, match="more than 16 ways"):
        ways_of({"all": pair})


def test_a_thousand_conditions_are_refused_not_recursed_into() -> None:
    with pytest.raises(ConditionError, match="more than 40 conditions or 12 levels"):
        ways_of({"all": [{"finding": f"a{n}"} for n in range(1000)]})
    deep = Condition(finding="a")
    for _ in range(2000):
        deep = Condition(not_=deep)
    with pytest.raises(ConditionError, match="more than 40 conditions or 12 levels"):
        list_ways(deep)


def test_walk_visits_every_condition_outermost_first() -> None:
    condition = msgspec.convert(
        {"all": [{"finding": "a"}, {"not": {"any": [{"finding": "b"}, {"finding": "c"}]}}, {"finding": "d"}]}, Condition
    )
    assert [(inner.finding, depth) for inner, depth in walk(condition)] == [
        (None, 1), ("a", 2), (None, 2), (None, 3), ("b", 4), ("c", 4), ("d", 2),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("need", "keys"),
    [
        (SEEN, (("finding", "webbing", "seen"),)),
        (Need("reading", "ph"), (("reading", "ph", ""),)),
        (Need("conclusion", "c"), (("conclusion", "c", ""),)),
        (Need("conclusion", "c", other=True), ()),
        (Need("crop", "", ("basil", "leafy")), (("crop", "basil", ""), ("crop", "leafy", ""))),
        (Need("crop", "", ("basil",), other=True), (("crop", "", ""),)),
        (Need("trait", "", ("film",), other=True), (("trait", "", ""),)),
    ],
)
def test_a_need_waits_for_its_keys(need: Need, keys: tuple[tuple[str, str, str], ...]) -> None:
    assert gate_keys(need) == keys
