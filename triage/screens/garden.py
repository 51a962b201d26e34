"""The garden as one, on one screen."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.crop import Crop
from ..report.garden_report import GardenReport, Outbreak, OwnCases, ReturnLine, WatchLine
from . import garden_words as words
from . import wording
from .style import heading, line

Crops = Mapping[str, Crop]


def render_garden(report: GardenReport, console: Console, crops: Crops) -> None:
    """The watch list by bed, what comes back, and what proven cases moved."""
    heading(console, words.WATCH)
    if not report.watch:
        line(console, words.NO_WATCH)
    told: set[str] = set()  # how a cause spreads is said once
    for bed in dict.fromkeys(watch.bed for watch in report.watch):
        line(console, (words.BED.format(bed) if bed else words.ANYWHERE, "triage.name"))
        for watch in (watch for watch in report.watch if watch.bed == bed):
            _watch(watch, console, crops, how=watch.cause not in told)
            told.add(watch.cause)
    if report.watch:
        line(console, words.LOOKED_OVER)
    heading(console, words.RETURNING)
    if not report.returning:
        line(console, words.NO_RETURNING)
    for back in report.returning:
        line(console, _returning(back, crops), bullet="-")
    heading(console, words.OWN_CASES)
    _own_cases(report.own_cases, console)


def _watch(watch: WatchLine, console: Console, crops: Crops, *, how: bool) -> None:
    plant = _crop(watch.from_plant, crops)
    where = words.NEAR[watch.near].format(bed=watch.from_bed, plant=plant)
    over = f"; {words.OVER}" if watch.over else ""
    name = wording.inside(watch.name)
    told = words.SINCE.format(name=name[:1].upper() + name[1:], where=where, since=watch.since, case=watch.case,
                              over=over)  # fmt: skip
    line(console, told, indent=4, bullet="!" if watch.speed == "fast" and not watch.over else "-")
    risk = [words.PRONE[each.prone].format(wording.inside(each.name)) for each in watch.crops]
    parts = [words.AT_RISK.format(", ".join(risk))]
    parts += [words.SPEED[watch.speed].format(wording.inside(watch.how))] if how else []
    signs = "; ".join(wording.inside(sign) for sign in watch.signs)
    parts += [words.LOOK_FOR.format(signs)] if how and signs else []
    line(console, " ".join([*parts, _when(watch)]), indent=6)


def _when(watch: WatchLine) -> str:
    every = wording.count(watch.every_days, "day")
    if watch.late < 0:
        return words.LOOK_ON.format(watch.due)
    late = words.LOOK_LATE.format(wording.count(watch.late, "day"), every)
    return late if watch.late else words.LOOK_NOW.format(every)


def _returning(back: ReturnLine, crops: Crops) -> str:
    name = wording.inside(back.name)
    said = words.CAME.format(
        name=name[:1].upper() + name[1:], times=wording.count(len(back.outbreaks), "time"),
        outbreaks=", ".join(_outbreak(outbreak, crops) for outbreak in back.outbreaks),
    )  # fmt: skip
    more = [words.SAME_SEASON] if back.same_season else []
    more += [words.SAME_BED.format(back.same_bed)] if back.same_bed else []
    return " ".join([said, *more])


def _outbreak(outbreak: Outbreak, crops: Crops) -> str:
    what = [_crop(id_, crops) for id_ in outbreak.crops] + [wording.count(len(outbreak.cases), "case")]
    return words.OUTBREAK.format(first=outbreak.first, what=", ".join(what))


def _own_cases(own: OwnCases, console: Console) -> None:
    if not own.cases:
        line(console, words.NO_OWN_CASES)
        return
    line(console, words.OWN_INTRO.format(cases=wording.count(own.cases, "proven case"), weight=own.weight,
                                         most=own.most))  # fmt: skip
    for rate in own.rates:
        said = words.OWN_RATE.format(
            name=rate.name, times=wording.count(rate.proven, "time"), book=rate.book, here=rate.here
        )
        moved = words.OWN_TIMES.format(rate.times) + (words.OWN_BOUNDED if rate.bounded else "") if own.on else ""
        line(console, f"{said}{moved}.", bullet="-")
    if own.nothing_of_the_book:
        line(console, words.OWN_NOTHING.format(wording.count(own.nothing_of_the_book, "case") + ":"), bullet="-")
    line(console, words.OWN_ON if own.on else words.OWN_OFF)


def _crop(name: str, crops: Crops) -> str:
    return wording.crop_inside(crops, name, name or wording.A_PLANT)
