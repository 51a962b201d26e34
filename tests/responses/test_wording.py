"""What a response says beside its steps."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import msgspec
import pytest

from triage.model.cause import Cause, Spread
from triage.model.outcome import Exposure, Firing, HarmVerdict, Verdict
from triage.model.record import Sourced
from triage.model.rule import Grade
from triage.model.treatment import Against, Conflict, Treatment
from triage.responses import words
from triage.responses.dose import Refused
from triage.responses.fit import Circumstances
from triage.responses.treat import Treated
from triage.responses.wording import cautions_of, conflict_cautions, harvest_wait, sources_of, why_of

HERE = Circumstances()


def _treatment(name: str = "it", kind: str = "spray", **told: Any) -> Treatment:
    return Treatment(
        treatment=name, kind=kind, name=name.title(), plain="", steps=[], status="draft",  # type: ignore[arg-type]
        **{"sources": ["our-judgement"], **told},
    )  # fmt: skip


def _verdict(grade: Grade, *why: str, **told: Any) -> Verdict:
    exposure = Exposure(as_sprayed_mg_l=1, spilled_mg_l=1, share_reaching_water=1, volume_l=1000, of="active")
    return Verdict(substance="stuff", grade=grade, why=why, exposure=exposure, **{"harms": (), **told})


def _cause(name: str, spreads: Spread | None = None) -> Cause:
    return Cause(
        cause=name.lower(), kind="pest", name=name, plain="", base="common", shows={}, settle=[], respond=[],
        spreads=spreads, sources=[], status="draft",
    )  # fmt: skip


def _why(treatment: Treatment, *helps: str, **told: Any) -> tuple[str, ...]:
    causes = told.get("causes", {"mites": _cause("Spider mites"), "rust": _cause("Rust")})
    return why_of(
        treatment, helps, causes, told.get("treated", Treated()), told.get("here", HERE), told.get("offered", ())
    )


def _works(works: str, **told: Any) -> Against:
    return Against(works=works, source="our-judgement", **told)  # type: ignore[arg-type]


def test_how_well_it_works_and_how_that_is_known() -> None:
    against = {
        "mites": _works("partly", stage="not the eggs", read="memory"), "rust": _works("little"),
        "gone": _works("well", read="practice"),
    }  # fmt: skip
    assert _why(_treatment(against=against), "unsaid", "mites", "rust", "gone", offered=["It is hot."]) == (
        "It is hot.",
        "Works partly against spider mites (not the eggs), recalled.",
        "Works little against rust.",
        "Works well against gone.",
    )


def test_a_language_may_keep_the_capital_of_a_name(monkeypatch: pytest.MonkeyPatch) -> None:
    assert words.inside("Rust") == "rust"
    monkeypatch.setattr(words, "LOWER_FIRST", "")
    assert words.inside("Rost") == "Rost"
    assert words.inside("") == ""


def test_hands_make_haste_where_it_spreads_fast() -> None:
    causes = {
        "mites": _cause("Mites"),
        "rust": _cause("Rust", Spread(speed="slow", how="By splash.")),
        "mildew": _cause("Mildew", Spread(speed="fast", how="Spores fly.")),
    }
    haste = "It spreads fast, so today and not next week. Spores fly."
    assert _why(_treatment(kind="by-hand"), "gone", "mites", "rust", "mildew", causes=causes) == (haste,)
    assert _why(_treatment(kind="biological"), "mildew", causes=causes) == ()
    silent = {"mildew": _cause("Mildew", Spread(speed="fast", how=""))}
    assert _why(_treatment(kind="by-hand"), "mildew", causes=silent) == (
        "It spreads fast, so today and not next week.",
    )


def test_the_shelf_is_named_only_for_what_takes_something_from_it() -> None:
    shelf = Circumstances(shelf=frozenset({"soap"}))
    assert _why(_treatment(substances=["soap"]), here=shelf) == ("It is on your shelf.",)
    assert _why(_treatment(substances=["oil"]), here=shelf) == ()
    assert _why(_treatment(), here=shelf) == ()
    assert _why(_treatment(substances=["soap"])) == ()


def test_the_reasons_of_the_strictest_grade_are_told_once() -> None:
    mild, strict = _verdict("keep-off-water", "A film."), _verdict("never", "Deadly.", "Deadly.", "Banned.")
    assert _why(_treatment(), treated=Treated(verdicts=(mild, strict))) == ("Deadly.", "Banned.")
    assert _why(_treatment(), treated=Treated(verdicts=(_verdict("ok", "Nothing to fear."),))) == ()


def test_cautions_are_what_to_measure_then_the_treatment_then_its_substances(kit: SimpleNamespace) -> None:
    soap = kit.substance(people=["Goggles.", "Label first."])
    here = Circumstances(substances={"soap": soap})
    treatment = _treatment(substances=["gone", "soap"], cautions=["Label first."])
    refused = Treated(dose=Refused(why="Measure iron first.", pointless=False))
    assert cautions_of(treatment, refused, here) == ("Measure iron first.", "Label first.", "Goggles.")
    assert cautions_of(treatment, Treated(), here) == ("Label first.", "Goggles.")


@pytest.mark.parametrize(
    ("days", "wait"), [(None, ""), (1, " Leave a day between."), (2, " Leave 2 days between."), (0, "")]
)
def test_a_conflict_says_how_long_to_wait(days: int | None, wait: str) -> None:
    soap, mites = _treatment("soap"), _treatment("mites", conflicts=[Conflict(treatment="soap", why="No.", days=days)])
    said = f"Not together with '{{}}': No.{wait}"
    assert conflict_cautions(mites, [mites, soap]) == (said.format("Soap"),)
    assert conflict_cautions(soap, [mites, soap]) == (said.format("Mites"),)


def test_a_conflict_with_what_is_not_chosen_is_not_said() -> None:
    mites = _treatment("mites", conflicts=[Conflict(treatment="soap", why="No."), Conflict(treatment="mites", why="?")])
    other = _treatment("oil", conflicts=[Conflict(treatment="soap", why="No.")])
    assert conflict_cautions(mites, [mites, other]) == ()


def test_the_longest_wait_counts_and_is_rounded_up(kit: SimpleNamespace) -> None:
    def wait(days: float | None) -> Any:
        told = None if days is None else Sourced(value=days, unit="days", source="our-judgement")
        return kit.substance(harvest_wait_days=told)

    substances = {"short": wait(0.5), "long": wait(6.2), "unsaid": wait(None)}
    assert harvest_wait(_treatment(substances=["short", "gone", "long", "unsaid"]), substances) == 7
    assert harvest_wait(_treatment(substances=["short"], harvest_wait_days=3), substances) == 3
    assert harvest_wait(_treatment(substances=["short"]), substances) == 1
    assert harvest_wait(_treatment(substances=["unsaid"]), substances) is None
    assert harvest_wait(_treatment(harvest_wait_days=0), substances) == 0


def test_sources_are_those_of_the_treatment_the_values_and_the_rules() -> None:
    harms = (
        HarmVerdict(harm="fish", grade="ok", why=(), source="a-study"), HarmVerdict(harm="people", grade="ok", why=()),
    )  # fmt: skip
    fired = Firing(rule="r", stage="guard", because="", facts=(), sources=("a-rule", "our-judgement"))
    graded = Treated(verdicts=(_verdict("ok", harms=harms, firings=(fired,)),))
    assert sources_of(_treatment(sources=["our-judgement", "a-guide"]), graded) == (
        "our-judgement", "a-guide", "a-study", "a-rule",
    )  # fmt: skip


def test_a_second_verdict_has_its_sources_too() -> None:
    first = _verdict("ok", harms=(HarmVerdict(harm="fish", grade="ok", why=(), source="one"),))
    second = msgspec.structs.replace(first, harms=(HarmVerdict(harm="fish", grade="ok", why=(), source="two"),))
    assert sources_of(_treatment(sources=[]), Treated(verdicts=(first, second))) == ("one", "two")
