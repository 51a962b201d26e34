"""Leaf pictures of a sheet: of what was seen, and of the causes it is taken for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..model.book import Book
from .pictures.catalogue import ANY_CROP, Shown, pictures_of, row_of, scenes_of, show_cause
from .pictures.svg_page import svg_figure

#: So many pictures of what was seen; more would hide the words.
MOST_SEEN = 6


def finding_pictures(book: Book, seen: Sequence[str], crop: str) -> Iterator[tuple[str, str, str]]:
    """(name, the picture in words, svg) of the findings that have a picture, each picture once."""
    have = pictures_of(book)
    drawn = {have[id_].picture: id_ for id_ in reversed(seen) if id_ in have}
    wanted = [id_ for id_ in seen if id_ in drawn.values()][:MOST_SEEN]
    row, grown = row_of(book, wanted), book.crops.get(crop, ANY_CROP)
    for number, id_ in enumerate(wanted):
        picture, name = have[id_], book.findings[id_].name
        shown = Shown(name, picture.says, scenes_of(picture, grown, row=row))
        yield name, picture.says, svg_figure(shown, f"seen{number}")


def cause_pictures(book: Book, causes: Sequence[str], crop: str) -> Iterator[tuple[str, str, str]]:
    """(cause id, the picture in words, svg) of the causes that have a picture."""
    grown = book.crops.get(crop, ANY_CROP)
    for number, id_ in enumerate(causes):
        cause = book.causes.get(id_)
        panel = show_cause(book, cause, grown) if cause else None
        if panel is not None:
            yield id_, panel.says, svg_figure(panel, f"cause{number}")
