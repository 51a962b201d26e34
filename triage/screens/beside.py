"""What stands beside a question, quietly: pictures of its answers, and what is thought of so far."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.book import Book
from ..report.case_report import QuestionLine
from . import wording
from .standing import SHOWN, WORTH_NAMING
from .style import columns, is_spoken, line

NARROW = 60  # columns; with fewer there is no room for pictures
ROOM_FOR_TEXT = 5  # lines of a question that are there in any case: a blank one, what is asked, how to look, the prompt


def shows_pictures(console: Console) -> bool:
    """Whether pictures can be shown at all: on a terminal that can place letters and is wide enough, nowhere else."""
    return console.is_terminal and not console.is_dumb_terminal and columns(console) >= NARROW


def pictures_for(shown: QuestionLine, crop: str, console: Console, book: Book) -> None:
    """Pictures of the answers, where there are some and the whole question stays on the screen with them."""
    if not shows_pictures(console) or not has_pictures(shown, book):
        return
    console.file.flush()  # the words are there to be read while the pictures are painted
    from .pictures.show import lines_beside

    lines = lines_beside([option.id for option in shown.options], crop, console, book=book)
    if len(lines) + ROOM_FOR_TEXT + len(shown.options) + 2 <= console.height:
        for one in lines:
            console.print(one, soft_wrap=True)
    elif lines:
        line(console, (wording.PICTURES_ASKED, "triage.quiet"))


def pictures_on_request(shown: QuestionLine | None, crop: str, console: Console, book: Book) -> None:
    """The pictures however much room they take; in words where no picture can be shown."""
    if shown is None or not has_pictures(shown, book):
        line(console, wording.NO_PICTURES)
        return
    from .pictures.show import lines_beside, words_beside

    options = [option.id for option in shown.options]
    if shows_pictures(console):
        for one in lines_beside(options, crop, console, book=book):
            console.print(one, soft_wrap=True)
    else:
        words_beside(options, crop, console, book=book)


def has_pictures(shown: QuestionLine, book: Book) -> bool:
    """Whether at least two answers have a picture each, of their own."""
    having = [_picture_of(option.id, book) for option in shown.options]
    return len([one for one in having if one and having.count(one) == 1]) > 1


def _picture_of(finding: str, book: Book) -> str:
    own = (name for name, picture in book.pictures.items() if picture.finding == finding)
    shared = (name for name, picture in book.pictures.items() if finding in picture.also)
    return next(own, "") or next(shared, "")


def whisper(chances: Mapping[str, float], names: Mapping[str, str], console: Console) -> None:
    """What is thought of so far, by the alphabet and without a degree, so that it pulls nobody's answer.

    Not where the screen is read aloud: there it would stand between every question and its answer.
    """
    likely = sorted((cause for cause in chances if chances[cause] >= WORTH_NAMING), key=lambda c: (-chances[c], c))
    said = sorted(wording.inside(names.get(cause, cause)) for cause in likely[:SHOWN])
    if said and not is_spoken(console):
        line(console, (wording.SO_FAR_BESIDE.format("; ".join(said)), "triage.quiet"))


__all__ = ["has_pictures", "pictures_for", "pictures_on_request", "shows_pictures", "whisper"]
