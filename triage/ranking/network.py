"""The noisy-OR network: causes with prior odds, how often each shows a finding, and each finding's leak."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from math import log1p, log2, prod

import msgspec

from triage.model.cause import Cause
from triage.model.crop import Crop
from triage.model.finding import Finding
from triage.model.odds import BASE, BY_ITSELF, BY_OTHER, CROP, FREQUENCY, ODDS_ENDS, OTHER_ODDS
from triage.model.outcome import BY_WORDS, Favoured

from .evidence import backwards

#: The node that stands for whatever is not in the book: it shows any finding at times, so that several findings which
#: no cause of the book explains speak for it together.
OTHER = "~other"


class Node(msgspec.Struct, frozen=True, kw_only=True):
    """One cause: its prior odds, what moved them (in bits), and how often it shows each finding."""

    cause: str
    name: str = ""
    odds: float
    crop_bits: float = 0.0
    rule_bits: tuple[tuple[str, float], ...] = ()  # (rule id, bits), in the order the rules fired
    shows: dict[str, float]


class Network(msgspec.Struct, frozen=True, kw_only=True):
    """All causes (by id, sorted) and the leak of every finding; ``shown_by`` is the same links seen from the findings.

    ``priors`` are the causes' probabilities before any evidence, ``log_nothing`` the natural logarithm of the
    probability that none is present. ``implied_by`` names, for a finding, those whose sight implies it (directly or in
    steps). Made by ``Network.of``.
    """

    nodes: dict[str, Node]
    leaks: dict[str, float]
    shown_by: dict[str, dict[str, float]]
    priors: dict[str, float]
    log_nothing: float
    implied_by: dict[str, frozenset[str]] = {}
    crop: str = ""

    @classmethod
    def of(
        cls,
        nodes: Iterable[Node],
        leaks: Mapping[str, float],
        *,
        implied_by: Mapping[str, frozenset[str]] | None = None,
        crop: str = "",
    ) -> Network:
        """Put nodes and leaks together; a link to a finding without a leak is a ValueError."""
        ordered = {node.cause: node for node in sorted(nodes, key=lambda node: node.cause)}
        shown_by: defaultdict[str, dict[str, float]] = defaultdict(dict)
        for node in ordered.values():
            for finding, chance in node.shows.items():
                if finding not in leaks:
                    raise ValueError(f"cause {node.cause} shows {finding}, which is not a finding")
                shown_by[finding][node.cause] = chance
        return cls(
            nodes=ordered,
            leaks=dict(leaks),
            shown_by=dict(shown_by),
            priors=_priors(ordered),
            log_nothing=_log_nothing(ordered),
            implied_by=dict(implied_by or {}),
            crop=crop,
        )

    def sounding(self, factors: Mapping[str, float]) -> Network:
        """The network with the odds of every cause moved by what all that was told sounds like."""
        if not factors:
            return self
        nodes = {cause: _sounding(node, factors.get(cause)) for cause, node in self.nodes.items()}
        return msgspec.structs.replace(self, nodes=nodes, priors=_priors(nodes), log_nothing=_log_nothing(nodes))

    def moved(self, favoured: Iterable[Favoured]) -> Network:
        """The network with the odds of some causes moved by what rules favoured; causes it does not have stay out.

        Only the causes named are touched, so that a plain network serves every case of a crop.
        """
        by_cause: defaultdict[str, list[Favoured]] = defaultdict(list)
        for one in favoured:
            if one.cause in self.nodes:
                by_cause[one.cause].append(one)
        changed = {cause: _moved(self.nodes[cause], by_cause[cause]) for cause in sorted(by_cause)}
        more = sum(log1p(node.odds) - log1p(self.nodes[cause].odds) for cause, node in changed.items())
        return msgspec.structs.replace(
            self,
            nodes=self.nodes | changed,
            priors=self.priors | _priors(changed),
            log_nothing=self.log_nothing - more,
        )


def build_network(
    causes: Mapping[str, Cause], findings: Mapping[str, Finding], *, crop: Crop | None, favoured: Sequence[Favoured]
) -> Network:
    """The network of one case: prior odds are base × crop × what the rules favoured, kept between ``ODDS_ENDS``."""
    return plain_network(causes, findings, crop=crop).moved(favoured)


def plain_network(causes: Mapping[str, Cause], findings: Mapping[str, Finding], *, crop: Crop | None) -> Network:
    """The network of a crop before any rule spoke: prior odds are base × crop.

    Retired causes and those the crop does not get ('not') are left out; ``OTHER`` stands beside the rest. In a
    cause's ``crops`` a crop id beats a family, and a family beats a kind.
    """
    nodes = [_node(cause, crop) for cause in causes.values() if cause.status != "retired"]
    leaks = {name: BY_ITSELF[finding.by_itself] for name, finding in findings.items()}
    kept = [node for node in nodes if node.odds > 0]
    other = _other(findings)
    return Network.of([*kept, other], leaks, implied_by=_implied_by(findings), crop=crop.crop if crop else "")


def _node(cause: Cause, crop: Crop | None) -> Node:
    times = crop_factor(cause, crop)
    return Node(
        cause=cause.cause,
        name=cause.name,
        odds=BASE[cause.base] * times,
        crop_bits=log2(times) if times else 0.0,
        shows={finding: FREQUENCY[word] for finding, word in cause.shows.items()},
    )


def _priors(nodes: Mapping[str, Node]) -> dict[str, float]:
    return {cause: node.odds / (1.0 + node.odds) for cause, node in nodes.items()}


def _log_nothing(nodes: Mapping[str, Node]) -> float:
    return -sum(log1p(node.odds) for node in nodes.values())


def _sounding(node: Node, factor: float | None) -> Node:
    if factor is None:
        return node
    odds = kept_within(node.odds * factor)
    bits = (BY_WORDS, log2(odds / node.odds))
    return msgspec.structs.replace(node, odds=odds, rule_bits=(bits, *node.rule_bits))


def _moved(node: Node, moved: Sequence[Favoured]) -> Node:
    odds = kept_within(node.odds * prod(one.factor for one in moved))
    bits = _rule_bits(moved, odds / node.odds)
    return msgspec.structs.replace(node, odds=odds, rule_bits=(*node.rule_bits, *bits))


def _other(findings: Mapping[str, Finding]) -> Node:
    """It shows whatever people say of a plant or of the water; what only a later look asks for has no phrases."""
    shows = {name: BY_OTHER[finding.by_itself] for name, finding in findings.items() if finding.phrases}
    return Node(cause=OTHER, name="Something that is not in this book", odds=OTHER_ODDS, shows=shows)


def crop_factor(cause: Cause, crop: Crop | None) -> float:
    """What the crop does to the odds of a cause: the word for its id, else its family, else its kind, else nothing."""
    if crop is None:
        return 1.0
    named = (name for name in (crop.crop, crop.family, crop.kind) if name in cause.crops)
    return next((CROP[cause.crops[name]] for name in named), 1.0)


def kept_within(odds: float) -> float:
    """Odds kept between the ends that rules may reach.

    >>> kept_within(0.03 * 12 * 12 * 12), kept_within(0.03)
    (4.0, 0.03)
    """
    least, most = ODDS_ENDS
    return min(max(odds, least), most)


def _rule_bits(moved: Sequence[Favoured], factor: float) -> tuple[tuple[str, float], ...]:
    """What each rule did in bits; where the ends cut the product, each rule's part shrinks alike."""
    nominal = [log2(one.factor) for one in moved]
    total = sum(nominal)
    share = log2(factor) / total if abs(total) > 1e-12 else 1.0
    return tuple((one.rule, bits * share) for one, bits in zip(moved, nominal, strict=True))


def _implied_by(findings: Mapping[str, Finding]) -> dict[str, frozenset[str]]:
    """For each finding that others imply: all of those, in any number of steps."""
    direct = backwards(findings).implied_by
    return {name: _upstream(name, direct) for name in sorted(direct)}


def _upstream(name: str, direct: Mapping[str, Sequence[str]]) -> frozenset[str]:
    found: set[str] = set()
    todo = [name]
    while todo:
        for one in direct.get(todo.pop(), ()):
            if one not in found and one != name:
                found.add(one)
                todo.append(one)
    return frozenset(found)
