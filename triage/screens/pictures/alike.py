"""Whether a person can tell two pictures apart, and which pairs nobody could.

A picture is given several times, its marks scattered anew each time: what changes then is no difference that counts.
Each difference is a share of what it takes to be told apart (1 and more: they can be told apart):

- a colour that is in one picture and nowhere in the other;
- marks and holes larger, longer, or nearer to the edge, beyond what scattering alone does;
- places where the other has no like colour near by, beyond what scattering alone does.

The limits are our own judgement, made on pictures as small as they are shown beside answers.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

from .marks_seen import Spots, colour_missing, misplaced, spots_of, traits
from .raster import Raster

#: Share of a picture in a colour the other has not.
COLOUR_SHARE = 0.05
#: Share of a picture that is nowhere near its like in the other: beyond scattering by half, and by this much.
PLACE_SHARE, PLACE_FACTOR = 0.05, 1.5
#: Steps of a mark's size and length (natural logarithms: two and a half times as large, one and a half as long) and of
#: its depth in the picture (edge 0, middle 1), beyond scattering.
TRAIT_STEPS = (0.9, 0.4, 0.15)


class Look:
    """One picture in several scatterings, with what scattering does to it."""

    def __init__(self, rasters: Sequence[Raster]) -> None:
        self.spots: list[Spots] = [spots_of(raster) for raster in rasters]
        self.traits = [traits(raster) for raster in rasters]
        pairs = list(itertools.combinations(range(len(rasters)), 2))
        count = max(1, len(pairs))
        self.misplaced = sum(misplaced(self.spots[a], self.spots[b]) for a, b in pairs) / count
        self.wobble = [
            sum(abs(self.traits[a][k] - self.traits[b][k]) for a, b in pairs) / count for k in range(len(TRAIT_STEPS))
        ]


def alike_pairs(pictures: Mapping[str, Sequence[Raster]]) -> list[tuple[str, str, float]]:
    """Pairs of names that cannot be told apart, the most alike first."""
    looks = {name: Look(rasters) for name, rasters in sorted(pictures.items())}
    apart = [(one, other, difference(looks[one], looks[other])) for one, other in itertools.combinations(looks, 2)]
    return sorted([pair for pair in apart if pair[2] < 1], key=lambda pair: (pair[2], pair[0], pair[1]))


def difference(first: Look, second: Look) -> float:
    """How far two pictures are from being taken for each other: the first difference that is enough, or the largest."""
    colour = min(colour_missing(a, b) for a, b in zip(first.spots, second.spots, strict=True)) / COLOUR_SHARE
    if colour >= 1:
        return colour
    trait = max(_trait(first, second, number) for number in range(len(TRAIT_STEPS)))
    if trait >= 1:
        return trait
    place = min(misplaced(a, b) for a in first.spots for b in second.spots)
    return max(colour, trait, place / (PLACE_SHARE + PLACE_FACTOR * max(first.misplaced, second.misplaced)))


def _trait(first: Look, second: Look, number: int) -> float:
    """How far the marks of two pictures differ in one trait; the middle of the scatterings speaks for each."""
    one, other = (sorted(traits_[number] for traits_ in look.traits) for look in (first, second))
    wobble = max(first.wobble[number], second.wobble[number])
    return abs(one[len(one) // 2] - other[len(other) // 2]) / (TRAIT_STEPS[number] + wobble)


def scattered_alike(rasters: Sequence[Raster]) -> float:
    """How far scatterings of one picture differ from each other: below 1, or the measure sees what is not there."""
    looks = [Look([raster, raster]) for raster in rasters]
    whole = Look(rasters)
    for look in looks:
        look.misplaced, look.wobble = whole.misplaced, whole.wobble
    return max((difference(a, b) for a, b in itertools.combinations(looks, 2)), default=0.0)
