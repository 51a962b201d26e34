"""`triage book check|find|show|sources`."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from ..errors import UsageError
from .common import console, home_folder, home_option, json_option, open_own_book, print_json


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
    from ..rules.check import rule_faults

    own = folder or home_folder(home) / "knowledge"
    faults = check_folders([built_in_knowledge(), *([own] if own.is_dir() else [])], rule_faults)
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
@click.argument("id_", metavar="ID")
@home_option
@json_option
def show(id_: str, home: str | None, as_json: bool) -> None:
    """Show one entry with its sources.

    Example: triage book show iron-deficiency
    """
    from ..book.find import all_entries, find_by_id, sources_of
    from ..book.records import nearest

    the_book = open_own_book(home_folder(home))
    found = find_by_id(the_book, id_)
    if not found:
        raise UsageError(
            f"nothing in the book has the id '{id_}'{nearest(id_, [i for _, i, _ in all_entries(the_book)])}"
        )
    if as_json:
        entries = [{"shelf": s, "entry": e, "sources": sources_of(the_book, e)} for s, e in found]
        print_json({"format": "triage-entry/1", "entries": entries})
        return
    from ..screens.book import render_entry

    out = console()
    for shelf, entry in found:
        render_entry(shelf, entry, sources_of(the_book, entry), out)


@book.command()
@click.argument("id_", metavar="[ID]", required=False)
@home_option
@json_option
def sources(id_: str | None, home: str | None, as_json: bool) -> None:
    """List every source, or what rests on one source.

    Example: triage book sources epa2013
    """
    from ..book.find import named_by
    from ..book.records import nearest

    the_book = open_own_book(home_folder(home))
    if id_ is not None and id_ not in the_book.sources:
        raise UsageError(f"no source has the id '{id_}'{nearest(id_, the_book.sources)}")
    listed = [the_book.sources[id_]] if id_ else list(the_book.sources.values())
    uses = named_by(the_book)
    if as_json:
        rows = [{"source": source, "named_by": uses.get(source.source, [])} for source in listed]
        print_json({"format": "triage-sources/1", "sources": rows})
        return
    from ..screens.book import render_sources

    render_sources(listed, uses, console(), whole=id_ is not None)
