"""A sheet of a case as Markdown or as one HTML page. The one door to Jinja2, imported only when a page is made.

Everything put into a page is escaped by the template engine itself; what may stand as it is says so (``Markup``).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from ..model.book import Book
from ..model.rule import Grade
from ..report.case_sheet import CaseSheet, CauseLine, LaterLine, MeasuredLine, MovedTo, SourceLine
from . import sheet_words, wording
from .numbers import say_number, say_unit
from .sheet_chart import draw_chart
from .sheet_markdown import escape_markdown
from .sheet_pictures import cause_pictures, finding_pictures

if TYPE_CHECKING:
    from jinja2 import Template

SheetFormat = Literal["md", "html"]
#: A cause at least this likely is told with its reasons, at most so many; so many remedies are told with their steps.
TOLD_FROM, MOST_TOLD, MOST_STEPS, MOST_AVOIDED = 0.2, 3, 4, 8
#: A cause less likely than this is not named.
NAMED_FROM = 0.1
#: A quantity with at least so many dated readings gets a chart.
CHART_FROM = 2
_ADDRESS = re.compile(r"https?://[^\s<>\"'\\]+")


def render_sheet(sheet: CaseSheet, form: SheetFormat, book: Book) -> str:
    """The whole page. ``book`` knows the pictures; nothing else is taken from it."""
    from markupsafe import Markup

    drawn = _drawings(sheet, book, Markup) if form == "html" else {}
    text = _template(form).render(sheet=sheet, w=sheet_words, v=View(sheet, Markup), **drawn)
    return text if form == "html" else _one_blank_line(text)


@cache
def _template(form: SheetFormat) -> Template:
    from jinja2 import Environment, StrictUndefined

    environment = Environment(
        autoescape=form == "html", finalize=_in_markdown if form == "md" else None, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True,
    )  # fmt: skip
    environment.filters["inside"] = wording.inside
    return environment.from_string(Path(__file__).with_name(f"sheet.{form}.j2").read_text(encoding="utf-8"))


def _in_markdown(value: Any) -> Any:
    from markupsafe import Markup

    return value if isinstance(value, Markup) else escape_markdown(str(value))


def _one_blank_line(text: str) -> str:
    """No blank lines in a row: parts that are left out leave none behind."""
    lines = [line.rstrip() for line in text.splitlines()]
    kept = [line for place, line in enumerate(lines) if line or (place and lines[place - 1])]
    return "\n".join(kept).strip() + "\n"


class View:
    """The sheet as its pages say it: numbers in words, days together, sources by number."""

    def __init__(self, sheet: CaseSheet, markup: Callable[[str], Any]) -> None:
        self.sheet = sheet
        self.markup = markup
        self.numbers: dict[str, int] = {}  # of the sources cited so far, in the order in which a reader meets them
        self.told_already: set[str] = set()
        advice = sheet.advice
        causes = advice.causes if advice else ()
        likely = [cause for n, cause in enumerate(causes) if n == 0 or cause.probability >= TOLD_FROM]
        self.told: Sequence[CauseLine] = likely[:MOST_TOLD]
        self.also = [cause for cause in causes[len(self.told) :] if cause.probability >= NAMED_FROM]
        none = (advice.none_in_book or 0.0) if advice else 0.0
        self.fits = bool(causes) and causes[0].probability >= max(TOLD_FROM, none)
        #: Where nothing fits, the answer that day named no remedy unless something could not wait.
        self.advised = bool(advice) and (self.fits or bool(advice and advice.alarms))
        remedies = advice.remedies if advice else ()
        self.remedies, self.more = remedies[:MOST_STEPS], remedies[MOST_STEPS:]
        avoid = advice.avoid if advice else ()
        self.avoid, self.avoid_more = avoid[:MOST_AVOIDED], avoid[MOST_AVOIDED:]

    @property
    def title(self) -> str:
        plant = self.sheet.crop_name or self.sheet.here.plant or sheet_words.A_PLANT
        return sheet_words.TITLE.format(number=self.sheet.case, plant=wording.inside(plant))

    @property
    def state(self) -> str:
        return wording.STATE_WORDS[self.sheet.state]

    @property
    def in_short(self) -> list[tuple[str, str]]:
        """The case in a few lines."""
        w, sheet = sheet_words, self.sheet
        facts = [(w.STATE, self.state)]
        if sheet.advice is not None:
            taken = "; ".join(f"{wording.inside(c.name)} ({self.sure(c.probability)})" for c in self.told)
            facts.append((w.FIRST_TAKEN_FOR, taken if self.fits else w.NOTHING_SURE))
        if self.fits and self.told[0].settle and sheet.proved is None:
            facts.append((w.SETTLE, self.told[0].settle[0]))
        if sheet.later:
            facts.append((w.LAST_LOOK, f"{sheet.later[-1].on}: {self.verdict(sheet.later[-1])}"))
        if sheet.proved is not None:
            facts.append((w.PROVED, self.proved))
        if sheet.end is not None:
            facts.append((w.ENDED, self._ended))
        elif sheet.later and sheet.later[-1].next_look:
            facts.append((w.NEXT_LOOK, sheet.later[-1].next_look))
        return facts

    @property
    def _ended(self) -> str:
        end = self.sheet.end
        return "" if end is None else "; ".join(part for part in (end.on, end.outcome) if part)

    @property
    def proved(self) -> str:
        """What it turned out to be, in words."""
        proved = self.sheet.proved
        causes = proved.causes if proved else ()
        return wording.listed([wording.inside(name) for name in causes]) if causes else sheet_words.NOT_IN_BOOK

    @property
    def here(self) -> list[tuple[str, str]]:
        """Where it is, as far as anybody said."""
        w, here = sheet_words, self.sheet.here
        facts = [
            (w.SYSTEM, "" if here.system == "main" else here.system), (w.BED, here.bed), (w.PLANT, here.plant),
            (w.VOLUME, w.NOT_SAID if here.volume_l is None else w.LITRES.format(here.volume_l)),
            (w.ANIMALS, wording.listed([wording.inside(name) for name in here.animals]) or w.NOT_SAID),
            (w.BEDS, here.beds), (w.FILTER, here.filter), (w.TOP_UP, here.top_up), (w.PLACE, here.place),
            (w.ALTITUDE, "" if here.altitude_m is None else w.METRES.format(here.altitude_m)),
        ]  # fmt: skip
        return [(label, said) for label, said in facts if said]

    @property
    def by_day(self) -> list[tuple[str, str]]:
        """Each day with its sampling point, and what was measured; the latest first."""
        dated = sorted(self.sheet.readings, key=lambda r: (r.on, r.time, r.point), reverse=True)
        found = []
        for (on, time, point), readings in groupby(dated, key=lambda r: (r.on, r.time, r.point)):
            inside = sorted(readings, key=lambda r: r.name.lower())
            said = "; ".join(f"{wording.inside(r.name)} {self.measured(r)}" for r in inside)
            when = f"{on} {time}".strip()
            found.append((sheet_words.AT_POINT.format(day=when, point=point) if point else when, said))
        return found

    def measured(self, reading: MeasuredLine) -> str:
        """A value with what its kit leaves open."""
        number, unit = say_number(reading.value), say_unit(reading.unit)
        if reading.bound != "=":
            return f"{wording.BOUND_WORDS[reading.bound]}{number}{unit}"
        if reading.low is not None and reading.high is not None and reading.high > reading.low:
            number = sheet_words.BETWEEN.format(
                value=number, low=say_number(reading.low), high=say_number(reading.high)
            )
        return f"{number}{unit}"

    def sure(self, probability: float) -> str:
        """How sure, in words and as a number; nothing is as good as sure or as good as out of the question."""
        number = min(max(probability, 0.01), 0.99)
        sign = "" if number == probability else ">" if probability > number else "<"
        return f"{wording.sure_words(probability)}, {sign}{number:.0%}"

    def moved(self, look: LaterLine) -> list[MovedTo]:
        """The causes that are or were worth naming."""
        return [moved for moved in look.moved if max(moved.before, moved.now) >= TOLD_FROM]

    def verdict(self, look: LaterLine) -> str:
        return sheet_words.VERDICTS[look.verdict] if look.finished else sheet_words.NOT_FINISHED

    def grade(self, grade: Grade, *, refused: bool = False) -> str:
        """What a grade says, in letters; what is refused though it would be safe says that."""
        here = not refused or grade in ("never", "unknown")
        return wording.GRADE_TAGS[grade] if here else wording.NOT_HERE

    def number(self, value: float) -> str:
        return say_number(value)

    def inside(self, name: str) -> str:
        return wording.inside(name)

    def cited(self, sources: Sequence[str]) -> Any:
        """The numbers of sources, such as [1] [4]."""
        known = {source.source for source in self.sheet.sources}
        new = [self.numbers.setdefault(id_, len(self.numbers) + 1) for id_ in sources if id_ in known]
        return self.markup(" ".join(f"[{number}]" for number in sorted(set(new))))

    def sources(self) -> list[SourceLine]:
        """Those cited so far, by number."""
        known = {source.source: source for source in self.sheet.sources}
        return [known[id_] for id_ in self.numbers]

    def new(self, texts: Sequence[str]) -> list[str]:
        """Those of the texts that the page has not said yet (what holds for several remedies)."""
        found = [text for text in texts if text not in self.told_already]
        self.told_already.update(found)
        return found

    @property
    def limits_from(self) -> Any:
        return self.cited([source for limit in self.sheet.limits for source in limit.sources])

    def source(self, source: SourceLine) -> str:
        """A source in words."""
        parts = (source.title, source.publisher, source.year, sheet_words.READ.get(source.read, ""))
        return "; ".join(part for part in parts if part)

    def link(self, address: str) -> str:
        """An address that may be followed; '' for anything that is no web address."""
        return address if _ADDRESS.fullmatch(address) else ""

    def autolink(self, address: str) -> Any:
        """A web address as Markdown links it; nothing in it can end the link."""
        return self.markup(f"<{self.link(address)}>")


def _drawings(sheet: CaseSheet, book: Book, markup: Callable[[str], Any]) -> dict[str, Any]:
    seen = [finding.id for finding in sheet.said.seen]
    causes = [cause.cause for cause in View(sheet, markup).told]
    return {
        "charts": [markup(svg) for svg in _charts(sheet)],
        "seen_pictures": [(title, says, markup(svg)) for title, says, svg in finding_pictures(book, seen, sheet.crop)],
        "cause_pictures": {
            id_: (says, markup(svg)) for id_, says, svg in cause_pictures(book, causes, sheet.crop)
        },
    }  # fmt: skip


def _charts(sheet: CaseSheet) -> list[str]:
    """A chart of each quantity with enough dated readings, all over the same days."""
    dated = [r for r in sheet.readings if _is_day(r.on) and r.point != "top-up"]
    looks, deeds = [sheet.on, *(look.on for look in sheet.later)], [act.on for act in sheet.done]
    days = [*(r.on for r in dated), *looks]
    limits = {limit.quantity: limit for limit in sheet.limits}
    return [
        draw_chart(own, limits.get(id_), first=min(days), last=max(days), looks=looks, deeds=deeds)
        for id_, group in groupby(dated, key=lambda r: r.quantity)
        if len(own := list(group)) >= CHART_FROM
    ]


def _is_day(text: str) -> bool:
    try:
        return bool(date.fromisoformat(text))
    except ValueError:
        return False
