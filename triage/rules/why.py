"""Why something was said: the tree of firings behind it, read from the record of one run and nothing else."""

from __future__ import annotations

import msgspec

from ..model.facts import RulesOutcome
from ..model.outcome import Firing

_CONCLUSION = "conclusion "


class WhyNode(msgspec.Struct, frozen=True, kw_only=True):
    """A rule that fired, why, on which facts, and below it the rules that drew the conclusions among its facts."""

    rule: str
    stage: str
    because: str
    conclude: str = ""
    facts: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    children: tuple[WhyNode, ...] = ()


def build_why_tree(outcome: RulesOutcome, target: str) -> tuple[WhyNode, ...]:
    """The firings that speak for a target (rule or alarm, conclusion, cause, or treatment), in the order of the run.

    Empty if nothing that fired concerns it.
    """
    rules = _rules_about(outcome, target)
    return tuple(_node(outcome, firing) for firing in outcome.firings if firing.rule in rules)


def _rules_about(outcome: RulesOutcome, target: str) -> set[str]:
    rules = {firing.rule for firing in outcome.firings if target in (firing.rule, firing.conclude)}
    rules |= {moved.rule for moved in outcome.favoured if moved.cause == target}
    reasons = {because for id_, because in (*outcome.offered, *outcome.set_aside) if id_ == target}
    return rules | {f.rule for f in outcome.firings if f.stage == "respond" and f.because in reasons}


def _node(outcome: RulesOutcome, firing: Firing) -> WhyNode:
    drawn = {fact.removeprefix(_CONCLUSION) for fact in firing.facts if fact.startswith(_CONCLUSION)}
    below = [other for other in outcome.firings if other.conclude and other.conclude in drawn]
    return WhyNode(
        rule=firing.rule,
        stage=firing.stage,
        because=firing.because,
        conclude=firing.conclude,
        facts=firing.facts,
        sources=firing.sources,
        children=tuple(_node(outcome, other) for other in below),
    )
