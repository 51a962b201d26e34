"""Which part of the plant, or what else, a word speaks of: so that "brown spots on fruit" is not heard of leaves."""

from __future__ import annotations

from ..model.finding import Finding

_NAMED = {
    "leaf": "leaf newest oldest midleaf blade underside upperside betweenvein vein midrib",
    "plant": "plant seedling",
    "stem": "stem stembase shoot",
    "stalk": "leafstalk",
    "root": "root nodul",
    "fruit": "fruit",
    "flower": "flower bud",
    "head": "head",
    "fish": "fish gill shrimp fin",
    "water": "water tank",
    "bed": "media sponge soil",
    "place": "bed pipe",
    "animal": "mite insect aphid caterpillar beetl egg nymph butterfly fly thrips hopper ladybird whitefly slug snail"
    " louse ant worm bird maggot",
}
_ON_LEAVES = frozenset(("leaf", "plant", "stem", "stalk", "fruit", "flower", "head", "animal"))
#: Organs that are named beside any other.
ANYWHERE = frozenset(("plant", "bed", "place", "water"))
#: Organs that only say where the plants stand.
WHERE_THEY_STAND = frozenset(("place",))
#: Word of the plain form → organ.
ORGAN = {word: organ for organ, words in _NAMED.items() for word in words.split()}

_FITS = {
    "leaf": frozenset(("leaf", "plant", "stalk")),
    "underside": frozenset(("leaf", "plant", "stalk", "stem")),
    "stem": frozenset(("stem", "stalk", "plant", "head")),
    "root": frozenset(("root", "plant")),
    "flower-fruit": frozenset(("flower", "fruit", "head", "plant")),
    "whole-plant": frozenset(("plant", "leaf", "stem", "stalk", "head")),
}


def organs_of(finding: Finding) -> frozenset[str]:
    """The organs that a symptom, or a sign on leaves, can be said of; empty if the words around it do not matter."""
    if finding.kind == "symptom":
        return _FITS.get(finding.place, frozenset())
    return _ON_LEAVES if finding.kind == "sign" and finding.place == "leaf" else frozenset()
