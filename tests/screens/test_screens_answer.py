"""The answer: alarm first, each kind in its own form, short unless asked, no id, key or number in it unasked."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import msgspec
import pytest

from triage.book.casefile import load_case
from triage.intake import build_case
from triage.model.book import Book
from triage.model.case import Case
from triage.model.outcome import AlarmRaised, Avoided, Dose
from triage.model.quantity import Reading
from triage.reasoning import Engines
from triage.report.case_report import (
    ConclusionLine,
    ReadingLine,
    Report,
    ResponseLine,
    SupportLine,
    SuspectLine,
    TogetherLine,
)
from triage.report.names import Names
from triage.screens import wording
from triage.screens.alarms import render_alarms
from triage.screens.answer import render_answer
from triage.screens.measured import bearing_on, say_value, water_conclusions
from triage.screens.style import build_console
from triage.screens.suspects import form_of
from triage.session import session_from_case

DEMO = Path(__file__).resolve().parents[2] / "demo"
NAMES = {"spots": "Brown spots", "holes": "Holes", "basil": "Basil", "rot": "Root rot", "mites": "Mites"}


def suspect(cause: str = "rot", probability: float = 0.9, kind: str = "disease", **more: Any) -> SuspectLine:
    parts: dict[str, Any] = {"for_": (), "against": (), "settle": ("Pull a root.", "Ask a clinic."), "expect": ()}
    parts |= {"not_to_confuse": (("Drought", "Dry media."), ("Mites", "Webs.")), "sources": ()}
    name = NAMES.get(cause, cause)
    return SuspectLine(cause=cause, name=name, kind=kind, plain="Roots rot.", probability=probability, **(parts | more))


def response(name: str = "Add air", **more: Any) -> ResponseLine:
    parts: dict[str, Any] = {"kind": "by-hand", "grade": "ok", "why": ("Works.",), "dose": None, "cautions": ()}
    parts |= {"steps": ("First step.", "Second step.", "Third step."), "harvest_wait_days": None, "sources": ("x",)}
    return ResponseLine(treatment=name.lower(), name=name, works_for=("rot",), **(parts | more))


@pytest.fixture
def report(book: Book, engines: Engines) -> Report:
    """A report of nothing at all, to be filled by a test."""
    empty = session_from_case(book, Case(on="2026-05-04"), engines).look(with_question=False)
    return msgspec.structs.replace(
        empty, suspects=(suspect(),), none_in_book=0.01, seen=("spots",), conclusions=(), responses=(), avoid=(),
        alarms=(), together=(), unexplained=(), readings_used=(), firings=(),
    )  # fmt: skip


def text_of(report: Report, width: int = 80, **how: Any) -> str:
    out = io.StringIO()
    render_answer(report, build_console(width=width, file=out, colour=False), NAMES, **how)
    return out.getvalue()


def words_of(report: Report, **how: Any) -> str:
    return " ".join(text_of(report, **how).split())


def changed(report: Report, **what: Any) -> Report:
    return msgspec.structs.replace(report, **what)


def test_the_alarm_comes_first_always(report: Report) -> None:
    alarm = AlarmRaised(id="a", say="Fish gasp.", do=("Air.",), because=())
    text = text_of(changed(report, alarms=(alarm,), read_words=()))
    assert text.strip().startswith(wording.ALARM)
    assert text.index("Fish gasp.") < text.index(wording.TITLES["one"])


def test_two_alarms_share_their_steps() -> None:
    out = io.StringIO()
    alarms = [AlarmRaised(id=n, say=f"Alarm {n}.", do=("Air.", f"Only {n}."), because=()) for n in ("a", "b")]
    render_alarms(alarms, build_console(width=80, file=out, colour=False))
    assert out.getvalue().count("Air.") == 1
    assert "Only b." in out.getvalue()
    render_alarms([], build_console(width=80, file=out, colour=False))
    assert out.getvalue().count(wording.ALARM) == 1


def test_how_sure_is_said_in_words_and_in_numbers_only_on_request(report: Report) -> None:
    assert "Root rot: very likely" in text_of(report)
    assert "%" not in text_of(report)
    assert "Root rot: very likely, 90%" in text_of(report, numbers=True)


def test_one_check_and_one_look_alike_unless_more_is_asked(report: Report) -> None:
    short, full = words_of(report), words_of(report, full=True)
    assert f"{wording.SETTLE}: Pull a root." in short
    assert "Often taken for drought: Dry media." in short
    assert "Ask a clinic." not in short
    assert "Webs." not in short
    assert "Ask a clinic." in full
    assert "Webs." in full


def test_reasons_are_the_weighty_ones_in_everyday_words(report: Report) -> None:
    for_ = (
        SupportLine(what="spots", support=3.0, kind="seen", say="Brown spots"),
        SupportLine(what="basil", support=1.0, kind="crop", say="basil"),
        SupportLine(what="warm", support=0.9, kind="rule", say="The water is warm."),
        SupportLine(what="holes", support=0.05, kind="seen", say="Holes"),
    )
    against = (SupportLine(what="holes", support=-1.5, kind="absent", say="not there: Holes"),)
    text = words_of(changed(report, suspects=(suspect(for_=for_, against=against),)))
    assert "For it: brown spots; basil is prone to it; the water is warm." in text
    assert "Against it: holes (not so here)." in text


def test_what_another_cause_explains_better_is_said_where_it_is_open(report: Report) -> None:
    against = (SupportLine(what="spots", support=-1.5, kind="seen", say="Brown spots"),)
    assert "explains it better" in words_of(changed(report, suspects=(suspect(probability=0.6, against=against),)))
    assert "explains it better" not in words_of(changed(report, suspects=(suspect(probability=0.9, against=against),)))


def test_two_at_once_have_both_reasons_and_both_checks(report: Report) -> None:
    pair = (suspect(), suspect("mites", 0.8, settle=("Shake a leaf.",)))
    both = changed(report, suspects=pair, together=(TogetherLine(causes=("rot", "mites"), probability=0.7),))
    text = words_of(both)
    assert form_of(both) == "two"
    assert wording.TITLES["two"] in text
    assert f"{wording.SETTLE_TWO} Root rot: Pull a root. Mites: Shake a leaf." in text
    assert "Often taken for mites" not in text
    shake = msgspec.structs.replace(response("Shake"), works_for=("mites",))
    treated = words_of(changed(both, responses=(response("Trim"), response("Rinse"), shake)))
    assert "1 Trim (against root rot)" in treated
    assert "2 Shake (against mites)" in treated


def test_nothing_is_wrong_has_its_own_words(report: Report) -> None:
    well = changed(report, suspects=(suspect(kind="harmless"), suspect("mites", 0.15)))
    assert form_of(well) == "well"
    assert wording.TITLES["well"] in text_of(well)
    assert "Look out for: mites (less likely)." in text_of(well)
    other = msgspec.structs.replace(response("Burn the plant"), works_for=("mites",))
    treated = words_of(changed(well, responses=(other, response("Leave it alone"))))
    assert "1 Leave it alone" in treated
    assert "Burn the plant" not in treated


@pytest.mark.parametrize(("probability", "none"), [(0.1, 0.05), (0.3, 0.6)])
def test_not_in_the_book_offers_no_treatment_but_no_dead_end_either(
    report: Report, probability: float, none: float
) -> None:
    lost = changed(
        report, suspects=(suspect(probability=probability),), none_in_book=none, responses=(response(),),
        avoid=(Avoided(treatment="t", name="Bleach", grade="never", why=("No.",)),),
    )  # fmt: skip
    text = words_of(lost)
    assert form_of(lost) == "unfit"
    assert wording.TITLES["unfit"] in text
    assert f"{wording.NEAREST}: root rot." in text
    assert wording.DO not in text
    assert wording.SETTLE not in text
    assert all(" ".join(step.split()) in text for step in wording.NOTHING_FITS_DO)


def test_nothing_told_is_not_called_a_riddle(report: Report) -> None:
    empty = changed(report, seen=(), suspects=(suspect(probability=0.1),))
    assert form_of(empty) == "untold"
    assert wording.TITLES["untold"] in text_of(empty)
    assert form_of(changed(report, seen=(), suspects=())) == "untold"


def test_readings_stand_by_day_and_without_any_it_says_what_would_help(report: Report) -> None:
    def reading(quantity: str, on: str, value: float, bound: str = "=", note: str = "") -> ReadingLine:
        unit = "pH" if quantity == "pH" else "mg/L"
        return ReadingLine(
            quantity=quantity.lower(), name=quantity, value=value, unit=unit, bound=bound, on=on, age_days=1, note=note
        )

    measured = (reading("Iron", "2026-05-03", 0.1, "<=", "a limit"), reading("pH", "2026-05-03", 7.4),
                reading("Nitrate", "2026-04-20", 40))  # fmt: skip
    text = words_of(changed(report, readings_used=measured))
    assert "Yesterday (2026-05-03): iron at most 0.1 mg/L, pH 7.4." in text
    assert "14 days ago (2026-04-20): nitrate 40 mg/L." in text
    assert wording.WATER_SILENT in text
    assert "(a limit)" in words_of(changed(report, readings_used=measured), full=True)
    assert wording.NO_WATER in words_of(report)


def test_a_reading_of_unsaid_form_is_shown_as_what_it_may_be() -> None:
    def reading(value: float, low: float, high: float, step: float = 0.0) -> Reading:
        return Reading(quantity="nitrate", value=value, unit="mg/L NO3", low=low, high=high, step=step)

    assert say_value("Nitrate", reading(109, 40, 177.1)) == "Nitrate 40 to 177 mg/L NO3"
    assert say_value("Nitrate", reading(40, 30, 50, step=20)) == "Nitrate 40 mg/L NO3"
    assert say_value("Nitrate", reading(89.24, 89.24, 89.24)) == "Nitrate 89.2 mg/L NO3"


def test_what_the_water_says_is_said_once_and_what_bears_on_it_comes_first(report: Report) -> None:
    conclusions = (
        ConclusionLine(
            id="cold", because="The water is cold.", rule="cold-rule", from_=("reading temperature = 9 °C",)
        ),
        ConclusionLine(id="high", because="pH is high.", rule="high-rule", from_=("reading ph = 8",)),
    )
    for_ = (SupportLine(what="high-rule", support=2.0, kind="rule", say="pH is high."),)
    bearing = changed(report, suspects=(suspect(for_=for_),), conclusions=conclusions)
    assert bearing_on(bearing) == {"high"}
    assert [[c.id for c in part] for part in water_conclusions(bearing)] == [["high"], ["cold"]]
    text = words_of(bearing)
    assert text.count("pH is high.") == 1
    assert f"For it: {wording.BY_WATER}." in text


def test_the_first_responses_have_steps_the_others_names(report: Report) -> None:
    some = tuple(response(f"Way {n}", cautions=(f"Caution {n}.", f"More {n}.")) for n in range(1, 7))
    short = words_of(changed(report, responses=some))
    assert "1 Way 1 - First step. - Second step. ! Caution 1. 2 Way 2 - First step. ! Caution 2. 3 Way 3 ! Cau" in short
    assert f"{wording.MORE_WAYS}: way 4; way 5; way 6." in short
    assert "More 1." not in short
    full = words_of(changed(report, responses=some), full=True)
    assert full.count("Third step.") == 6
    assert full.count("More ") == 6


def test_what_is_poured_shows_grams_and_more_than_one_caution(report: Report) -> None:
    dose = Dose(what="chelate", grams=32.4567, low_grams=1, high_grams=2, steps=("16 g a day.",), note="A note.")
    poured = response("Chelate", kind="water", dose=dose, cautions=("Gloves.", "Weigh."), harvest_wait_days=1)
    text = words_of(changed(report, responses=(poured,)))
    assert "= 32.5 g of chelate - 16 g a day. ! Gloves. ! Weigh. ! Wait 1 day before you harvest." in text
    assert "A note." not in text
    assert "First step." not in text


def test_a_grade_that_asks_for_care_is_written_out(report: Report) -> None:
    text = text_of(changed(report, responses=(response(), response("Soap", grade="away-from-system"))))
    assert "[FINE]" not in text
    assert "2 [AWAY ONLY] Soap" in text


def test_what_not_to_use_names_the_reason_and_the_rest(report: Report) -> None:
    avoid = tuple(
        Avoided(treatment=n, name=f"Stuff {n}", grade=grade, why=("Because.", "Also."))  # type: ignore[arg-type]
        for n, grade in (("a", "never"), ("b", "ok"), ("c", "unknown"))
    )
    text = words_of(changed(report, avoid=avoid))
    assert "[NEVER] Stuff a: Because. x [NOT HERE] Stuff b: Because. x Nor: stuff c (unknown)." in text
    assert "Because. Also." in words_of(changed(report, avoid=avoid), full=True)


def test_unread_words_and_contradictions_are_said(report: Report) -> None:
    text = words_of(changed(report, unread_words=("it hums",), contradictions=("'a' does not go with 'b'",)))
    assert f'{wording.UNREAD}: "it hums".' in text
    assert f"{wording.CLASH}: 'a' does not go with 'b'." in text
    assert "it hums" not in words_of(changed(report, unread_words=("it hums",)), heard=False)


@pytest.fixture(params=["iron", "mites", "gasping"])
def told(request: pytest.FixtureRequest, book: Book, engines: Engines) -> Report:
    """The reports on the cases of the demo."""
    case = build_case(load_case(DEMO / f"{request.param}.yaml"), book, today="2026-05-04")
    return session_from_case(book, case, engines).look()


@pytest.mark.parametrize("width", [60, 80, 100])
def test_real_answers_hold_no_id_key_or_percentage(told: Report, book: Book, width: int) -> None:
    out = io.StringIO()
    render_answer(told, build_console(width=width, file=out, colour=False), Names(book))
    text = out.getvalue()
    assert max(map(len, text.splitlines())) <= width
    ids = {id_ for shelf in (book.findings, book.causes, book.treatments, book.rules, book.sources) for id_ in shelf}
    assert not {word for word in re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)+", text)} & ids
    assert not re.search(r"\d%", text)
    assert "1 days" not in text


def test_real_answers_fit_about_a_screen(told: Report, book: Book) -> None:
    def lines(**how: bool) -> int:
        out = io.StringIO()
        render_answer(told, build_console(width=80, file=out, colour=False), Names(book), **how)
        return len(out.getvalue().splitlines())

    assert lines() <= 85
    assert lines(full=True) > 1.5 * lines()


def test_no_sentence_is_said_twice(told: Report, book: Book) -> None:
    out = io.StringIO()
    render_answer(told, build_console(width=80, file=out, colour=False), Names(book))
    sentences = [one for one in re.split(r"(?<=[.!?]) ", " ".join(out.getvalue().split())) if len(one) > 40]
    assert len(sentences) == len(set(sentences))
