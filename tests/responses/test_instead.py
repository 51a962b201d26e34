"""What to do instead of a substance: nothing dissolved, and against what it is used for."""

from __future__ import annotations

from typing import Any

from triage.model.treatment import Against, Treatment
from triage.responses.choose import choose_instead


def _treatment(name: str, kind: str, substance: str = "", **against: str) -> Treatment:
    known: dict[str, Any] = {
        cause: Against(works=works, source="our-judgement") for cause, works in against.items()  # type: ignore[arg-type]
    }  # fmt: skip
    return Treatment(
        treatment=name, kind=kind, name=name, plain="", steps=[], against=known,  # type: ignore[arg-type]
        substances=[substance] if substance else [], sources=["our-judgement"], status="draft",
    )  # fmt: skip


def _instead(*treatments: Treatment, **told: Any) -> tuple[str, ...]:
    return choose_instead("stuff", {one.treatment: one for one in treatments}, **told)


SPRAY = _treatment("a-spray", "spray", "stuff", mites="well", aphids="partly")
DOSE = _treatment("a-dose", "water", "stuff", iron="well")


def test_two_of_a_kind_the_better_first_and_four_in_all() -> None:
    found = _instead(
        SPRAY,
        *(_treatment(f"hand-{works}", "by-hand", mites=works) for works in ("little", "partly", "well")),
        *(_treatment(f"helper-{works}", "biological", mites=works) for works in ("little", "partly", "well")),
        _treatment("clean", "housekeeping", mites="well"),
    )
    assert found == ("hand-well", "hand-partly", "helper-well", "helper-partly")
    kinds = ("housekeeping", "by-hand", "biological")
    others = [_treatment(kind, kind, aphids="little") for kind in kinds]
    assert _instead(SPRAY, *others) == ("by-hand", "biological", "housekeeping")
    assert _instead(SPRAY, *others, most=1) == ("by-hand",)


def test_what_is_meant_for_just_this_goes_before_what_is_good_for_nearly_anything() -> None:
    anything = {f"other{n}": "well" for n in range(8)}
    found = _instead(
        SPRAY, _treatment("a-broad-one", "by-hand", mites="well", **anything),
        _treatment("one-for-mites", "by-hand", mites="partly"),
    )  # fmt: skip
    assert found == ("one-for-mites", "a-broad-one")  # 0.5, and 1 over the root of nine


def test_what_works_against_more_of_its_targets_goes_first() -> None:
    both = _treatment("z-both", "by-hand", mites="well", aphids="well")
    assert _instead(SPRAY, _treatment("a-one", "by-hand", mites="well"), both) == ("z-both", "a-one")


def test_equally_good_ones_go_by_name() -> None:
    assert _instead(SPRAY, *(_treatment(n, "by-hand", mites="well") for n in ("b", "a", "c"))) == ("a", "b")


def test_a_dose_has_its_own_targets() -> None:
    others = _treatment("rinse", "by-hand", mites="well"), _treatment("feed-more", "housekeeping", iron="well")
    assert _instead(SPRAY, DOSE, *others) == ("rinse",)
    assert _instead(SPRAY, DOSE, *others, dosed=True) == ("feed-more",)


def test_nothing_that_takes_a_substance_is_named_instead() -> None:
    wet = _treatment("another", "by-hand", "other", mites="well")
    assert _instead(SPRAY, wet, _treatment("aside", "by-hand", rust="well")) == ()
