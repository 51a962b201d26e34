"""Entries of the book as they are named on a command line. Errors: UsageError with the nearest match."""

from __future__ import annotations

from collections.abc import Collection

from ..errors import UsageError, nearest
from ..model.book import Book


def check_known(name: str, known: Collection[str], what: str) -> None:
    """Refuse an id that no entry has; ``what`` is the kind of entry in words."""
    if name not in known:
        raise UsageError(f"no {what} '{name}' in the book{nearest(name, known)}")


def crop_id(book: Book, name: str | None) -> str:
    """The id of a crop by its id or any of its names; '' where none is named."""
    from ..intake import named_ids

    return named_ids([name], book.crops, "crop")[0] if name else ""


def cause_id(book: Book, name: str | None) -> str:
    """The id of a cause by its id, its name, or words that stand in no other name; '' where none is named."""
    if not name:
        return ""
    wanted = name.strip().casefold()
    known = {id_: cause.name.casefold() for id_, cause in book.causes.items()}
    fits = [id_ for id_ in known if wanted in (id_, known[id_])] or [id_ for id_ in known if wanted in known[id_]]
    if len(fits) == 1:
        return fits[0]
    if fits:
        raise UsageError(f"'{name}' may be several causes (say one of: {', '.join(fits)})")
    near = nearest(wanted, [*known, *known.values()])
    raise UsageError(f"no cause '{name}' in the book{near} (see: triage book find WORDS)")
