"""How the answer looks to why a quantity moves."""

from __future__ import annotations

from rich.console import Console
from rich.padding import Padding
from rich.table import Table

from ..report.case_report import SuspectLine
from ..report.drift_report import DriftReport
from ..water.lacks import Lack
from . import water_words as words
from . import wording
from .alarms import render_alarms
from .style import heading, line

SHOWN = 4
WORTH_NAMING = 0.03
CLEAR_BITS = 0.3


def render_drift(report: DriftReport, console: Console) -> None:
    """Alarms, the answer in a sentence, the suspects, the check, the balance, and what is missing."""
    render_alarms(report.alarms, console)
    heading(console, report.say)
    _trend(report, console)
    _suspects(report, console)
    _decide(report, console)
    _balance(report, console)
    _lacks(report, console)
    heading(console, wording.CAUTIONS)
    for caution in report.cautions:
        line(console, caution, bullet="-")


def _trend(report: DriftReport, console: Console) -> None:
    trend = report.trend
    if trend.slope is None or trend.low is None or trend.high is None:
        return
    days = wording.count(round(trend.days), "day")
    since = words.OVER_DAYS.format(readings=trend.readings, days=days)
    if trend.low <= 0 <= trend.high:
        line(console, words.TOO_COARSE.format(since))
        return
    unit = "" if report.unit == "pH" else f" {report.unit}"
    spread = wording.RANGE.format(f"{trend.low * 7:+.2g}", f"{trend.high * 7:+.2g}")
    line(console, words.PACE.format(pace=f"{trend.slope * 7:+.2g}{unit}", span=spread, since=since))


def _balance(report: DriftReport, console: Console) -> None:
    shown = [term for term in report.balance if term.unit != "times"]
    if not shown:
        return
    heading(console, words.BALANCE)
    table = Table(box=None, show_header=False, padding=(0, 1), pad_edge=False)
    table.add_column(ratio=1)
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    for term in shown:
        spread = wording.RANGE.format(f"{term.low:.3g}", f"{term.high:.3g}") if term.high > term.low else ""
        table.add_row(f"{term.say}{f' ({term.note})' if term.note else ''}", f"{term.value:.3g}", spread)
    console.print(Padding(table, (0, 0, 0, 2)))


def _suspects(report: DriftReport, console: Console) -> None:
    shown = [suspect for suspect in report.suspects if suspect.probability >= WORTH_NAMING][:SHOWN]
    if not shown:
        return
    heading(console, words.MAY_DO_IT)
    for place, suspect in enumerate(shown, start=1):
        sure = wording.sure_words(suspect.probability)
        line(console, (suspect.name, "triage.name"), ": ", (sure, "triage.sure"), bullet=f"{place}")
        _reasons(suspect, console)


def _reasons(suspect: SuspectLine, console: Console) -> None:
    for label, lines in ((words.FOR_IT, suspect.for_), (words.AGAINST_IT, suspect.against)):
        clear = [wording.inside(support.say.rstrip(".")) for support in lines if abs(support.support) >= CLEAR_BITS][:3]
        if clear:
            line(console, (label, "triage.quiet"), "; ".join(clear), indent=4)


def _decide(report: DriftReport, console: Console) -> None:
    if report.decide is None:
        return
    heading(console, wording.SETTLE)
    line(console, report.decide.how)
    for name, how in report.decide.tell_from:
        line(console, (wording.MISTAKEN.format(wording.inside(name)), "triage.quiet"), how)
    if report.decide.question is not None:
        line(console, f"{wording.NEXT}: {report.decide.question.ask}")


def _lacks(report: DriftReport, console: Console) -> None:
    if not report.lacks and not report.missing_volume:
        return
    heading(console, words.UNKNOWN_YET)
    if report.missing_volume:
        line(console, words.LITRES_MISSING, bullet="-")
    for lack in report.lacks:
        line(console, (_lack(lack), "triage.name"), f"  {lack.how}".rstrip(), bullet="-")
    if report.lacks:
        line(console, (words.HOW_TO_TELL, "triage.quiet"))


def _lack(lack: Lack) -> str:
    where = words.OF_TOP_UP if lack.point else ""
    more = lack.want - lack.have
    count = words.MORE_READINGS.format(wording.count(more, "more reading")) if lack.want > 1 and lack.have else ""
    return f"{lack.name}{where}{count}."
