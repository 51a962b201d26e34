"""How the answer about a spray looks: the grade in words, the harms side by side, what makes it acceptable."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from ..model.outcome import HarmVerdict
from ..report.spray_report import Better, Member, SprayReport, Use
from . import spray_words as words
from . import wording
from .spray_words import figure, grams, share
from .style import heading, line, run_in

#: Reasons given for a harm that decides, and for one that does not.
_REASONS, _REASONS_BESIDE = 3, 1
_MOST_MEMBERS = 6
_BY_OTHERS = ("neighbour", "perimeter")
_HARMS = ("fish", "crustaceans", "filter", "water", "people")
_REFUSED = ("never", "unknown")
_NO_HARM = HarmVerdict(harm="fish", grade="ok", why=())


def render_spray(report: SprayReport, console: Console, names: Mapping[str, str]) -> None:
    """The whole answer. ``names`` maps ids of treatments and animals to what people call them."""
    never_like_this = report.grade == "never" and bool(report.better)
    said = words.NOT_LIKE_THIS if never_like_this else wording.GRADE_WORDS[report.grade]
    heading(console, f"{report.name}: {said}", f"triage.grade.{report.grade}")
    line(console, f"[{wording.GRADE_TAGS[report.grade]}] {_planned(report, names)}".rstrip())
    if report.what:
        line(console, report.what)
    render_members(report, console)
    if report.use is not None:
        _harms(report, console)
        _figures(report, console)
    elif report.grade != "ok":
        for why in report.why:
            line(console, why, bullet="-")
    _ways(report, console)
    if report.instead:
        run_in(console, words.INSTEAD, "; ".join(names.get(one, one) for one in report.instead) + ".")
    if report.react and report.use is not None:
        run_in(console, words.REACT, " ".join(report.react).replace("SUBSTANCE", f"'{report.words}'"))
    render_notes(report, console)


def _planned(report: SprayReport, names: Mapping[str, str]) -> str:
    """How it is used, in which water, and whether that is careful enough."""
    use = report.use
    if use is None:
        return ""
    how = words.DOSED if use.way == "dosed" else words.COVERS.get(use.cover, use.cover)
    what = f"{use.amount}{words.STRENGTH_OF.format(use.strength) if use.strength else ''}" if use.amount else ""
    times = words.TIMES_SHORT.format(use.times) if use.times > 1 else ""
    where = words.WATER.format(f"{report.exposure.volume_l:g}") if report.exposure.volume_l else ""
    kept = ", ".join(names.get(animal, animal) for animal in report.animals)
    told = ", ".join(part for part in (what, times, how, where, kept) if part)
    return f"{told}. {words.AS_PLANNED if report.acceptable else words.NOT_AS_PLANNED}"


def render_members(report: SprayReport, console: Console) -> None:
    """Several substances: each with its grade, the strictest first."""
    if not report.members:
        return
    several = len({member.of for member in report.members}) > 1
    heading(console, words.IN_BOTTLE if several else words.MEMBERS)
    for member in report.members[:_MOST_MEMBERS]:
        _member(member, console)
    if len(report.members) > _MOST_MEMBERS:
        line(console, words.MORE_MEMBERS.format(len(report.members) - _MOST_MEMBERS))


def _member(member: Member, console: Console) -> None:
    tag = (f"[{wording.GRADE_TAGS[member.grade]}]", f"triage.grade.{member.grade}")
    line(console, member.name, " ", tag, bullet="-")


def _harms(report: SprayReport, console: Console) -> None:
    heading(console, words.HARMS)
    for harm in _HARMS:
        verdict: HarmVerdict | None = getattr(report.harms, harm)
        if verdict is None:
            continue
        if harm == "people" and verdict.grade == "ok" and _needs_care(report):
            line(console, (wording.HARM_WORDS["people"], "triage.name"), f" {words.WITH_CARE}", bullet="-")
        else:
            _harm(verdict, console, deciding=verdict.grade == report.grade)


def _needs_care(report: SprayReport) -> bool:
    """Whether there are cautions for people beside label and law, or a wait before harvest."""
    return len(report.cautions) > 1 or bool(report.harvest_wait_days)


def _harm(verdict: HarmVerdict, console: Console, *, deciding: bool) -> None:
    tag = (f"[{wording.GRADE_TAGS[verdict.grade]}]", f"triage.grade.{verdict.grade}")
    most = _REASONS if deciding and verdict.grade != "ok" else _REASONS_BESIDE
    why = " ".join(verdict.why[:most]) if verdict.grade != "ok" or verdict.value_mg_l else ""
    line(console, (wording.HARM_WORDS[verdict.harm], "triage.name"), " ", tag, f" {why}".rstrip(), bullet="-")


def _figures(report: SprayReport, console: Console) -> None:
    """What was assumed, the sum, and the published values with their sources."""
    heading(console, words.FIGURES)
    for note in (*report.assumed, *_beside(report)):
        line(console, note, bullet="-")
    line(console, _sum(report))
    for harm in ("fish", "crustaceans"):
        verdict: HarmVerdict | None = getattr(report.harms, harm)
        if verdict is not None and verdict.value_mg_l is not None:
            line(console, f"{wording.HARM_WORDS[verdict.harm]}: {published(verdict, report)}")


def _beside(report: SprayReport) -> list[str]:
    """What was taken for granted of this water: the reasons that belong to no single harm."""
    told = " ".join(why for harm in _HARMS for why in (getattr(report.harms, harm) or _NO_HARM).why)
    return [why for why in report.why[1 if report.members else 0 :] if why not in told]


def _sum(report: SprayReport) -> str:
    exposure, use = report.exposure, report.use
    if exposure.spilled_mg_l is None or exposure.volume_l is None or use is None:
        return words.NOT_RECKONED
    holds = _holds(use, exposure.of)
    volume = f"{exposure.volume_l:g}"
    if use.way == "dosed":
        return holds + words.ALL_IN.format(volume=volume, level=figure(exposure.spilled_mg_l))
    pattern = words.REACHES_FROM_OTHERS if use.cover in _BY_OTHERS else words.REACHES
    reaches = pattern.format(
        share=share(exposure.share_reaching_water), volume=volume, sprayed=figure(exposure.as_sprayed_mg_l),
        spilled=figure(exposure.spilled_mg_l),
    )  # fmt: skip
    return holds + reaches


def _holds(use: Use, of: str) -> str:
    every = words.DAY if use.every_days == 1 else words.DAYS.format(use.every_days)
    times = words.TIMES.format(times=use.times, every=every) if use.times > 1 else ""
    pattern = words.IN_SPRAYER if use.strength and use.amount else words.IN_DOSE
    return pattern.format(amount=use.amount, strength=use.strength, grams=grams(use.grams), of=words.OF[of]) + times


def published(verdict: HarmVerdict, report: SprayReport) -> str:
    """The value that counts, as printed, whose it is, and what of it counts."""
    as_printed = f"{verdict.value_mg_l:g} mg/L" in verdict.printed and " as " not in verdict.printed
    here = "" if as_printed else words.HERE.format(figure(verdict.value_mg_l), words.OF[report.exposure.of])
    dosed = report.use is not None and report.use.way == "dosed"
    return words.VALUE.format(
        kind=verdict.kind.lstrip("<>="), printed=verdict.printed, here=here, species=verdict.species,
        margin=_margin(verdict, dosed=dosed), source=verdict.source,
        recalled=words.RECALLED.get(verdict.verified, ""),
    )  # fmt: skip


def _margin(verdict: HarmVerdict, *, dosed: bool) -> str:
    """Which part of the value counts, and why; nothing where all of it does. A dose has no margin between animals."""
    if verdict.counts_mg_l is None or verdict.value_mg_l is None:
        return ""
    divisor = round(verdict.value_mg_l / verdict.counts_mg_l, 3)
    if divisor == 1:
        return ""
    part = words.PARTS.get(int(divisor), words.PART.format(f"{divisor:g}"))
    why = "" if dosed else words.NOT_YOURS.get(verdict.relation, "")
    why += words.LOWER if verdict.printed.startswith("<") else ""
    return words.MARGIN.format(why, part, figure(verdict.counts_mg_l))


def _ways(report: SprayReport, console: Console) -> None:
    """What makes it acceptable, what to do before, and what to watch; of a refused spray only what others spray."""
    refused, others = report.grade in _REFUSED, report.use is not None and report.use.cover in _BY_OTHERS
    if report.better:
        _better(report.better, console)
    elif report.grade == "never" and report.use is not None and not others:
        run_in(console, words.ACCEPTABLE, words.NOTHING_HELPS)
    watched = () if refused and not others else report.watch
    for title, lines in ((words.BEFORE, report.before), (words.WATCH, watched)):
        if lines:
            heading(console, title)
            for text in lines:
                line(console, text, bullet="-")


def _better(ways: Sequence[Better], console: Console) -> None:
    heading(console, words.ACCEPTABLE)
    for way in ways:
        tag = (f"[{wording.GRADE_TAGS[way.grade]}]", f"triage.grade.{way.grade}")
        line(console, say_better(way), " ", tag, bullet="-")


def say_better(way: Better) -> str:
    """A way to use it, in words."""
    if not way.cover:
        return words.SMALLER_DOSE.format(amount=way.amount)
    strength = way.strength.removesuffix(" active")
    return words.BETTER.format(
        amount=way.amount, strength=words.STRENGTH_OF.format(strength) if strength else "",
        cover=words.COVERS.get(way.cover, way.cover),
    )  # fmt: skip


def render_notes(report: SprayReport, console: Console) -> None:
    """Cautions for people, the wait before harvest, label and law, and where it all comes from."""
    heading(console, words.NOTE)
    for caution in report.cautions:
        line(console, caution, bullet="!")
    if report.harvest_wait_days is not None:
        waits = report.harvest_wait_days > 0
        line(console, words.WAIT.format(report.harvest_wait_days) if waits else words.NO_WAIT, bullet="!")
    behind = sources_behind(report)
    if behind:
        line(console, (words.SOURCES.format(", ".join(behind)), "triage.quiet"))


def sources_behind(report: SprayReport) -> tuple[str, ...]:
    """The sources of the values that count and of the rules that fired."""
    harms = [getattr(report.harms, harm) for harm in _HARMS]
    used = [harm.source for harm in harms if harm is not None and harm.source]
    return tuple(dict.fromkeys([*used, *(source for firing in report.firings for source in firing.sources)]))
