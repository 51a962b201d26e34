"""`triage spray` as a person or a program runs it."""

from __future__ import annotations

import json
from typing import Any

import pytest

SOAP = ["soap", "--strength", "1%", "--amount", "1L", "--cover", "covered", "--volume", "1000L", "--animals", "tilapia"]
#: What `spray --json` has always held.
FIELDS = {
    "format", "substance", "grade", "why", "exposure", "harms", "instead", "cautions", "sources"
}  # fmt: skip
EXPOSURE = {"as_sprayed_mg_l", "spilled_mg_l", "share_reaching_water", "volume_l", "of"}
HARM = {
    "grade",
    "why",
    "quotient_as_sprayed",
    "quotient_spilled",
    "value_mg_l",
    "kind",
    "species",
    "source",
    "verified",
}


def _json(triage: Any, *words: str) -> dict[str, Any]:
    done = triage("spray", *words, "--json")
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_one_substance_in_the_documented_shape(triage: Any) -> None:
    report = _json(triage, *SOAP)
    assert report["format"] == "triage-spray/1"
    assert report.keys() >= FIELDS
    assert report["exposure"].keys() >= EXPOSURE
    assert set(report["harms"]) == {"fish", "crustaceans", "filter", "water", "people"}
    assert report["harms"]["fish"].keys() >= HARM
    assert report["harms"]["crustaceans"] is None
    assert report["exposure"] == {
        "as_sprayed_mg_l": 0.1, "spilled_mg_l": 10.0, "share_reaching_water": 0.01, "volume_l": 1000.0, "of": "active"
    }  # fmt: skip


def test_several_in_a_bottle_keep_the_shape(triage: Any) -> None:
    report = _json(triage, "pyrethrins + piperonyl butoxide", *SOAP[1:])
    assert (report["format"], report["grade"]) == ("triage-spray/1", "never")
    assert {member["substance"] for member in report["members"]} == {"pyrethrins", "piperonyl-butoxide"}


def test_an_unknown_substance_is_unknown_with_near_names_and_exit_0(triage: Any) -> None:
    report = _json(triage, "permetrin")
    assert report["grade"] == "unknown"
    assert any("Permethrin" in why for why in report["why"])


def test_a_spill_comes_with_its_sums(triage: Any) -> None:
    report = _json(
        triage, "soap", "--strength", "1%", "--amount", "1L", "--volume", "1000L", "--animals", "tilapia", "--spilled"
    )
    assert report["spill"]["level_mg_l"] == 10.0
    assert report["spill"]["first"][0].startswith("Air first")
    assert {change["aim"] for change in report["spill"]["change"]} <= {"out of danger", "at rest"}


def test_compare_is_mildest_first(triage: Any) -> None:
    table = _json(triage, "--compare", "pyrethrins", "soap", "lacewings", *SOAP[1:])
    assert table["format"] == "triage-spray-compare/1"
    assert [row["words"] for row in table["rows"]] == ["lacewings", "soap", "pyrethrins"]
    assert [row["grade"] for row in table["rows"]][-1] == "never"


def test_compare_takes_commas(triage: Any) -> None:
    table = _json(triage, "--compare", "soap,", "neem", "oil,", "copper", "soap", *SOAP[1:])
    assert {row["words"] for row in table["rows"]} == {"soap", "neem oil", "copper soap"}


def test_compare_of_one_is_wrong_use(triage: Any) -> None:
    done = triage("spray", "--compare", "soap")
    assert (done.returncode, done.stdout) == (2, "")
    assert "two or more" in done.stderr


def test_the_shelf_is_graded_as_it_stands(triage: Any) -> None:
    assert (
        triage(
            "setup", "--volume", "1000L", "--animals", "tilapia", "--shelf", "soap, permethrin, odd stuff"
        ).returncode
        == 0
    )
    table = _json(triage, "--shelf")
    assert table["format"] == "triage-spray-shelf/1"
    assert [(row["words"], row["grade"]) for row in table["rows"]][1:] == [
        ("permethrin", "never"), ("odd stuff", "unknown"),
    ]  # fmt: skip
    shown = triage("spray", "--shelf", columns=60)
    assert max(len(line) for line in shown.stdout.splitlines()) <= 60


def test_an_empty_shelf_says_how_to_fill_it(triage: Any) -> None:
    assert "triage setup --shelf" in triage("spray", "--shelf").stdout


def test_answers_may_be_piped(triage: Any) -> None:
    done = triage("spray", typed="soap\n1%\n1L\n2\n1000 L\ntilapia\n")
    assert done.returncode == 0
    assert "0.1 mg/L; all of it: 10 mg/L" in " ".join(done.stdout.split())


def test_piped_answers_may_end_early(triage: Any) -> None:
    done = triage("spray", typed="permethrin\n")
    assert done.returncode == 0
    assert "[NEVER]" in done.stdout


def test_enter_keeps_the_saved_system(triage: Any) -> None:
    assert triage("setup", "--volume", "640L", "--animals", "trout").returncode == 0
    done = triage("spray", typed="soap\n1%\n1L\n2\n\n\n")
    assert "640 L of water" in " ".join(done.stdout.split())


def test_nobody_to_ask_and_nothing_piped_in_is_wrong_use(triage: Any) -> None:
    done = triage("spray")
    assert (done.returncode, done.stdout) == (2, "")
    assert "SUBSTANCE" in done.stderr
    assert triage("spray", "--json", typed="soap\n").returncode == 2


@pytest.mark.parametrize("case", ["--neighbour", "--perimeter"])
def test_what_others_spray(triage: Any, case: str) -> None:
    report = _json(triage, "permethrin", case, "--volume", "1000L", "--animals", "tilapia")
    assert report["grade"] == "never"
    assert report["use"]["amount"] == "15 L"
    assert any("Ask what it is" in line for line in report["before"])


def test_two_ways_at_once_are_wrong_use(triage: Any) -> None:
    done = triage("spray", "soap", "--neighbour", "--cover", "covered")
    assert (done.returncode, done.stdout) == (2, "")
    assert "one of" in done.stderr


@pytest.mark.parametrize("name", ["soap", "permethrin", "copper sulphate", "Bt", "neem oil"])
def test_every_number_leads_to_its_source(triage: Any, name: str) -> None:
    """`triage book sources` knows every source that stands beside a figure."""
    report = _json(triage, name, *SOAP[1:])
    for source in report["sources"]:
        assert triage("book", "sources", source).returncode == 0, source
        break
    done = triage("book", "sources", "--json")
    known = {row["source"]["source"] for row in json.loads(done.stdout)["sources"]}
    harms = [harm for harm in report["harms"].values() if harm]
    assert {harm["source"] for harm in harms if harm["value_mg_l"] is not None} <= known
    assert set(report["sources"]) <= known


def test_the_same_question_gets_the_same_answer(triage: Any) -> None:
    first, second = (triage("spray", *SOAP, "--json", PYTHONHASHSEED=seed).stdout for seed in ("1", "2"))
    assert first == second


def test_a_blank_name_is_no_name(triage: Any) -> None:
    done = triage("spray", " ")
    assert (done.returncode, done.stdout) == (2, "")
    assert "SUBSTANCE" in done.stderr
