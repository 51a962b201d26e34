"""What is told without choosing from a list: the crop, own words, readings; and words where a number was asked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..model.quantity import Quantity
from ..report.case_report import QuestionLine
from ..session import Told
from . import wording
from .measured import say_value
from .question import shortened
from .style import line

if TYPE_CHECKING:
    from .series import Series

NEAR = 3  # names offered for one that is not in the book
UNREAD_SHOWN = 5


def ask_openly(series: Series, step: str) -> None:
    """Ask for the crop, for words or for readings."""
    if step == "crop":
        _crop(series)
    elif step == "words":
        _in_words(series, step, wording.WORDS_ASK, wording.WORDS_LOOK, wording.WORDS_PROMPT)
    else:
        _in_words(series, step, wording.WATER_ASK, wording.WATER_LOOK, wording.WATER_PROMPT)


def hear_instead(series: Series, typed: str, shown: QuestionLine) -> str | None:
    """Take words typed at a question: the question they answer, '' if they say something else, None if nothing."""
    heard, _ = series.session.understood(typed)
    if not heard and not series.session.spoken(typed):
        return None
    options = {option.id for option in shown.options}
    question = shown.id if any(item.finding in options for item in heard) else ""
    series.tell(Told(kind="words", question=question, text=typed))
    _say_heard(series, typed)
    return question


def _crop(series: Series) -> None:
    series.title(wording.CROP_ASK)
    yours = [id_ for id_ in series.session.system.crops if id_ in series.session.book.crops]
    if yours:
        named = [f"{place} {series.names[id_]}" for place, id_ in enumerate(yours, start=1)]
        line(series.console, wording.CROP_YOURS.format(", ".join(named)))
    while True:
        typed = series.typed(wording.CROP_PROMPT.format(wording.CROP_OR_NUMBER if yours else ""))
        if _says_nothing(typed):
            series.tell(Told(kind="cant-tell", question="crop"))
            return
        crop = _crop_of(series, typed, yours)
        if crop:
            if series.names[crop].lower() != typed.lower():
                line(series.console, wording.CROP_TAKEN.format(series.names[crop]))
            series.tell(Told(kind="crop", question="crop", crop=crop))
            return
        line(series.console, wording.CROP_UNKNOWN.format(shortened(typed), _near(series, typed)))


def _says_nothing(typed: str) -> bool:
    """Whether this is what people type when they have nothing to say."""
    keys = wording.KEYS
    return typed.lower().rstrip(".") in ("", "0", *keys["can't tell"], *keys["no"], *keys["nothing"])


def _crop_of(series: Series, typed: str, yours: list[str]) -> str | None:
    if typed.isascii() and typed.isdecimal():
        place = int(typed[:4])
        return yours[place - 1] if 1 <= place <= len(yours) else None
    from ..book.casefile import find_named  # brings YAML with it, so not before it is needed

    crops = series.session.book.crops
    begin = [id_ for id_, crop in crops.items() if crop.name.lower().startswith(typed.lower())]
    return find_named(typed, crops) or (begin[0] if len(begin) == 1 else None)


def _near(series: Series, typed: str) -> str:
    from ..words.nearest import nearest_names

    names = {name.lower(): crop.name for crop in series.session.book.crops.values() for name in (crop.name, *crop.also)}
    near = dict.fromkeys(names[name] for name in nearest_names(shortened(typed), names))
    said = wording.listed([wording.inside(name) for name in near][:NEAR], "or")
    return wording.CROP_NEAR.format(said) if near else ""


def _in_words(series: Series, step: str, ask: str, look: str, prompt: str) -> None:
    series.title(ask, look)
    typed = series.typed(prompt)
    if _says_nothing(typed):
        series.tell(Told(kind="cant-tell", question=step))
        return
    if _told_in_words(series, step, typed) and (again := series.typed(wording.WORDS_AGAIN)):
        _told_in_words(series, step, again)


def _told_in_words(series: Series, step: str, typed: str) -> bool:
    """Take some words and say what was made of them; whether some of them were not understood."""
    text = spelt_out(typed, series.session.book.quantities) if step == "readings" else typed
    series.tell(Told(kind="words", question=step, text=text))
    return _say_heard(series, text)


def spelt_out(typed: str, quantities: Mapping[str, Quantity]) -> str:
    """Readings with their names in full, where a short name stands before a number; such names are too short to be
    read out of running text."""
    for quantity in quantities.values():
        for short in quantity.short:
            pattern = rf"(?<![\w-]){re.escape(short)}(?=\s*[=:<>≤≥]*\s*\d)"
            typed = re.sub(pattern, quantity.quantity.replace("-", " "), typed, flags=re.IGNORECASE)
    return typed


def _say_heard(series: Series, text: str) -> bool:
    """Say what was made of some words; whether some of them were not understood."""
    session = series.session
    heard, unread = session.understood(text)
    said = [wording.say_heard(item, series.names[item.finding]) for item in heard]
    readings = session.spoken(text)
    said += [wording.inside(say_value(session.book.quantities[item.quantity].name, item)) for item in readings]
    for words in said:
        line(series.console, wording.I_UNDERSTOOD.format(words))
    for words in unread[:UNREAD_SHOWN]:
        line(series.console, wording.NOT_UNDERSTOOD.format(shortened(words, 200)))
    return bool(unread)
