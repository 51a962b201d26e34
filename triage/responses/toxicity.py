"""Which published value counts for the animals kept: the nearest relation, the strictest among equals."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Literal

import msgspec

from ..model.crop import Animal
from ..model.substance import Substance, Toxicity
from .endpoint import Endpoint, endpoint_of, is_ceiling, is_floor, plain_mg_l, value_mg_l
from .inwater import place_in_water
from .setting import Assumptions, Water

Kind = Literal["fish", "crustacean"]
Step = Literal["species", "group", "any"]
Data = Literal["read", "recalled", "explained", "none"]

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
    placed_by: str = ""


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

    Values nobody read in a source count only where they are stricter than the ones read. Without ``margins`` the
    distance between animals is not allowed for; without ``floors`` only levels that did harm count.
    """
    rows = [row for row in lookup.substance.toxicity if row.group == kind]
    choose = _chooser(lookup, kind, wanted, margins, floors)
    found = (choose([row for row in rows if not is_weak(row)]), choose(rows))
    return min((chosen for chosen in found if chosen is not None), key=_strictness, default=None)


def data_on(lookup: Lookup, kind: Kind) -> Data:
    """Whether there are values for this kind that can be compared, and whether any of them was read in a source.

    ``explained``: nobody tested it on anything, and the book says why.
    """
    choose = _chooser(lookup, kind, ACUTE, True, True)
    rows = [row for row in lookup.substance.toxicity if row.group == kind]
    if choose([row for row in rows if not is_weak(row)]) is not None:
        return "read"
    if choose(rows) is not None:
        return "recalled"
    return "explained" if lookup.substance.no_data and not lookup.substance.toxicity else "none"


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


def _strictness(chosen: Chosen) -> tuple[float, str, str]:
    return chosen.effective_mg_l, chosen.row.organism, chosen.row.source


def _chooser(
    lookup: Lookup, kind: Kind, wanted: Sequence[frozenset[Endpoint]], margins: bool, floors: bool
) -> Callable[[list[Toxicity]], Chosen | None]:
    def choose(rows: list[Toxicity]) -> Chosen | None:
        for endpoints in wanted:
            usable = [
                (row, value)
                for row in rows
                if (endpoint := endpoint_of(row)) in endpoints
                and (floors or not is_floor(row, endpoint))
                and (value := value_mg_l(row, lookup.substance)) is not None
            ]
            if usable:
                return min(_for_animals(lookup, kind, usable, margins), key=_strictness)
        return None

    return choose


def _for_animals(lookup: Lookup, kind: Kind, rows: list[tuple[Toxicity, float]], margins: bool) -> Iterable[Chosen]:
    """The candidates of the nearest step that has any, for every animal kept of this kind."""
    kept: list[Animal | None] = [animal for animal in lookup.water.animals if animal.kind == kind]
    for animal in kept or [None]:
        steps = [(step_to(row.organism, animal, lookup.assumed.animals), row, value) for row, value in rows]
        for step in ("species", "group", "any"):
            near = [(row, value) for found, row, value in steps if found == step]
            if near:
                yield from (_weigh(lookup, placed, step, margins) for placed in _placed(lookup, near))
                break


def _placed(lookup: Lookup, rows: list[tuple[Toxicity, float]]) -> list[tuple[Toxicity, float, str]]:
    return [(p.row, p.mg_l, p.by) for p in place_in_water(rows, lookup.substance, lookup.water)]


def _weigh(lookup: Lookup, placed: tuple[Toxicity, float, str], step: Step, margins: bool) -> Chosen:
    row, value, by = placed
    endpoint = endpoint_of(row) or "acute"
    divisor = lookup.assumed.margin(step) if margins else 1.0
    if is_ceiling(row, endpoint):
        divisor *= lookup.assumed.margin("upper-bound")
    return Chosen(
        effective_mg_l=value / divisor, published_mg_l=value, row=row, step=step,
        floor=is_floor(row, endpoint), placed_by=by,
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
