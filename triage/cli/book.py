"""`triage book check|find|show|sources`."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ..errors import UsageError, nearest
from .common import console, home_folder, home_option, json_option, open_own_book, print_json
from .files import new_file
from .naming import check_known, crop_id

if TYPE_CHECKING:
    from rich.console import Console

    from ..model.book import Book


@click.group()
def book() -> None:
    """Check, search and show the knowledge and its sources.

    Example: triage book find yellow veins
    """


@book.command()
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
@home_option
@json_option
def check(folder: Path | None, home: str | None, as_json: bool) -> None:
    """Check the built-in book, with your own folder (or DIR) laid over it; exit 1 if anything is wrong.

    Example: triage book check my-knowledge
    """
    from ..book.check import check_folders
    from ..book.places import built_in_knowledge
    from ..ranking.neighbours import nearest
    from ..rules.check import rule_faults
    from ..screens.speech import english_texts

    own = folder or home_folder(home) / "knowledge"
    folders = [built_in_knowledge(), *([own] if own.is_dir() else [])]
    faults = check_folders(folders, rule_faults, english_texts(), nearest)
    if as_json:
        print_json({"format": "triage-check/1", "faults": faults})
    else:
        for fault in faults:
            click.echo(str(fault))
        errors = sum(fault.severity == "error" for fault in faults)
        click.echo(f"{errors} errors, {len(faults) - errors} warnings", err=True)
    sys.exit(1 if faults else 0)


@book.command()
@click.argument("words", nargs=-1, required=True)
@home_option
@json_option
def find(words: tuple[str, ...], home: str | None, as_json: bool) -> None:
    """Find causes, findings, treatments, substances by words.

    Example: triage book find spider mite
    """
    from ..book.find import find_entries

    hits = find_entries(open_own_book(home_folder(home)), " ".join(words))
    if as_json:
        print_json({"format": "triage-find/1", "hits": [vars(hit) for hit in hits]})
        return
    if not hits:
        click.echo(f"Nothing in the book holds all of: {' '.join(words)} (try one word, or an everyday word)", err=True)
    from ..screens.book import render_hits

    render_hits(hits, console())


@book.command()
@click.argument("ids", metavar="ID...", nargs=-1, required=True)
@click.option("--crop", default="", help="Draw the leaf of this crop.")
@click.option("--svg", type=click.Path(dir_okay=False, path_type=Path), help="Write the pictures, side by side, here.")
@click.option("--replace", is_flag=True, help="Write over an SVG file that is there already.")
@click.option("--no-picture", is_flag=True, help="Words only.")
@home_option
@json_option
def show(
    ids: tuple[str, ...], crop: str, svg: Path | None, replace: bool, no_picture: bool, home: str | None, as_json: bool
) -> None:
    """Show entries with their sources, and their picture where there is one.

    Example: triage book show iron-deficiency --crop strawberry
    """
    from ..book.find import find_by_id, sources_of

    the_book = open_own_book(home_folder(home))
    found = [pair for id_ in ids for pair in (find_by_id(the_book, id_) or _unknown(the_book, id_))]
    grown = crop_id(the_book, crop)
    if svg is not None:
        _write_pictures(the_book, ids, grown, svg, replace)
        return
    if as_json:
        entries = [{"shelf": s, "entry": e, "sources": sources_of(the_book, e)} for s, e in found]
        print_json({"format": "triage-entry/1", "entries": entries})
        return
    from ..screens.book import render_entry

    out = console()
    for shelf, entry in found:
        drawn = "" if no_picture else getattr(entry, shelf.removesuffix("s"), "")
        render_entry(shelf, entry, sources_of(the_book, entry), out, partial(_draw, the_book, drawn, grown, out))


def _unknown(the_book: Book, id_: str) -> list[tuple[str, Any]]:
    from ..book.find import all_entries

    raise UsageError(f"nothing in the book has the id '{id_}'{nearest(id_, [i for _, i, _ in all_entries(the_book)])}")


def _draw(the_book: Book, id_: str, crop: str, out: Console) -> None:
    """The picture of a finding, a cause or a picture; nothing of anything else, and then nothing is loaded."""
    drawn = {id_ for picture in the_book.pictures.values() for id_ in (picture.picture, picture.finding, *picture.also)}
    if id_ in drawn or id_ in the_book.causes:
        from ..screens.pictures.show import picture_beside

        picture_beside(id_, crop, out, book=the_book)


def _write_pictures(the_book: Book, ids: tuple[str, ...], crop: str, path: Path, replace: bool) -> None:
    from ..screens.pictures import words
    from ..screens.pictures.catalogue import show as show_picture
    from ..screens.pictures.svg_page import svg_page

    panels = {id_: show_picture(the_book, id_, crop, fine=True) for id_ in ids}
    if missing := [id_ for id_, panel in panels.items() if panel is None]:
        raise UsageError(words.NO_PICTURE.format(id=missing[0]))
    with new_file(path, replace=replace) as file:
        file.write(svg_page([panel for panel in panels.values() if panel is not None]))
    click.echo(words.WRITTEN.format(path=path), err=True)


@book.command()
@click.argument("id_", metavar="[ID]", required=False)
@home_option
@json_option
def sources(id_: str | None, home: str | None, as_json: bool) -> None:
    """List every source, or what rests on one source.

    Example: triage book sources epa2013
    """
    from ..book.find import named_by

    the_book = open_own_book(home_folder(home))
    if id_ is not None:
        check_known(id_, the_book.sources, "source")
    listed = [the_book.sources[id_]] if id_ else list(the_book.sources.values())
    uses = named_by(the_book)
    if as_json:
        rows = [{"source": source, "named_by": uses.get(source.source, [])} for source in listed]
        print_json({"format": "triage-sources/1", "sources": rows})
        return
    from ..screens.book import render_sources

    render_sources(listed, uses, console(), whole=id_ is not None)
