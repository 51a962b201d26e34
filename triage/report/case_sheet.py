"""One case on a sheet for an adviser: what was seen, measured, taken for, advised and done, and how it went on.

Whatever the grower typed is of the type ``Own``, so that it can be left out without naming a single field.
"""

from __future__ import annotations

import msgspec

from ..model.outcome import Avoided, Dose
from ..model.rule import Grade
from .case_report import BookMark, Part
from .own_words import Own

FORMAT = "triage-case-sheet/1"


class HereLine(Part, frozen=True, kw_only=True):
    """Where it is. Names of animals are those of the book; ``volume_l`` and ``altitude_m`` None where nobody said."""

    system: Own
    bed: Own
    plant: Own
    volume_l: float | None
    animals: tuple[str, ...]
    beds: str
    filter: Own
    top_up: str
    place: str
    altitude_m: float | None


class FindingLine(Part, frozen=True, kw_only=True):
    """One finding; ``words`` are those it was read from, where it was told in words."""

    id: str
    name: str
    term: str
    place: str
    words: tuple[Own, ...] = ()


class SaidLine(Part, frozen=True, kw_only=True):
    """The findings of one look by their state."""

    seen: tuple[FindingLine, ...]
    absent: tuple[FindingLine, ...]
    unsure: tuple[FindingLine, ...]
    words: tuple[Own, ...]
    unread: tuple[Own, ...]


class MeasuredLine(Part, frozen=True, kw_only=True):
    """One reading in its quantity's own unit; the true value lies from ``low`` to ``high`` (None: no end)."""

    quantity: str
    name: str
    on: str
    time: str
    value: float
    bound: str
    unit: str
    low: float | None
    high: float | None
    step: float
    kit: str
    point: str
    note: Own


class LimitLine(Part, frozen=True, kw_only=True):
    """What the animals kept bear of a quantity, the strictest ends; '' where there is no such end."""

    quantity: str
    low: float | None
    low_for: str
    high: float | None
    high_for: str
    sources: tuple[str, ...]


class ReasonLine(Part, frozen=True, kw_only=True):
    """What speaks for (bits above nothing) or against; ``kind``: seen | absent | unsure | rule | crop."""

    say: str
    kind: str
    bits: float
    sources: tuple[str, ...]


class CauseLine(Part, frozen=True, kw_only=True):
    """A suspect with its reasons. ``sources`` are those of its table of signs."""

    cause: str
    name: str
    kind: str
    plain: str
    probability: float
    for_: tuple[ReasonLine, ...] = msgspec.field(name="for")
    against: tuple[ReasonLine, ...]
    settle: tuple[str, ...]
    not_to_confuse: tuple[tuple[str, str], ...]
    expect: tuple[str, ...]
    sources: tuple[str, ...]


class DrawnLine(Part, frozen=True, kw_only=True):
    """Something that follows from readings and changes, with the sources of its rule."""

    say: str
    sources: tuple[str, ...]


class RemedyLine(Part, frozen=True, kw_only=True):
    """A remedy that was advised. ``against`` are names of causes."""

    treatment: str
    name: str
    against: tuple[str, ...]
    grade: Grade
    why: tuple[str, ...]
    dose: Dose | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    harvest_wait_days: float | None
    sources: tuple[str, ...]


class AlarmLine(Part, frozen=True, kw_only=True):
    say: str
    do: tuple[str, ...]


class AdviceLine(Part, frozen=True, kw_only=True):
    """What the first look gave. ``whole``: False where an older version kept it in another shape, in short here."""

    on: str
    book: BookMark
    whole: bool
    alarms: tuple[AlarmLine, ...]
    causes: tuple[CauseLine, ...]
    none_in_book: float | None
    unexplained: tuple[str, ...]
    contradictions: tuple[str, ...]
    drawn: tuple[DrawnLine, ...]
    from_journal: tuple[str, ...]
    remedies: tuple[RemedyLine, ...]
    avoid: tuple[Avoided, ...]
    cautions: tuple[str, ...]


class ActLine(Part, frozen=True, kw_only=True):
    """Something that was done; ``name`` is that of the treatment, '' where the book knows none."""

    on: str
    treatment: str
    name: str
    what: Own
    note: Own


class MovedTo(Part, frozen=True, kw_only=True):
    """A cause with its probability at the look before and at this one."""

    name: str
    before: float
    now: float


class LaterLine(Part, frozen=True, kw_only=True):
    """A later look. ``verdict``: better | same | worse, '' where nobody said or the look was never finished."""

    on: str
    finished: bool
    verdict: str
    book: BookMark | None
    said: SaidLine
    alarms: tuple[AlarmLine, ...]
    moved: tuple[MovedTo, ...]
    second: str
    not_again: tuple[tuple[str, str], ...]  # (name, why)
    retest: tuple[str, ...]
    not_understood: tuple[Own, ...]
    advised: tuple[str, ...]
    next_look: str


class PhotoLine(Part, frozen=True, kw_only=True):
    """A photo by the name of its file (never its folder) and its checksum."""

    on: str
    file: Own
    sha256: str
    note: Own


class ProvedLine(Part, frozen=True, kw_only=True):
    """What it turned out to be; no cause: nothing of the book."""

    on: str
    causes: tuple[str, ...]
    how: Own


class EndLine(Part, frozen=True, kw_only=True):
    on: str
    outcome: Own
    note: Own


class SourceLine(Part, frozen=True, kw_only=True):
    """A source in the order in which the sheet names it; ``read`` says how far it was read."""

    source: str
    title: str
    publisher: str
    year: str
    address: str
    read: str


class CaseSheet(Part, frozen=True, kw_only=True):
    """The whole case. ``shared``: names, notes and own words are left out."""

    format: str = FORMAT
    case: int
    on: str
    state: str
    crop: str
    crop_name: str
    shared: bool = False
    here: HereLine
    said: SaidLine
    readings: tuple[MeasuredLine, ...]
    limits: tuple[LimitLine, ...]
    advice: AdviceLine | None
    done: tuple[ActLine, ...]
    later: tuple[LaterLine, ...]
    photos: tuple[PhotoLine, ...]
    proved: ProvedLine | None
    end: EndLine | None
    sources: tuple[SourceLine, ...]
