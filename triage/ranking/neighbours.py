"""What the ranking would name in a cause's place: its nearest neighbours, as the book must tell them apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from triage.model.cause import Cause
from triage.model.finding import Finding
from triage.model.odds import FREQUENCY

from .evidence import Evidence, close_evidence
from .network import build_network
from .posterior import infer

#: A neighbour is as likely as this with the cause itself not in the book, and at most so many count.
NEAR = 0.30
MOST = 2
#: A plant that shows what the cause shows at least this often is taken as its picture.
PICTURE = FREQUENCY["usually"]


def nearest(causes: Mapping[str, Cause], findings: Mapping[str, Finding]) -> dict[str, tuple[str, ...]]:
    """For each cause in use the one or two others that explain what it usually shows, the likeliest first.

    A cause that shows a finding which is not among ``findings`` is a ValueError.
    """
    live = {id_: cause for id_, cause in causes.items() if cause.status != "retired"}
    return {id_: tuple(_beside(id_, live, findings)) for id_ in sorted(live)}


def _beside(id_: str, causes: Mapping[str, Cause], findings: Mapping[str, Finding]) -> Iterator[str]:
    others = {other: cause for other, cause in causes.items() if other != id_}
    network = build_network(others, findings, crop=None, favoured=())
    seen = frozenset(finding for finding, word in causes[id_].shows.items() if FREQUENCY[word] >= PICTURE)
    evidence, _ = close_evidence(Evidence(seen=seen), findings)
    chances = infer(network, evidence).probabilities
    for other in sorted(chances, key=lambda each: (-round(chances[each], 12), each))[:MOST]:
        if chances[other] >= NEAR:
            yield other
