"""One question as it is put, and what may be typed at it."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console

from ..errors import UsageError
from ..report.case_report import QuestionLine
from . import wording
from .style import heading, line


def is_yes_or_no(shown: QuestionLine) -> bool:
    """Whether there is one thing to say yes or no to."""
    return len(shown.options) == 1


def show_question(shown: QuestionLine, console: Console, number: int) -> None:
    """The question with its number, how to look, and the answers."""
    heading(console, shown.ask, bullet=f"{number}.")
    if shown.look:
        line(console, (shown.look, "triage.quiet"))
    if is_yes_or_no(shown):
        line(console, f"{wording.YES}: {shown.options[0].name}", bullet=f" {wording.YES_KEY}")
        line(console, wording.NO, bullet=f" {wording.NO_KEY}")
    else:
        for place, option in enumerate(shown.options, start=1):
            line(console, option.name, bullet=f"{place:>2}")
        line(console, wording.NONE_OF_THESE, bullet=" 0")
    line(console, wording.CANT_TELL, bullet=" t")


def prompt_of(shown: QuestionLine) -> str:
    """The words before the cursor."""
    if is_yes_or_no(shown):
        return wording.YES_OR_NO
    return wording.PICK_ONE if shown.pick == "one" else wording.PICK_ANY


def nothing_typed(shown: QuestionLine) -> str:
    """What to say when somebody only presses Enter."""
    return wording.EMPTY_YES_NO if is_yes_or_no(shown) else wording.EMPTY


def parse_answer(typed: str, shown: QuestionLine) -> tuple[list[str], list[str]]:
    """What was typed → options (seen, not sure); both empty: none of these. Errors: UsageError says what is allowed."""
    if is_yes_or_no(shown):
        seen, unsure = parse_yes_or_no(typed)
    elif _says_none(typed):
        seen, unsure = [], []
    elif place := by_first_letters(typed, [option.name for option in shown.options]):
        seen, unsure = ([], [place - 1]) if typed.endswith("?") else ([place - 1], [])
    else:
        seen, unsure = parse_choice(typed, len(shown.options), one=shown.pick == "one")
    ids = [option.id for option in shown.options]
    return [ids[number] for number in seen], [ids[number] for number in unsure]


def _says_none(typed: str) -> bool:
    word = typed.lower().rstrip(".")
    return word[:1].isalpha() and word in (wording.NONE_OF_THESE, *wording.KEYS["no"], *wording.KEYS["nothing"])


def by_first_letters(typed: str, names: Sequence[str]) -> int:
    """The number of the answer whose name begins so, or goes on so after a first word that others share; 0 if it is
    none, or may be several. Errors: UsageError that says which it may be.

    >>> fish = ["Fish look as always", "Fish gasp at the surface", "The fish behave oddly"]
    >>> by_first_letters("gas", fish), by_first_letters("the?", fish), by_first_letters("odd", fish)
    (2, 3, 0)
    """
    said = typed.lower().rstrip("?. ")
    if not said[:1].isalpha():
        return 0
    firsts = [name.lower().split(" ")[0] for name in names]
    begins = [
        {name.lower(), name.lower().removeprefix(first).lstrip() if firsts.count(first) > 1 else name.lower()}
        for name, first in zip(names, firsts, strict=True)
    ]
    found = [place for place, forms in enumerate(begins, start=1) if any(form.startswith(said) for form in forms)]
    if len(found) > 1:
        raise UsageError(wording.SEVERAL_BEGIN.format(typed, wording.listed([str(place) for place in found], "or")))
    return found[0] if found else 0


def parse_yes_or_no(typed: str) -> tuple[list[int], list[int]]:
    """As :func:`parse_choice`, for a single option.

    >>> parse_yes_or_no("y"), parse_yes_or_no("no"), parse_yes_or_no("?")
    (([0], []), ([], []), ([], [0]))
    """
    word = typed.strip().lower().rstrip(".")
    keys = wording.KEYS
    yes, perhaps = word in ("1", *keys["yes"]), word in keys["perhaps"]
    if not (yes or perhaps or word in ("0", *keys["no"])):
        raise UsageError(wording.NO_ANSWER.format(typed, wording.ALLOWED_YES_NO))
    return ([0] if yes else []), ([0] if perhaps else [])


def parse_choice(typed: str, options: int, *, one: bool) -> tuple[list[int], list[int]]:
    """Option numbers typed → (chosen, unsure), counted from zero. '2?' means not sure, '0' none of these.

    Errors: UsageError that says what is allowed.

    >>> parse_choice("1, 3?", 4, one=False), parse_choice("0", 4, one=True)
    (([0], [2]), ([], []))
    """
    allowed = (wording.ALLOWED_ONE if one else wording.ALLOWED_ANY).format(options)
    words = typed.replace(",", " ").replace(".", " ").replace(" ?", "?").split()
    if not any(character.isdigit() for character in typed):
        raise UsageError(wording.NO_ANSWER.format(shortened(typed), allowed))
    numbers = [_number(word, options, allowed) for word in words]
    if not words:
        raise UsageError(allowed)
    if one and len(words) > 1:
        raise UsageError(wording.JUST_ONE.format(allowed))
    if 0 in numbers and len(words) > 1:
        raise UsageError(wording.NONE_AND_SOME.format(allowed))
    sure = [number - 1 for number, word in zip(numbers, words, strict=True) if number and not word.endswith("?")]
    unsure = [number - 1 for number, word in zip(numbers, words, strict=True) if number and word.endswith("?")]
    return list(dict.fromkeys(sure)), [number for number in dict.fromkeys(unsure) if number not in sure]


def _number(word: str, options: int, allowed: str) -> int:
    digits = word.removesuffix("?")
    if not (digits.isascii() and digits.isdecimal()) or len(digits) > 3 or int(digits) > options:
        raise UsageError(wording.NO_ANSWER.format(shortened(word), allowed))
    return int(digits)


def shortened(text: str, most: int = 40) -> str:
    """Typed text short enough to be said back.

    >>> shortened("a" * 50, 5)
    'aaaaa...'
    """
    return text if len(text) <= most else f"{text[:most]}..."
