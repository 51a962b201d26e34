"""A book made from the training rows of the soybean cases, and the cases as evidence for it.

Every attribute becomes a question of which one answer is picked, every value a finding, every disease a cause. How
often a cause shows a finding is counted: the share of its rows with that value among those where the attribute is
known, drawn towards the share among all rows. An unknown attribute is no evidence of its own.

What the plain noisy-OR misses here, and what the book holds against it:

- One answer is picked, so a second cause cannot bring its own. Without a price, two causes make 35 answers likelier
  than one does, by up to 2^35. Each question has therefore one finding more, that another answer is true as well;
  every cause shows it half of the time, every answer excludes it. Two causes then count as the mean of both.
- The attributes depend on each other within a disease (a leaf without spots has neither halo nor margin). Counted one
  by one they say too much: their frequencies are taken to one power below one (``TEMPER``).
- Of two attributes that mean something together and little apart, both answers are one finding (``GROUPS``); where one
  of them is unknown, the other stands alone. A group of two counts as two attributes: its power is twice ``TEMPER``.
- What is unknown comes in blocks (no fruit yet, nobody dug up the root). Which attributes are unknown is therefore one
  finding of the case, not one for each.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from math import log
from pathlib import Path

import msgspec

from triage.model.book import Book
from triage.model.cause import Cause
from triage.model.finding import Finding, Question
from triage.model.odds import BASE, FREQUENCY
from triage.ranking import Evidence, Network, Node, build_network, close_evidence

FOLDER = Path(__file__).resolve().parents[2] / "shared" / "soybean"
SOURCE = "soybean-large"
UNKNOWN = "?"
#: Rows of the average that are added to the rows of a cause, and the power that frequencies are taken to: from a grid,
#: by the Brier score and the calibration, cross-validated on the training rows (``soybean.py --choose``).
DRAWN, TEMPER = 0.1, 0.4
#: How often a cause shows another answer as well, and how often any answer is there without a cause.
ANOTHER, LEAK = 0.5, 0.002
#: Attributes whose answers are taken together. Pairs were tried on the training rows, the one that lowers the
#: cross-validated Brier score most first, then further ones beside it. A fourth would help there as well; see
#: the README of the data for why there are three.
GROUPS: tuple[tuple[str, ...], ...] = (("precip", "hail"), ("temp", "leaf-shread"), ("stem-cankers", "fruit-pods"))
#: The question that the list of unknown attributes answers.
NOT_TOLD = "not told"
#: Values rarer than this in a cause are not listed by a book in words.
LISTED_FROM = 0.009

Row = Mapping[str, str]
Counts = dict[str, dict[str, dict[str, float]]]


class Form(msgspec.Struct, frozen=True, kw_only=True):
    """What may be chosen about the form of the book in numbers, and is chosen on the training rows alone."""

    drawn: float = DRAWN
    temper: float = TEMPER
    groups: tuple[tuple[str, ...], ...] = GROUPS
    gaps: bool = True  # whether what is unknown is a finding of the case


CHOSEN = Form()


def load_rows(split: str = "") -> list[dict[str, str]]:
    """The rows of one split (``train`` or ``test``), or all, in the order of the file."""
    with (FOLDER / "cases.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if split in ("", row["split"])]


def attributes_of(row: Row) -> list[str]:
    """The names of the attributes, in the order of the file."""
    return [name for name in row if name not in ("split", "class")]


def answers_of(row: Row, form: Form = CHOSEN) -> dict[str, str]:
    """What is known of a case by question; a group that is known as a whole takes the place of its attributes."""
    known = {name: row[name] for name in attributes_of(row) if row[name] != UNKNOWN}
    whole = [group for group in form.groups if all(name in known for name in group)]
    inside = {name for group in whole for name in group}
    gaps = ", ".join(name for name in attributes_of(row) if name not in known) or "nothing"
    alone = {name: value for name, value in known.items() if name not in inside}
    return alone | _together(known, whole) | ({NOT_TOLD: gaps} if form.gaps else {})


def _together(known: Row, groups: Iterable[tuple[str, ...]]) -> dict[str, str]:
    return {" and ".join(group): ", ".join(known[name] for name in group) for group in groups}


def id_of(*words: str) -> str:
    """An id of letters, digits and hyphens.

    >>> id_of("leafspot-size", "gt-1/8")
    'leafspot-size-gt-1-8'
    """
    return re.sub(r"[^a-z0-9]+", "-", "-".join(words).lower()).strip("-")


def another(question: str) -> str:
    """The finding that a second answer to this question is true as well."""
    return id_of(question, "another-answer-too")


def evidence_of(row: Row, book: Book, form: Form = CHOSEN) -> Evidence:
    """What is known of one case, with what it excludes; a value that the training rows never had is no evidence."""
    seen = {id_of(question, value) for question, value in answers_of(row, form).items()}
    known = Evidence(seen=frozenset(seen & book.findings.keys()))
    return close_evidence(known, book.findings)[0]


def count_shows(rows: Sequence[Row], form: Form = CHOSEN) -> Counts:
    """How often each class has each answer: class, question (an attribute or a group), value.

    The average over all rows that a class is drawn towards counts every known value once more than it occurs.
    """
    alone = [answers_of(row, Form(groups=())) for row in rows]
    told = [known | answers_of(row, form) for known, row in zip(alone, rows, strict=True)]
    classes = [row["class"] for row in rows]
    found: Counts = {name: {} for name in sorted(set(classes))}
    for question in dict.fromkeys(question for each in told for question in each):
        known = [(name, each[question]) for name, each in zip(classes, told, strict=True) if question in each]
        everywhere, inside = Counter(value for _, value in known), Counter(known)
        sizes = Counter(name for name, _ in known)
        average = {value: (n + 1) / (len(known) + len(everywhere)) for value, n in sorted(everywhere.items())}
        for name in found:
            found[name][question] = {
                value: (inside[name, value] + form.drawn * share) / (sizes[name] + form.drawn)
                for value, share in average.items()
            }
    return found


def build_book(rows: Sequence[Row], form: Form = CHOSEN) -> Book:
    """The book in words: frequencies and base rates as the nearest word of the table."""
    counts = count_shows(rows, form)
    sizes = Counter(row["class"] for row in rows)
    values = next(iter(counts.values()))
    findings = [finding for question, each in values.items() for finding in _findings(question, each)]
    questions = [_question(question, each) for question, each in values.items()]
    causes = [_cause(name, shows, sizes[name] / max(sizes.values())) for name, shows in counts.items()]
    return Book(
        version="soybean", hash="", sources={}, rules={}, quantities={}, crops={}, animals={}, substances={},
        treatments={}, findings={each.finding: each for each in findings},
        questions={each.question: each for each in questions}, causes={each.cause: each for each in causes},
    )  # fmt: skip


def network_in_words(book: Book) -> Network:
    """The network of the book as any book's is built."""
    return build_network(book.causes, book.findings, crop=None, favoured=())


def network_in_numbers(rows: Sequence[Row], book: Book, form: Form = CHOSEN) -> Network:
    """The same findings with the counted frequencies, taken to a power, in place of words."""
    sizes = Counter(row["class"] for row in rows)
    nodes = [
        Node(
            cause=id_of(name),
            odds=(sizes[name] + 1) / (len(rows) + len(sizes) - sizes[name] - 1),
            shows=_tempered(shows, form) | {another(question): ANOTHER for question in shows},
        )
        for name, shows in count_shows(rows, form).items()
    ]
    return Network.of(nodes, dict.fromkeys(book.findings, LEAK))


def _tempered(shows: Mapping[str, Mapping[str, float]], form: Form) -> dict[str, float]:
    powers = {" and ".join(group): form.temper * len(group) for group in form.groups} | {NOT_TOLD: 1.0}
    return {
        id_of(question, value): chance ** min(powers.get(question, form.temper), 1.0)
        for question, each in shows.items()
        for value, chance in each.items()
    }


def nearest_word(chance: float, table: Mapping[str, float]) -> str:
    """The word whose number is nearest as a ratio.

    >>> nearest_word(0.5, {"often": 0.55, "sometimes": 0.25})
    'often'
    """
    return min(table, key=lambda word: (abs(log(chance / table[word])), word))


def _findings(question: str, values: Iterable[str]) -> list[Finding]:
    answers = [(id_of(question, value), f"{question}: {value}", [another(question)]) for value in values]
    return [
        Finding(
            finding=id_, kind="symptom", name=name, place="whole-plant", by_itself="not-otherwise", excludes=excludes,
            sources=[SOURCE],
        )
        for id_, name, excludes in [*answers, (another(question), f"{question}: another answer, too", [])]
    ]  # fmt: skip


def _question(question: str, values: Iterable[str]) -> Question:
    options = [id_of(question, value) for value in values]
    return Question(
        question=id_of(question), ask=question, pick="one", options=options, place="whole-plant", sources=[SOURCE]
    )


def _cause(name: str, counts: Mapping[str, Mapping[str, float]], share: float) -> Cause:
    """``share``: of the rows of the commonest class."""
    shows = {
        id_of(question, value): nearest_word(chance, FREQUENCY)
        for question, each in counts.items()
        for value, chance in each.items()
        if chance >= LISTED_FROM
    }
    shows |= {another(question): nearest_word(ANOTHER, FREQUENCY) for question in counts}
    entry = {
        "cause": id_of(name), "kind": "disease", "name": name, "plain": name, "shows": shows, "settle": [],
        "base": nearest_word(share * max(BASE.values()), BASE), "sources": [SOURCE], "status": "draft",
    }  # fmt: skip
    return msgspec.convert(entry, Cause)
