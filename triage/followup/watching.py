"""What spreads in this garden: which crops in which beds are at risk, how, how fast, and when to look."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

import msgspec

from ..model.book import Book
from ..model.cause import Cause, Spread
from ..model.crop import Crop
from ..model.garden import Bed, Plant
from ..model.odds import FREQUENCY
from ..report.garden_report import AtRisk, Near, WatchLine
from .recovery import day_after, days_between
from .standing import Standing, leading

_NEAR: tuple[Near, ...] = ("same", "beside", "", "apart")
#: A finding shown at least so often tells a look what to look for.
_TELLING = FREQUENCY["often"]
_SIGNS = 3


class Plot(msgspec.Struct, frozen=True, kw_only=True):
    """A bed as the watch sees it: its name ('' where nobody named beds), what grows in it, which beds are beside it."""

    name: str
    crops: tuple[str, ...]
    beside: frozenset[str] = frozenset()


def list_plots(beds: Sequence[Bed], plants: Sequence[Plant], crops: Sequence[str], cases: Iterable[Standing],
               on: str) -> tuple[Plot, ...]:  # fmt: skip
    """The beds of a day with what grows in them, as far as anybody said; one without a name where nobody named any.

    ``crops`` are those of the whole system: they are at risk wherever they stand, when no bed is named.
    """
    here = [bed for bed in beds if not bed.gone or bed.gone > on]
    growing = [p for p in plants if p.crop and (not p.gone or p.gone > on) and (not p.planted or p.planted <= on)]
    found: dict[str, list[str]] = {bed.name: list(bed.crops) for bed in here}
    gone = {bed.name for bed in beds} - found.keys()
    for place, crop in [(p.bed, p.crop) for p in growing] + [(case.bed, case.crop) for case in cases if case.bed]:
        if place not in gone:
            found.setdefault(place, []).append(crop)
    if not any(found):
        found.setdefault("", []).extend(crops)
    beside = {bed.name: frozenset(bed.beside) | {o.name for o in here if bed.name in o.beside} for bed in here}
    return tuple(
        Plot(name=name, crops=tuple(dict.fromkeys(filter(None, grown))), beside=beside.get(name, frozenset()))
        for name, grown in found.items()
        if name or grown
    )


def list_watch(book: Book, cases: Sequence[Standing], plots: Sequence[Plot], on: str) -> tuple[WatchLine, ...]:
    """What to look for in every bed, the most urgent first; one line for a cause in a bed, from the nearest case."""
    best: dict[tuple[str, str], WatchLine] = {}
    for case in cases:
        for cause in _spreading(book, case, on):
            for plot in plots:
                line = _line(book, case, cause, plot, cases, on)
                key = (plot.name, cause.cause)
                if line is not None and (key not in best or _rank(line) < _rank(best[key])):
                    best[key] = line
    return tuple(sorted(best.values(), key=lambda line: (line.due, *_rank(line), line.bed, line.cause)))


def _rank(line: WatchLine) -> tuple[bool, int, bool, int, int]:
    """The nearest first, then what is fast, then the latest."""
    age = -date.fromisoformat(line.since).toordinal()
    return line.over, _NEAR.index(line.near), line.speed == "slow", age, line.case


def _spreading(book: Book, case: Standing, on: str) -> Iterator[Cause]:
    """What the case is taken for that spreads, as long as the neighbours are to be watched."""
    if case.state == "unfinished" or case.on > on:
        return
    limit = "watch-after-closed" if _is_over(case) else "same-trouble-within"  # left open and forgotten is over, too
    if days_between(case.last_look, on) > book.margins[limit].value:
        return
    for id_ in leading(case):
        cause = book.causes.get(id_)
        sure = case.proven is not None or case.suspects.get(id_, 0.0) >= book.margins["watch-from"].value
        if cause is not None and cause.spreads is not None and sure:
            yield cause


def _is_over(case: Standing) -> bool:
    return case.state == "closed" or case.verdict == "better"


def _line(book: Book, case: Standing, cause: Cause, plot: Plot, cases: Sequence[Standing], on: str) -> WatchLine | None:
    assert cause.spreads is not None  # only those come here
    crops = at_risk(book, cause, plot.crops)
    if not crops:
        return None
    every = int(book.margins[f"watch-days-{cause.spreads.speed}"].value)
    looks = [each.last_look for each in cases if each.bed == plot.name and case.on <= each.last_look <= on]
    looks += [case.neighbours_on] if case.on <= case.neighbours_on <= on else []
    due = day_after(max(looks), every) if looks else case.on
    return WatchLine(
        bed=plot.name, near=_near(case, plot), cause=cause.cause, name=cause.name, case=case.number, from_bed=case.bed,
        from_plant=case.plant or case.crop, since=case.on, over=_is_over(case), speed=cause.spreads.speed,
        how=cause.spreads.how, crops=crops, signs=telling_signs(book, cause), every_days=every, due=due,
        late=days_between(due, on),
    )  # fmt: skip


def _near(case: Standing, plot: Plot) -> Near:
    if not case.bed or not plot.name:
        return ""
    if case.bed == plot.name:
        return "same"
    return "beside" if case.bed in plot.beside else "apart"


def at_risk(book: Book, cause: Cause, crops: Iterable[str]) -> tuple[AtRisk, ...]:
    """Those of some crops that a spreading cause may reach, the prone ones first."""
    known = [(book.crops[id_], _word(cause, book.crops[id_])) for id_ in crops if id_ in book.crops]
    found = [
        AtRisk(crop=crop.crop, name=crop.name, prone=word)
        for crop, word in known
        if cause.spreads is not None and _reaches(cause.spreads, crop) and word != "not"
    ]
    return tuple(sorted(found, key=lambda each: ("more", "", "less").index(each.prone)))


def _reaches(spreads: Spread, crop: Crop) -> bool:
    return not spreads.to or not {crop.crop, crop.family, crop.kind}.isdisjoint(spreads.to)


def _word(cause: Cause, crop: Crop) -> str:
    """What the cause says of the crop: its id beats its family, and that its kind; '' if it says nothing."""
    named = (name for name in (crop.crop, crop.family, crop.kind) if name in cause.crops)
    return next((cause.crops[name] for name in named), "")


def telling_signs(book: Book, cause: Cause) -> tuple[str, ...]:
    """What to look for: the creature or mould itself first, then what shows most often, by name."""
    order = sorted(
        (id_ for id_, word in cause.shows.items() if FREQUENCY[word] >= _TELLING),
        key=lambda id_: (book.findings[id_].kind != "sign", -FREQUENCY[cause.shows[id_]], id_),
    )
    shown = [id_ for id_ in order if book.findings[id_].kind in ("sign", "symptom")]
    return tuple(book.findings[id_].name for id_ in shown[:_SIGNS])
