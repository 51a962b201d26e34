"""One Report of one look at one plant: what every screen, file and program is given."""

from __future__ import annotations

from typing import Any

import msgspec

from ..model.outcome import AlarmRaised, Avoided, Firing, Heard, Response

FORMAT = "triage-case/1"


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """Base of the parts of reports; keys are written as they are named."""


class BookMark(Part, frozen=True, kw_only=True):
    version: str
    hash: str


class ConclusionLine(Part, frozen=True, kw_only=True):
    id: str
    because: str
    rule: str
    from_: tuple[str, ...] = msgspec.field(name="from")


class SupportLine(Part, frozen=True, kw_only=True):
    """What speaks for or against, in bits; ``say`` is the everyday wording."""

    what: str
    support: float
    kind: str
    say: str


class SuspectLine(Part, frozen=True, kw_only=True):
    cause: str
    name: str
    kind: str
    plain: str
    probability: float
    for_: tuple[SupportLine, ...] = msgspec.field(name="for")
    against: tuple[SupportLine, ...]
    settle: tuple[str, ...]
    not_to_confuse: tuple[tuple[str, str], ...]  # (name, how to tell)
    expect: tuple[str, ...]
    sources: tuple[str, ...]


class TogetherLine(Part, frozen=True, kw_only=True):
    causes: tuple[str, ...]
    probability: float


class OptionLine(Part, frozen=True, kw_only=True):
    id: str
    name: str


class QuestionLine(Part, frozen=True, kw_only=True):
    id: str
    ask: str
    look: str
    pick: str
    options: tuple[OptionLine, ...]
    why: str
    bits: float


class ResponseLine(Response, frozen=True, kw_only=True):
    """A response with the kind of its treatment."""

    kind: str


class ReadingLine(Part, frozen=True, kw_only=True):
    quantity: str
    name: str
    value: float
    unit: str
    bound: str
    low: float = 0.0  # the ends between which the true value lies
    high: float = 0.0
    step: float = 0.0  # of the kit
    on: str
    age_days: int | None
    note: str


class Report(Part, frozen=True, kw_only=True):
    """The whole answer; see the commands' documentation for what each key promises."""

    format: str = FORMAT
    book: BookMark
    on: str
    crop: str
    seen: tuple[str, ...]
    absent: tuple[str, ...]
    unsure: tuple[str, ...]
    alarms: tuple[AlarmRaised, ...]
    conclusions: tuple[ConclusionLine, ...]
    read_words: tuple[Heard, ...]
    unread_words: tuple[str, ...]
    suspects: tuple[SuspectLine, ...]
    none_in_book: float
    together: tuple[TogetherLine, ...]
    unexplained: tuple[str, ...]
    contradictions: tuple[str, ...] = ()
    next_question: QuestionLine | None
    responses: tuple[ResponseLine, ...]
    avoid: tuple[Avoided, ...]
    readings_used: tuple[ReadingLine, ...]
    firings: tuple[Firing, ...]
    cautions: tuple[str, ...]
    from_journal: tuple[str, ...] = ()  # what this garden's own journal added, in sentences


def report_as_data(report: msgspec.Struct) -> Any:
    """Plain data in the documented shape, ready for JSON.

    Probabilities and bits are rounded to six decimals, so that the last bits of two machines do not differ.
    """
    return _rounded(msgspec.to_builtins(report))


def _rounded(value: Any) -> Any:
    if isinstance(value, float):
        return round(value, 6)
    if isinstance(value, dict):
        return {key: _rounded(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(inner) for inner in value]
    return value


def encode_json(data: Any) -> str:
    """One JSON object, indented, ending without a newline."""
    return msgspec.json.format(msgspec.json.encode(data), indent=2).decode()
