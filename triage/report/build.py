"""What the engines gave → one Report, with everyday names in place of ids where people read."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

import msgspec

from ..model.book import Book
from ..model.case import Case
from ..model.cause import Expect
from ..model.facts import RulesOutcome
from ..model.outcome import Avoided, Heard, NextQuestion, Ranking, Response, Support, Suspect
from ..model.quantity import Reading
from . import words
from .case_report import (
    BookMark,
    ConclusionLine,
    OptionLine,
    QuestionLine,
    ReadingLine,
    Report,
    ResponseLine,
    SupportLine,
    SuspectLine,
    TogetherLine,
)
from .saying import count_days

#: Findings that are often there without any cause are no riddle when nothing explains them.
NOTABLE = ("seldom", "hardly-ever", "not-otherwise")


class Look(msgspec.Struct, frozen=True, kw_only=True):
    """Everything one pass through the engines gave."""

    case: Case
    heard: tuple[Heard, ...]
    unread: tuple[str, ...]
    contradictions: tuple[str, ...]
    readings: tuple[Reading, ...]
    outcome: RulesOutcome
    ranking: Ranking
    question: NextQuestion | None
    responses: tuple[Response, ...]
    avoided: tuple[Avoided, ...]
    from_journal: tuple[str, ...] = ()  # what this garden's own journal added, in sentences


def build_report(book: Book, look: Look) -> Report:
    """The report of one look."""
    case = look.case
    return Report(
        book=BookMark(version=book.version, hash=book.hash),
        on=case.on,
        crop=case.crop,
        seen=tuple(sorted(case.seen)),
        absent=tuple(sorted(case.absent)),
        unsure=tuple(sorted(case.unsure)),
        alarms=look.outcome.alarms,
        conclusions=tuple(
            ConclusionLine(id=c.id, because=c.because, rule=c.rule, from_=c.facts) for c in look.outcome.conclusions
        ),
        read_words=look.heard,
        unread_words=look.unread,
        suspects=tuple(_suspect(book, suspect, look) for suspect in look.ranking.suspects),
        none_in_book=look.ranking.none_in_book,
        together=tuple(TogetherLine(causes=t.causes, probability=t.probability) for t in look.ranking.together),
        unexplained=tuple(f for f in look.ranking.unexplained if book.findings[f].by_itself in NOTABLE),
        contradictions=look.contradictions,
        next_question=build_question(book, look.question),
        responses=tuple(_response(book, response) for response in look.responses),
        avoid=look.avoided,
        readings_used=tuple(_reading(book, reading, case.on) for reading in look.readings if not reading.derived),
        firings=look.outcome.firings,
        cautions=words.CAUTIONS,
        from_journal=look.from_journal,
    )


def build_question(book: Book, question: NextQuestion | None) -> QuestionLine | None:
    """The question as it is asked, with the names of its options."""
    if question is None:
        return None
    entry = book.questions[question.id]
    return QuestionLine(
        id=entry.question,
        ask=entry.ask,
        look=entry.look,
        pick=entry.pick,
        options=tuple(OptionLine(id=option, name=book.findings[option].name) for option in entry.options),
        why=question.why,
        bits=question.bits,
    )


def _suspect(book: Book, suspect: Suspect, look: Look) -> SuspectLine:
    cause = book.causes[suspect.cause]
    moved = (*look.outcome.favoured, *book.here.favoured)
    because = {f.rule: f.because for f in moved if f.cause == suspect.cause}
    lines = [_support(book, support, because) for support in suspect.support]
    return SuspectLine(
        cause=cause.cause,
        name=cause.name,
        kind=cause.kind,
        plain=cause.plain,
        probability=suspect.probability,
        for_=tuple(sorted((s for s in lines if s.support > 0), key=lambda s: (-s.support, s.what))),
        against=tuple(sorted((s for s in lines if s.support < 0), key=lambda s: (s.support, s.what))),
        settle=tuple(cause.settle),
        not_to_confuse=tuple(
            (book.causes[other].name, alike.look)
            for other, alike in cause.not_to_confuse.items()
            if other in book.causes
        ),
        expect=_expect(cause.expect, look.case.on),
        sources=tuple(cause.sources),
    )


def _support(book: Book, support: Support, because: Mapping[str, str]) -> SupportLine:
    if support.kind in ("seen", "absent", "unsure"):
        say = words.STATES[support.kind].format(book.findings[support.what].name)
    elif support.kind == "words":
        say = words.SOUNDS_LIKE if support.bits > 0 else words.SOUNDS_ELSE
    else:
        say = because.get(support.what, support.what.replace("-", " "))
    return SupportLine(what=support.what, support=support.bits, kind=support.kind, say=say)


def _expect(expect: Expect, on: str) -> tuple[str, ...]:
    """Recovery in sentences, with the day on which to look again."""
    said = []
    for what, text in ((words.NEW_LEAVES, expect.new_leaves), (words.OLD_LEAVES, expect.old_leaves)):
        if text:
            said.append(_sentence(text if text.lower().startswith(what.lower()) else f"{what}: {text}"))
    if expect.better_within_days:
        said.append(words.BETTER.format(count_days(expect.better_within_days)))
    if expect.look_again_days:
        when = count_days(expect.look_again_days), _dated(on, expect.look_again_days)
        said.append(words.LOOK_AGAIN.format(*when))
    return tuple(said)


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _dated(on: str, days: int) -> str:
    """The day so many days later, as far as the day of the look is known."""
    try:
        return words.ON_DAY.format(date.fromisoformat(on) + timedelta(days=days))
    except (ValueError, OverflowError):
        return ""


def _response(book: Book, response: Response) -> ResponseLine:
    kind = book.treatments[response.treatment].kind
    return ResponseLine(**msgspec.structs.asdict(response), kind=kind)


def _reading(book: Book, reading: Reading, on: str) -> ReadingLine:
    return ReadingLine(
        quantity=reading.quantity,
        name=book.quantities[reading.quantity].name,
        value=reading.value,
        unit=reading.unit,
        bound=reading.bound,
        low=reading.low,
        high=reading.high,
        step=reading.step,
        on=reading.on,
        age_days=age_days(reading.on, on),
        note=reading.note,
    )


def age_days(measured: str, on: str) -> int | None:
    """Days between two ISO dates; None if either is unknown.

    >>> age_days("2026-05-03", "2026-05-04")
    1
    """
    try:
        return (date.fromisoformat(on) - date.fromisoformat(measured)).days
    except ValueError:
        return None
