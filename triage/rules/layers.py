"""In which order rules may fire: by stage, and within it after every conclusion that a rule looks at."""

from __future__ import annotations

from collections.abc import Mapping

from ..model.rule import STAGES, Condition, Rule, Stage
from .ways import walk


def stage_of(rule: Rule) -> Stage:
    """The stage of a rule, told by what it does; a rule that concludes may also move odds.

    Raises ValueError for a rule that does nothing, or things of two stages.
    """
    does: dict[Stage, bool] = {
        "alarm": rule.alarm is not None,
        "conclude": bool(rule.conclude),
        "favour": bool(rule.favour or rule.against) and not rule.conclude,
        "respond": bool(rule.offer or rule.set_aside),
        "guard": rule.grade is not None or rule.harm is not None,
    }
    stages = [stage for stage in STAGES if does[stage]]
    if len(stages) != 1:
        raise ValueError(f"a rule does one kind of thing, this does {', '.join(stages) or 'nothing'}")
    return stages[0]


def conclusions_in(condition: Condition) -> frozenset[str]:
    """The conclusions a condition looks at, also under ``not``."""
    return frozenset(inner.conclusion for inner, _ in walk(condition) if inner.conclusion is not None)


class CircleError(ValueError):
    """Conclusions that rest on each other; ``rules`` are those of the circle, in its order."""

    def __init__(self, rules: tuple[str, ...]) -> None:
        self.rules = rules
        super().__init__(f"conclusions rest on each other in a circle: {' → '.join((*rules, rules[0]))}")


def layer_rules(uses: Mapping[str, frozenset[str]], draws: Mapping[str, str]) -> dict[str, int]:
    """The layer of each rule: 0 if it looks at no conclusion, else one above the rules that draw them.

    ``uses`` gives the conclusions each rule looks at, ``draws`` the one it draws ('' if none).
    Raises CircleError if there is no such order.
    """
    drawn_by: dict[str, list[str]] = {}
    for rule, conclusion in draws.items():
        if conclusion:
            drawn_by.setdefault(conclusion, []).append(rule)
    layers: dict[str, int] = {}
    for rule in uses:
        _layer(rule, uses, drawn_by, layers, ())
    return layers


def _layer(
    rule: str,
    uses: Mapping[str, frozenset[str]],
    drawn_by: Mapping[str, list[str]],
    layers: dict[str, int],
    above: tuple[str, ...],
) -> int:
    if rule in above:
        raise CircleError(above[above.index(rule) :])
    if rule not in layers:
        below = [maker for conclusion in sorted(uses[rule]) for maker in drawn_by.get(conclusion, ())]
        depths = [_layer(maker, uses, drawn_by, layers, (*above, rule)) for maker in below]
        layers[rule] = 1 + max(depths) if depths else 0
    return layers[rule]


def salience_of(stage: Stage, layer: int) -> tuple[int, int, int]:
    """A key that sorts by time of firing: alarms first, save those that wait for a conclusion of an earlier layer."""
    if stage == "alarm":
        return (1, layer, 0) if layer else (0, 0, 0)
    return (1, layer, 1) if stage == "conclude" else (1 + STAGES.index(stage), 0, 0)
