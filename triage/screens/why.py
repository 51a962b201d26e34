"""Why the first suspect leads: its signs, and the tree of rules that fired, each with its source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from ..model.book import Book
from ..model.cause import Cause
from ..model.crop import Animal, Crop
from ..model.facts import RulesOutcome
from ..model.record import Source
from ..report.case_report import Report, SuspectLine
from ..rules.why import WhyNode, build_why_tree
from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from .page import Page

DEEPEST = 12  # levels of indentation; what lies deeper stands at the same indent


def render_why(report: Report, console: Page, book: Book) -> None:
    """The record of what fired for the first suspect, conclusions followed down to what was seen and measured."""
    if not report.suspects:
        heading(console, wording.WHY_NOTHING)
        return
    first = report.suspects[0]
    heading(console, wording.WHY.format(wording.inside(first.name)))
    _signs(first, console, book)
    line(console, (f"{wording.WHY_RULES}:", "triage.name"))
    nodes = why_nodes(report, first)
    if not nodes:
        line(console, wording.WHY_NO_RULE, indent=4)
    _Tree(console, book).show(nodes, 4)


def why_nodes(report: Report, suspect: SuspectLine) -> list[WhyNode]:
    """What fired for a suspect, read from the report's firings; a rule below another stands only there."""
    outcome = RulesOutcome(firings=report.firings)
    rules = [support.what for support in (*suspect.for_, *suspect.against) if support.kind == "rule"]
    roots = [node for rule in rules for node in build_why_tree(outcome, rule)]
    below = {node.rule for root in roots for child in root.children for node in _all_nodes(child)}
    return [root for root in roots if root.rule not in below]


def _all_nodes(node: WhyNode) -> Iterator[WhyNode]:
    yield node
    for child in node.children:
        yield from _all_nodes(child)


def _signs(suspect: SuspectLine, console: Page, book: Book) -> None:
    """What was seen, how often it goes with this cause, and where the table of the cause comes from."""
    cause = book.causes[suspect.cause]
    seen = [support.what for support in (*suspect.for_, *suspect.against) if support.kind in ("seen", "unsure")]
    shown = [finding for finding in seen if finding in cause.shows]
    whole = [support.say for support in (*suspect.for_, *suspect.against) if support.kind == "words"]
    if not shown and not whole:
        return
    line(console, (f"{wording.WHY_SIGNS}:", "triage.name"))
    for finding in shown:
        often = wording.FREQUENCY_WORDS[cause.shows[finding]]
        line(console, wording.WHY_SIGN.format(book.findings[finding].name, often), indent=4, bullet="*")
    for words in source_words(cause.sources, book):
        line(console, (words, "triage.quiet"), indent=6)
    for say in whole:
        line(console, f"{say[:1].upper()}{say[1:]}", indent=4, bullet="*")


def source_words(sources: Sequence[str], book: Book) -> list[str]:
    """Sources by title, with what is known of how far they were read."""
    return [wording.WHY_SOURCE.format(_titled(book.sources[id_])) for id_ in sources if id_ in book.sources]


def _titled(source: Source) -> str:
    published = ", ".join(part for part in (source.publisher, source.year) if part)
    note = wording.READ_NOTES.get(source.read, "")
    return "; ".join(part for part in (source.title, published, note) if part)


class _Tree:
    """Shows nodes once each; a rule met again is only named."""

    def __init__(self, console: Page, book: Book) -> None:
        self.console = console
        self.book = book
        self.shown: set[str] = set()

    def show(self, nodes: Sequence[WhyNode], indent: int) -> None:
        """Each node, what it rests on, its sources, and what lies below it."""
        for node in nodes:
            self._node(node, min(indent, 2 * DEEPEST))

    def _node(self, node: WhyNode, indent: int) -> None:
        again = node.rule in self.shown
        line(self.console, node.because, f" {wording.WHY_ABOVE}" if again else "", indent=indent, bullet="*")
        if again:
            return
        self.shown.add(node.rule)
        facts = [words for fact in node.facts if (words := fact_words(fact, self.book))]
        if facts:
            line(self.console, wording.WHY_RESTS_ON.format("; ".join(facts)), indent=indent + 2)
        for words in source_words(node.sources, self.book):
            line(self.console, (words, "triage.quiet"), indent=indent + 2)
        self.show(node.children, indent + 2)


def fact_words(fact: str, book: Book) -> str:
    """A fact in everyday words; '' for a conclusion, which has a line of its own."""
    kind, _, rest = fact.partition(" ")
    name, _, state = rest.partition(" ")
    if kind == "conclusion":
        return ""
    if kind == "finding" and name in book.findings:
        return wording.STATES.get(state, "{}").format(wording.inside(book.findings[name].name))
    if kind in ("reading", "trend") and name in book.quantities:
        return f"{book.quantities[name].name} {state}"
    shelves: dict[str, Mapping[str, Cause | Crop | Animal]] = {
        "suspect": book.causes, "crop": book.crops, "animal": book.animals,
    }  # fmt: skip
    named = shelves.get(kind, {})
    return wording.inside(named[name].name) if name in named else fact.replace("-", " ")
