"""Which lines of advice hold: by moment, event, grade, animals, and by what the substance is."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import msgspec
import pytest

from triage.model.advice import Advice
from triage.responses.advise import Occasion, choose_advice


def _line(name: str = "line", **told: Any) -> Advice:
    base: dict[str, Any] = {"advice": name, "moment": "first", "order": 1, "say": f"Do {name}.", "sources": []}
    return Advice(**{**base, **told})


def _said(lines: list[Advice], occasion: Occasion, moment: Any = "first") -> tuple[str, ...]:
    return choose_advice({line.advice: line for line in lines}, moment, occasion)


def _holds(occasion: Occasion, **told: Any) -> bool:
    return bool(_said([_line(**told)], occasion))


@pytest.fixture
def soap(kit: SimpleNamespace) -> Any:
    return msgspec.structs.replace(kit.substance(traits=["surfactant", "film"]), substance="soap")


@pytest.fixture
def salt(kit: SimpleNamespace) -> Any:
    return msgspec.structs.replace(kit.substance(traits=["salt"]), substance="salt")


def test_the_lines_of_the_moment_in_their_order_and_each_once() -> None:
    lines = [
        _line("last", order=9), _line("early", order=1), _line("b-same", order=5, say="Aerate."),
        _line("a-same", order=5, say="Feed nothing."), _line("again", order=7, say="Aerate."),
        _line("other", moment="tell"),
    ]  # fmt: skip
    assert _said(lines, Occasion()) == ("Do early.", "Feed nothing.", "Aerate.", "Do last.")
    assert _said(lines, Occasion(), "tell") == ("Do other.",)


def test_a_line_for_some_events_holds_only_then() -> None:
    assert _holds(Occasion(event="dosed"), events=["dosed", "returned"])
    assert not _holds(Occasion(event="sprayed"), events=["dosed", "returned"])
    assert not _holds(Occasion(), events=["dosed"])  # a spray, unless told otherwise


def test_a_line_for_some_grades_holds_only_there() -> None:
    assert _holds(Occasion(grade="never"), grades=["never"])
    assert not _holds(Occasion(grade="ok"), grades=["never"])
    assert _holds(Occasion(), grades=["unknown"])  # nothing was graded


def test_a_line_for_crustaceans_holds_unless_it_is_known_that_none_are_kept() -> None:
    assert _holds(Occasion(), crustaceans=True)
    assert not _holds(Occasion(crustaceans=False), crustaceans=True)
    assert _holds(Occasion(crustaceans=False))


def test_one_trait_of_one_substance_is_enough(soap: Any, salt: Any) -> None:
    for trait in ("film", "surfactant"):
        assert _holds(Occasion(substances=(salt, soap)), traits=[trait, "metal"])
    assert not _holds(Occasion(substances=(salt,)), traits=["film"])


def test_a_trait_may_take_a_line_back(soap: Any, salt: Any) -> None:
    assert not _holds(Occasion(substances=(soap,)), unless=["film"])
    assert _holds(Occasion(substances=(salt,)), unless=["film"])
    assert not _holds(Occasion(substances=(soap,)), traits=["surfactant"], unless=["film"])


def test_a_line_may_name_its_substances_or_leave_some_out(soap: Any, salt: Any) -> None:
    assert _holds(Occasion(substances=(soap,)), substances=["soap"])
    assert not _holds(Occasion(substances=(salt,)), substances=["soap"])
    assert not _holds(Occasion(substances=(soap,)), not_for=["soap"])
    assert _holds(Occasion(substances=(salt,)), not_for=["soap"])
    assert _holds(Occasion(substances=(soap, salt)), not_for=["soap"])


def test_of_what_is_not_in_the_book_only_what_is_for_all_holds() -> None:
    assert _holds(Occasion())
    for told in ({"traits": ["film"]}, {"unless": ["film"]}, {"substances": ["soap"]}, {"not_for": ["soap"]}):
        assert not _holds(Occasion(), **told)
