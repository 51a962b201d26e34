"""Cross-checks: every id that an entry names exists, and every entry names its sources."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from ..errors import nearest
from ..model.rule import Condition
from .load import Loaded
from .yaml_tree import Path

Link = tuple[Path, str, str]  # path inside the entry, shelf it should be on, id


def check_links(loaded: Loaded) -> None:
    """Add a KB201 fault for every dangling id and a KB202 fault for every entry without a source."""
    for shelf, links in LINKS.items():
        for id_, entry in loaded.entries[shelf].items():
            for path, target, wanted in links(entry, loaded):
                _check(loaded, shelf, id_, path, target, wanted)
            for number, source in enumerate(getattr(entry, "sources", ())):
                _check(loaded, shelf, id_, ("sources", number), "sources", source)
            if hasattr(entry, "sources") and not entry.sources and shelf != "questions":
                loaded.fault(shelf, id_, ("sources",), "KB202", f"'{id_}' names no source (or common-practice)")


def _check(loaded: Loaded, shelf: str, id_: str, path: Path, target: str, wanted: str) -> None:
    choices = {name: loaded.entries[name] for name in target.split("|")}
    if not any(wanted in entries for entries in choices.values()):
        every = [known for entries in choices.values() for known in entries]
        kinds = " or ".join(name.removesuffix("s") for name in choices)
        loaded.fault(shelf, id_, path, "KB201", f"no {kinds} '{wanted}' in the book{nearest(wanted, every)}")


def _finding(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for key in ("implies", "excludes"):
        for number, id_ in enumerate(getattr(entry, key)):
            yield (key, number), "findings", id_


def _question(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for key in ("options", "after"):
        for number, id_ in enumerate(getattr(entry, key)):
            yield (key, number), "findings", id_
    yield from _crops(entry.for_crops, ("for-crops",), loaded)


def _crops(words: Any, path: Path, loaded: Loaded) -> Iterator[Link]:
    """Crop ids, families or kinds; kinds and families are not links."""
    groups = {crop.kind for crop in loaded.entries["crops"].values()}
    groups |= {crop.family for crop in loaded.entries["crops"].values()}
    for number, word in enumerate(words):
        if word not in groups:
            yield (*path, word if isinstance(words, dict) else number), "crops", word


def _cause(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for id_ in entry.shows:
        yield ("shows", id_), "findings", id_
    for id_, look in entry.not_to_confuse.items():
        yield ("not-to-confuse", id_), "causes", id_
        if look.source:
            yield ("not-to-confuse", id_, "source"), "sources", look.source
    for number, id_ in enumerate(entry.respond):
        yield ("respond", number), "treatments", id_
    yield from _crops(entry.crops, ("crops",), loaded)
    if entry.spreads:
        yield from _crops(entry.spreads.to, ("spreads", "to"), loaded)


def walk_conditions(condition: Condition, path: Path = ("when",)) -> Iterator[tuple[Path, Condition]]:
    """Every condition of a rule with its path, outermost first."""
    yield path, condition
    for key in ("all", "any"):
        for number, inner in enumerate(getattr(condition, key) or ()):
            yield from walk_conditions(inner, (*path, key, number))
    if condition.not_ is not None:
        yield from walk_conditions(condition.not_, (*path, "not"))


_HEAD_SHELF = {
    "finding": "findings",
    "absent": "findings",
    "change": "findings",
    "reading": "quantities",
    "no_reading": "quantities",
    "trend": "quantities",
    "suspect": "causes",
}


def _rule(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for path, condition in walk_conditions(entry.when):
        for head, shelf in _HEAD_SHELF.items():
            if (id_ := getattr(condition, head)) is not None:
                yield (*path, head.replace("_", "-")), shelf, id_
        words = condition.crop if isinstance(condition.crop, list) else [condition.crop] if condition.crop else []
        yield from _crops(words, (*path, "crop"), loaded)
    for key in ("favour", "against"):
        for id_ in getattr(entry, key):
            yield (key, id_), "causes", id_
    for key in ("offer", "set_aside"):
        for number, id_ in enumerate(getattr(entry, key)):
            yield (key.replace("_", "-"), number), "treatments", id_


def _sourced(entry: Any, *keys: str) -> Iterator[Link]:
    for key in keys:
        value = getattr(entry, key)
        if value is not None:
            yield (key.replace("_", "-"), "source"), "sources", value.source


def _substance(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for key in ("toxicity", "as_sold", "filter", "spares"):
        for number, row in enumerate(getattr(entry, key)):
            if row.source:
                yield (key.replace("_", "-"), number, "source"), "sources", row.source
    yield from _sourced(
        entry,
        "spray_strength",
        "density",
        "half_life_days",
        "oxygen_demand",
        "alkalinity_per_g",
        "element_share",
        "harvest_wait_days",
    )


def _substance_group(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for number, id_ in enumerate(entry.members):
        yield ("members", number), "substances", id_


def _advice(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for key in ("substances", "not_for"):
        for number, id_ in enumerate(getattr(entry, key)):
            yield (key.replace("_", "-"), number), "substances", id_


def _treatment(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for number, id_ in enumerate(entry.substances):
        yield ("substances", number), "substances", id_
    for id_, against in entry.against.items():
        yield ("against", id_), "causes", id_
        yield ("against", id_, "source"), "sources", against.source
    for number, conflict in enumerate(entry.conflicts):
        yield ("conflicts", number, "treatment"), "treatments", conflict.treatment
    if entry.use:
        yield ("use", "source"), "sources", entry.use.source
    if entry.dose:
        yield from _dose(entry.dose, ("dose",))
    for number, dose in enumerate(entry.doses):
        yield from _dose(dose, ("doses", number))


def _dose(dose: Any, path: Path) -> Iterator[Link]:
    yield (*path, "quantity"), "quantities", dose.quantity
    yield (*path, "grams-per-unit-per-1000-l", "source"), "sources", dose.grams_per_unit_per_1000_l.source
    for key in ("ratio", "ratio_of"):
        if getattr(dose, key):
            yield (*path, key.replace("_", "-")), "quantities", getattr(dose, key)


def _crop(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for number, id_ in enumerate(entry.sensitive):
        yield ("sensitive", number), "substances", id_


def _animal(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for number, limit in enumerate(entry.limits):
        yield ("limits", number, "quantity"), "quantities", limit.quantity
        yield ("limits", number, "source"), "sources", limit.source


def _quantity(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for name, unit in entry.units.items():
        if unit.source:
            yield ("units", name, "source"), "sources", unit.source
    if entry.same_as:
        yield ("same-as",), "quantities", entry.same_as
    for way, id_ in entry.tells.items():
        yield ("tells", way), "findings", id_
    for number, id_ in enumerate(entry.needs):
        yield ("needs", number), "quantities", id_


def _picture(entry: Any, loaded: Loaded) -> Iterator[Link]:
    yield ("finding",), "findings", entry.finding
    for number, id_ in enumerate(entry.also):
        yield ("also", number), "findings", id_


def _one_source(entry: Any, loaded: Loaded) -> Iterator[Link]:
    yield ("source",), "sources", entry.source


def _aftermath(entry: Any, loaded: Loaded) -> Iterator[Link]:
    for number, id_ in enumerate(entry.when):
        yield ("when", number), "findings", id_


def _role(entry: Any, loaded: Loaded) -> Iterator[Link]:
    yield ("finding",), "findings", entry.finding


LINKS: dict[str, Callable[[Any, Loaded], Iterator[Link]]] = {
    "findings": _finding,
    "questions": _question,
    "causes": _cause,
    "rules": _rule,
    "quantities": _quantity,
    "cover_shares": _one_source,
    "margins": _one_source,
    "crops": _crop,
    "animals": _animal,
    "substances": _substance,
    "substance_groups": _substance_group,
    "advice": _advice,
    "aftermath": _aftermath,
    "roles": _role,
    "treatments": _treatment,
    "pictures": _picture,
}
