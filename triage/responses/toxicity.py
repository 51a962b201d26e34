"""Which published value counts for the animals kept: the nearest relation, the strictest among equals."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

import msgspec

from ..model.crop import Animal
from ..model.substance import Substance, Toxicity
from .endpoint import Endpoint, endpoint_of, is_ceiling, is_floor, plain_mg_l, value_mg_l
from .inwater import Placed, place_in_water
from .setting import Assumptions, Water

Kind = Literal["fish", "crustacean"]
Step = Literal["species", "group", "any"]
STEPS: tuple[Step, ...] = ("species", "group", "any")
Valued = tuple[Toxicity, float]  # a row and its value in mg/L
Data = Literal["read", "spared", "recalled", "by-ammonia", "explained", "none"]

#: What counts for a short exposure and for a long one; the second list is asked only where the first has nothing.
ACUTE: tuple[frozenset[Endpoint], ...] = (frozenset({"acute", "above"}), frozenset({"tolerated", "floor", "chronic"}))
CHRONIC: tuple[frozenset[Endpoint], ...] = (frozenset({"floor", "chronic"}),)
#: A value that was only recalled or computed can make a grade stricter, never milder.
_WEAK_READS = frozenset({"memory", "computed"})


class Chosen(msgspec.Struct, frozen=True, kw_only=True):
    """A published value and what it is reckoned as for the animals kept."""

    effective_mg_l: float  # after the margins
    published_mg_l: float  # in this water
    row: Toxicity
    step: Step
    floor: bool  # nothing happened up to it


class Lookup(msgspec.Struct, frozen=True, kw_only=True):
    """Everything that choosing a value needs."""

    substance: Substance
    water: Water
    assumed: Assumptions


def is_weak(row: Toxicity) -> bool:
    """Whether nobody read the value in a source."""
    return row.read in _WEAK_READS


def choose_value(
    lookup: Lookup,
    kind: Kind,
    wanted: Sequence[frozenset[Endpoint]] = ACUTE,
    *,
    margins: bool = True,
    floors: bool = True,
) -> Chosen | None:
    """The value that counts for the animals of this kind; None if there is none to compare with.

    The first endpoints of ``wanted`` that have a value count, and of those the nearest step to each animal kept. A
    value nobody read in a source never keeps the search from going on, so it can only make the result stricter.
    Without ``margins`` the distance between animals is not allowed for; without ``floors`` only levels that did harm
    count.
    """
    found: list[Chosen] = []
    for endpoints in wanted:
        rows = _usable(lookup, kind, endpoints, floors)
        found += _for_animals(lookup, kind, rows, margins)
        if any(not is_weak(row) for row, _ in rows):
            break
    return min(found, key=_strictness, default=None)


def data_on(lookup: Lookup, kind: Kind) -> Data:
    """Whether there are values for this kind that can be compared, and whether any of them was read in a source.

    ``spared``: no such value was read, but a published text says that this kind bears it. ``by-ammonia``: it harms as
    the ammonia it becomes, and that is held against this water's limit. ``explained``: nobody tested it on anything,
    and the book says why.
    """
    substance = lookup.substance
    rows = [row for endpoints in ACUTE for row, _ in _usable(lookup, kind, endpoints, floors=True)]
    if any(not is_weak(row) for row in rows):
        return "read"
    if any(said.group == kind and said.read not in _WEAK_READS for said in substance.spares):
        return "spared"
    if rows:
        return "recalled"
    if not substance.no_data or substance.toxicity:
        return "none"
    return "by-ammonia" if becomes_ammonia(substance) else "explained"


def becomes_ammonia(substance: Substance) -> bool:
    """Whether it turns into ammonia in the water, and how much is known."""
    return "ammonia-releasing" in substance.traits and substance.element_share is not None


def lowest_known(substance: Substance, kind: Kind) -> tuple[float, Toxicity] | None:
    """The lowest value of all for this kind, whatever the animal, the water or the test; what was borne is left out.

    A value for a metal or a product stays one where that is lower: bands of toxicity are printed for both.
    """
    known = []
    for row in substance.toxicity:
        endpoint = endpoint_of(row)
        if row.group == kind and endpoint not in (None, "tolerated"):
            values = [v for v in (value_mg_l(row, substance), plain_mg_l(row, substance)) if v is not None]
            known += [(min(values), row)] if values else []
    return min(known, key=lambda found: (found[0], found[1].organism, found[1].source), default=None)


def _strictness(chosen: Chosen) -> tuple[float, bool, str, str]:
    """The strictest first; among equals one that was read in a source."""
    return chosen.effective_mg_l, is_weak(chosen.row), chosen.row.organism, chosen.row.source


def _usable(lookup: Lookup, kind: Kind, endpoints: frozenset[Endpoint], floors: bool) -> list[Valued]:
    """The rows of a kind with such an endpoint, and their values in mg/L."""
    return [
        (row, value)
        for row in lookup.substance.toxicity
        if row.group == kind
        and (endpoint := endpoint_of(row)) in endpoints
        and (floors or not is_floor(row, endpoint))
        and (value := value_mg_l(row, lookup.substance)) is not None
    ]


def _for_animals(lookup: Lookup, kind: Kind, rows: list[Valued], margins: bool) -> Iterable[Chosen]:
    """The candidates for every animal kept of this kind: of the nearest step that has a value read in a source, and of
    the steps before it."""
    kept: list[Animal | None] = [animal for animal in lookup.water.animals if animal.kind == kind]
    telling = [one for one in rows if not _says_less(one, rows)]
    for animal in kept or [None]:
        steps = [(step_to(row.organism, animal, lookup.assumed.animals), row, value) for row, value in telling]
        for step in STEPS:
            near = [(row, value) for found, row, value in steps if found == step]
            read = [(row, value) for row, value in near if not is_weak(row)]
            for placed in [*_place(lookup, near), *_place(lookup, read)]:
                yield _weigh(lookup, placed, step, margins)
            if read:
                break


def _says_less(one: Valued, others: Sequence[Valued]) -> bool:
    """Whether 'nothing happened up to so much' follows from a higher one that was read, of the same animal and as long.

    A level without effect (NOEC) says more than that, for at the next level tested there was one; it never follows.
    """
    row, value = one
    return _only_borne(row) and any(
        _only_borne(other) and not is_weak(other) and at_least > value and _as_long_on_the_same(other, row)
        for other, at_least in others
    )


def _only_borne(row: Toxicity) -> bool:
    endpoint = endpoint_of(row) or "acute"
    return is_floor(row, endpoint) and endpoint != "floor"


def _as_long_on_the_same(other: Toxicity, row: Toxicity) -> bool:
    return other.organism == row.organism and (other.hours or 0) >= (row.hours or 0)


def _place(lookup: Lookup, rows: list[Valued]) -> list[Placed]:
    return place_in_water(rows, lookup.substance, lookup.water)


def _weigh(lookup: Lookup, placed: Placed, step: Step, margins: bool) -> Chosen:
    row = placed.row
    endpoint = endpoint_of(row) or "acute"
    divisor = lookup.assumed.margin(step) if margins else 1.0
    if is_ceiling(row, endpoint):
        divisor *= lookup.assumed.margin("upper-bound")
    return Chosen(
        effective_mg_l=placed.mg_l / divisor, published_mg_l=placed.mg_l, row=row, step=step,
        floor=is_floor(row, endpoint),
    )  # fmt: skip


def step_to(organism: str, animal: Animal | None, animals: Sequence[Animal]) -> Step:
    """How near a tested organism is to an animal kept: itself, a near relative, or only of the same kind.

    Near relatives share the genus or the common name, or are another animal of the book in the same nearest group.

    >>> tilapia = Animal(animal="tilapia", name="Tilapia", kind="fish", species=["Oreochromis niloticus"],
    ...     groups=["cichlid"], sources=[])
    >>> [step_to(name, tilapia, []) for name in ("Oreochromis niloticus fry", "Oreochromis mossambicus", "carp")]
    ['species', 'group', 'any']
    """
    if animal is None:
        return "any"
    if _is_one_of(organism, animal.species):
        return "species"
    genera = [name.split()[0] for name in animal.species]
    kin = [name for other in animals if set(animal.groups[:1]) & set(other.groups[:1]) for name in other.species]
    named = animal.animal in organism.lower().split()
    return "group" if named or _is_one_of(organism, [*genera, *kin]) else "any"


def _is_one_of(organism: str, names: Iterable[str]) -> bool:
    """Whether an organism's text begins with one of the names, as whole words."""
    text = f"{organism.lower()} "
    return any(name and text.startswith(f"{name.lower()} ") for name in names)
