"""`triage case place|photo|outcome|correct|history`: what is kept with a case, and how it is set right."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from ..intake import clean_text
from ..screens import garden_words as words
from . import common
from .common import home_option, json_option, open_home_journal, open_own_book, print_json
from .journal import existing_home
from .naming import cause_id

if TYPE_CHECKING:
    from ..recall.kept import KeptPhoto


@click.command()
@click.argument("number", type=int)
@click.option("--bed", default="", help="The bed, as you call it.")
@click.option("--plant", default="", help="The plant or row, as you call it.")
@home_option
@json_option
def place(number: int, bed: str, plant: str, home: str | None, as_json: bool) -> None:
    """Say in which bed and at which plant a case is; saying it again corrects it.

    Example: triage case place 3 --bed window --plant "row 2"
    """
    from ..journal import CasePlace

    said = CasePlace(bed=clean_text(bed), plant=clean_text(plant))
    if not said.bed and not said.plant:
        raise UsageError("say where: --bed NAME, --plant NAME, or both")
    with open_home_journal(existing_home(home)) as journal:
        journal.place_case(number, said)
    if as_json:
        print_json({"format": "triage-case-place/1", "case": number, "place": said})
    else:
        from ..screens import wording

        common.speak_here()
        where = ", ".join(part for part in (said.plant, wording.IN_BED.format(said.bed) if said.bed else "") if part)
        click.echo(words.PLACED.format(number=number, where=where))


@click.command()
@click.argument("number", type=int)
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--on", help="Day of the photo (2026-05-04); today if not said.")
@click.option("--note", default="", help="What it shows.")
@home_option
@json_option
def photo(number: int, files: tuple[Path, ...], on: str | None, note: str, home: str | None, as_json: bool) -> None:
    """Keep where photos of a case lie, with their checksums; without FILES: are they still there and as they were?

    The photos stay where they are. Exit 1 if one changed or is missing.

    Example: triage case photo 3 leaf.jpg --note "underside"
    """
    from ..recall.kept import load_photos

    folder, day = existing_home(home), common.day(on)
    added: list[int] = []
    if files:
        with open_home_journal(folder) as journal, journal.all_or_nothing():
            added = [journal.add_photo(number, file, day, clean_text(note)) for file in files]
    with open_home_journal(folder, read_only=True) as journal:
        photos = [each for each in load_photos(journal, number) if each.photo.id in added or not files]
    if as_json:
        kept = [{"photo": each.photo, "state": each.state} for each in photos]
        print_json({"format": "triage-photos/1", "case": number, "photos": kept})
    else:
        _say_photos(number, photos, new=bool(files))
    if any(each.state != "same" for each in photos):
        sys.exit(1)


def _say_photos(number: int, photos: list[KeptPhoto], *, new: bool) -> None:
    from ..screens.cases import say_photo

    common.speak_here()
    if not photos:
        click.echo(words.NO_PHOTOS.format(number))
    for each in photos:
        photo = each.photo
        size = f"{photo.size} bytes"
        kept = words.PHOTO_KEPT.format(number=number, path=photo.path, size=size, sha=photo.sha256[:12])
        click.echo(kept if new else say_photo(each))


@click.command()
@click.argument("number", type=int)
@click.argument("causes", nargs=-1)
@click.option("--nothing", is_flag=True, help="It was nothing that the book knows.")
@click.option("--unknown", is_flag=True, help="It is not known after all: takes an earlier outcome back.")
@click.option("--how", default="", help="How you know: vinegar test, lens, laboratory, it got well after the iron.")
@click.option("--on", help="Day on which it was proven (2026-05-14); today if not said.")
@home_option
@json_option
def outcome(
    number: int, causes: tuple[str, ...], nothing: bool, unknown: bool, how: str, on: str | None, home: str | None,
    as_json: bool,
) -> None:  # fmt: skip
    """Say what a case turned out to be: one cause of the book or several. Saying it again corrects it.

    Proven cases make their causes likelier in this garden (see: triage garden).

    Example: triage case outcome 3 iron-deficiency --how "green again after the iron"
    """
    if bool(causes) + nothing + unknown != 1:
        raise UsageError("say what it was: causes of the book, or --nothing, or --unknown")
    folder = existing_home(home)
    book = open_own_book(folder)
    ids = tuple(dict.fromkeys(cause_id(book, cause) for cause in causes))
    with open_home_journal(folder) as journal:
        journal.record_outcome(number, None if unknown else ids, clean_text(how), common.day(on))
        state = journal.load_case(number).state
    if as_json:
        print_json({"format": "triage-outcome/1", "case": number, "causes": None if unknown else ids, "how": how})
        return
    from ..screens.wording import inside, listed

    if unknown:
        click.echo(words.OUTCOME_UNKNOWN.format(number=number))
        return
    what = listed([inside(book.causes[id_].name) for id_ in ids]) if ids else words.OUTCOME_NOTHING
    click.echo(words.OUTCOME_KEPT.format(number=number, what=what))
    if state != "closed":
        click.echo(words.OUTCOME_CLOSE.format(number=number))


@click.command()
@click.argument("number", type=int)
@click.argument("action", type=int)
@click.argument("what", nargs=-1)
@click.option("--on", help="Day it was really done; as before if not said.")
@click.option("--why", default="", help="Why it is set right.")
@click.option("--withdraw", is_flag=True, help="It was not done at all.")
@home_option
@json_option
def correct(
    number: int, action: int, what: tuple[str, ...], on: str | None, why: str, withdraw: bool, home: str | None,
    as_json: bool,
) -> None:  # fmt: skip
    """Set right what was recorded as done (ACTION is its number in the history); the old entry is kept.

    Example: triage case correct 3 7 iron chelate, 12 g --why "misread the scale"
    """
    if withdraw == bool(what or on):
        raise UsageError("say what was done instead (or --on DAY), or --withdraw if it was not done at all")
    with open_home_journal(existing_home(home)) as journal, journal.all_or_nothing():
        standing = {each.id: each for each in journal.case_actions(number)}
        if action not in standing:
            known = ", ".join(map(str, standing)) or "none"
            raise UsageError(f"case {number} has no action number {action} that stands (numbers: {known})")
        old = standing[action]
        if withdraw:
            journal.withdraw_action(action, clean_text(why))
            new = None
        else:
            said, day = clean_text(" ".join(what)) or old.what, common.day(on) if on else old.on
            new = journal.correct_action(action, said, day, old.note, why=clean_text(why))
    if as_json:
        print_json({"format": "triage-correction/1", "case": number, "action": action, "by": new})
        return
    common.speak_here()
    if withdraw:
        click.echo(words.WITHDRAWN.format(old=action))
    else:
        click.echo(words.CORRECTED.format(old=action, what=said, on=day))


@click.command()
@click.argument("number", type=int)
@home_option
@json_option
def history(number: int, home: str | None, as_json: bool) -> None:
    """Every entry of a case in the order of time: answers taken back, corrections and photos too.

    Example: triage case history 3
    """
    from ..recall.history import case_history

    folder = existing_home(home)
    with open_home_journal(folder, read_only=True) as journal:
        found = case_history(journal, number)
    if as_json:
        print_json(found)
        return
    from ..screens.history import render_history

    render_history(found, common.console(), open_own_book(folder))
