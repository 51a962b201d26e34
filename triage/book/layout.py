"""Which file holds what: the one table from paths to records."""

from __future__ import annotations

import msgspec

from ..model.advice import Advice
from ..model.aftermath import Aftermath, Role
from ..model.book import Synonyms
from ..model.cause import Cause
from ..model.crop import Animal, Crop
from ..model.exposure import CoverShare, Margin
from ..model.finding import Finding, Question
from ..model.picture import Picture
from ..model.quantity import Quantity
from ..model.record import Source
from ..model.rule import Rule
from ..model.substance import Substance, SubstanceGroup
from ..model.treatment import Treatment


class Shelf(msgspec.Struct, frozen=True):
    """One kind of entry: its record, the key that holds its id, and where its files are.

    ``single`` files hold one entry named like the file; the others hold a list. ``by_kind`` folders have one
    sub-folder per value of the entry's ``kind``.
    """

    name: str  # attribute of Book
    record: type[msgspec.Struct]
    key: str
    path: str
    single: bool = False
    by_kind: bool = False


SHELVES: tuple[Shelf, ...] = (
    Shelf("sources", Source, "source", "sources.yaml"),
    Shelf("findings", Finding, "finding", "findings"),
    Shelf("questions", Question, "question", "questions"),
    Shelf("causes", Cause, "cause", "causes", single=True, by_kind=True),
    Shelf("rules", Rule, "rule", "rules"),
    Shelf("quantities", Quantity, "quantity", "readings.yaml"),
    Shelf("crops", Crop, "crop", "crops.yaml"),
    Shelf("animals", Animal, "animal", "animals.yaml"),
    Shelf("substances", Substance, "substance", "substances", single=True),
    Shelf("treatments", Treatment, "treatment", "treatments", single=True, by_kind=True),
    Shelf("cover_shares", CoverShare, "cover", "exposure.yaml"),
    Shelf("margins", Margin, "margin", "margins.yaml"),
    Shelf("substance_groups", SubstanceGroup, "group", "substance-groups.yaml"),
    Shelf("advice", Advice, "advice", "after-spraying.yaml"),
    Shelf("pictures", Picture, "picture", "pictures.yaml"),
    Shelf("aftermath", Aftermath, "aftermath", "aftermath.yaml"),
    Shelf("roles", Role, "role", "roles.yaml"),
    Shelf("synonyms", Synonyms, "word", "synonyms.yaml"),
)


def shelf_of(relative: str) -> Shelf | None:
    """The shelf a file belongs to, by its path below the knowledge folder; None if it belongs to none.

    >>> shelf_of("causes/pest/aphids.yaml").name, shelf_of("crops.yaml").name, shelf_of("notes.yaml")
    ('causes', 'crops', None)
    """
    parts = relative.split("/")
    for shelf in SHELVES:
        depth = 1 if shelf.path.endswith(".yaml") else (3 if shelf.by_kind else 2)
        if parts[0] == shelf.path and len(parts) == depth:
            return shelf
    return None
