"""What speaks for and against each suspect, in bits: its posterior odds with a finding against those without it.

Leaving one finding out reuses the terms of the whole case: a finding with a bit is left out by summing only the terms
without that bit; a plain factor is left out by putting back the odds of the causes it touched.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import log2
from operator import mul

import msgspec

from triage.model.outcome import BY_WORDS, Support

from .evidence import Evidence
from .network import Network
from .problem import Part, odds_after
from .quickscore import Factors, Sums, folded

#: Less than this is not worth a word.
LEAST_BITS = 0.001


def support_of(
    network: Network, evidence: Evidence, sums: Sums, causes: Iterable[str]
) -> dict[str, tuple[Support, ...]]:
    """Support of every answered finding, every rule and the crop for the given causes, the weightiest first.

    For a rule and for the crop the bits are the logarithm of what they did to the odds, which is the same before and
    after the evidence.
    """
    found = {cause: _context(network, cause) for cause in causes}
    linked = [cause for cause in found if cause in sums.factors]
    for bits in (_by_bits(sums, linked), _by_plain(network, sums, linked), _by_own(network, sums, found)):
        for (finding, cause), value in bits.items():
            found[cause].append(Support(what=finding, bits=value, kind=_kind(evidence, finding)))
    return {cause: tuple(sorted(each, key=_weight)) for cause, each in found.items()}


def _weight(support: Support) -> tuple[float, str, str]:
    return (-round(abs(support.bits), 9), support.kind, support.what)


def _kind(evidence: Evidence, finding: str) -> str:
    if finding in evidence.absent:
        return "absent"
    return "unsure" if finding in evidence.unsure else "seen"


def _by(rule: str) -> str:
    return "words" if rule == BY_WORDS else "rule"


def _context(network: Network, cause: str) -> list[Support]:
    node = network.nodes[cause]
    found = [Support(what=rule, bits=bits, kind=_by(rule)) for rule, bits in node.rule_bits]
    if node.crop_bits:
        found.append(Support(what=network.crop, bits=node.crop_bits, kind="crop"))
    return found


Bits = dict[tuple[str, str], float]


def _by_own(network: Network, sums: Sums, causes: Iterable[str]) -> Bits:
    """For causes linked to no bit the rest does not matter: the factor itself."""
    return {
        (finding, cause): log2(times[cause])
        for cause in causes
        if cause not in sums.factors
        for finding, times in sums.problem.plain.items()
        if times.get(cause, 0.0) > 0 and abs(log2(times[cause])) >= LEAST_BITS
    }


def _by_bits(sums: Sums, causes: Iterable[str]) -> Bits:
    """Findings with a bit: the terms weighted by the cause, summed with and without the bit."""
    found: Bits = {}
    all_terms = sums.folds
    for cause in causes:
        with_it = sums.folds_with(cause)
        now = _odds(with_it[0][0], sums.total)
        for bit, finding in enumerate(sums.problem.findings):
            half = 1 << bit
            before = _odds(sum(with_it[bit + 1][:half]), sum(all_terms[bit + 1][:half]))
            _note(found, finding, cause, now, before)
    return found


def _by_plain(network: Network, sums: Sums, causes: list[str]) -> Bits:
    """Findings that count as plain factors: the terms with the odds they would have left."""
    found: Bits = {}
    now = {cause: _odds_in(sums, sums.folds, sums.factors[cause]) for cause in causes}
    for finding, times in sums.problem.plain.items():
        other = _factors_without(network, sums, finding, times)
        if other and causes:
            folds = _folds_with(sums, other, causes)
            for cause in causes:
                before = _odds_in(sums, folds, other.get(cause, sums.factors[cause]))
                _note(found, finding, cause, now[cause], before)
    return found


def _factors_without(network: Network, sums: Sums, finding: str, times: Mapping[str, float]) -> dict[str, Factors]:
    """The factors of the linked causes this finding touches, had it not been answered."""
    touched: list[Part] = [part for part in sums.problem.parts if times.get(part.cause, 1.0) != 1.0]
    odds = {part.cause: odds_after(network.nodes[part.cause], sums.problem.plain, but=finding) for part in touched}
    return {part.cause: Factors(msgspec.structs.replace(part, odds=odds[part.cause]), sums.bits) for part in touched}


def _folds_with(sums: Sums, other: Mapping[str, Factors], causes: Iterable[str]) -> list[list[int]]:
    """Folded terms with other factors for some causes. Bits beyond everything in question are summed out first."""
    ratios = {
        cause: [(new << sums.bits) // old for new, old in zip(each.whole, sums.factors[cause].whole, strict=True)]
        for cause, each in other.items()
    }
    mask, table = sums.product(sums.grouped(ratios))
    top = max(mask.bit_length(), *(sums.factors[cause].mask.bit_length() for cause in causes))
    return folded(sums.spread_product(sums.folds[top], mask, table))


def _odds_in(sums: Sums, folds: list[list[int]], factors: Factors) -> float:
    joint = sum(map(mul, sums.gathered(folds, factors.mask), factors.present)) >> sums.bits
    return _odds(joint, folds[0][0])


def _odds(joint: int, total: int) -> float:
    return joint / max(total - joint, 1)


def _note(found: Bits, finding: str, cause: str, now: float, before: float) -> None:
    """Keep what is worth a word; a cause that is ruled out for good has no bits."""
    if now > 0 and abs(log2(now / before)) >= LEAST_BITS:
        found[finding, cause] = log2(now / before)
