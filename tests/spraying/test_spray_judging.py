"""Verdicts on what is asked: names, words for several, several in one bottle, what was left unsaid."""

from __future__ import annotations

import pytest

from triage.spraying import Asked, Judge


def _asked(words: str, **told: str) -> Asked:
    return Asked(words=words, **{"strength": "1%", "amount": "1L", "cover": "covered", **told})  # type: ignore[arg-type]


def test_the_example_of_the_help_is_soap(judge: Judge) -> None:
    verdict = judge.judge(_asked("soap")).verdict
    assert (verdict.substance, verdict.grade) == ("fatty-acid-potassium-salts", "keep-off-water")


def test_a_word_for_several_names_them_and_takes_the_strictest(judge: Judge) -> None:
    answer = judge.judge(_asked("slug pellets"))
    assert answer.verdict.substance == "slug-pellets"
    assert answer.verdict.why[0].startswith("'slug pellets' may mean any of: ")
    grades = [judged.verdict.grade for judged in answer.all_judged]
    assert answer.verdict.grade == grades[0]
    assert {judged.substance.substance for judged in answer.all_judged} >= {"metaldehyde", "iron-phosphate"}


def test_a_bottle_of_two_is_as_strict_as_the_worse(judge: Judge) -> None:
    answer = judge.judge(_asked("soap and pyrethrins"))
    assert answer.verdict.grade == "never"
    assert "Several things in one bottle" in answer.verdict.why[0]
    fish = next(harm for harm in answer.verdict.harms if harm.harm == "fish")
    assert fish.grade == "never"
    assert [part.verdict.grade for part in answer.parts] == ["keep-off-water", "never"]


def test_something_unknown_in_the_bottle_makes_it_unknown(judge: Judge) -> None:
    assert judge.judge(_asked("soap and wonderglow")).verdict.grade == "unknown"
    assert judge.judge(_asked("pyrethrins and wonderglow")).verdict.grade == "never"


def test_an_unknown_product_gets_near_names_only(judge: Judge) -> None:
    verdict = judge.judge(_asked("permetrin")).verdict
    assert verdict.grade == "unknown"
    assert any("Nearest in the book: Permethrin" in why for why in verdict.why)


def test_living_helpers_are_nothing_dissolved(judge: Judge) -> None:
    answer = judge.judge(Asked(words="lacewings"))
    assert (answer.verdict.grade, answer.all_judged) == ("ok", ())


def test_unsaid_strength_is_told_where_it_decides(judge: Judge) -> None:
    said = judge.judge(_asked("soap")).verdict
    unsaid = judge.judge(Asked(words="soap", amount="1L", cover="covered")).verdict
    assert (said.grade, unsaid.grade) == ("keep-off-water", "away-from-system")
    assert unsaid.why[0] == "The strength was not said, so 30 g/L counts, too."
    assert unsaid.exposure == said.exposure  # the figures shown are those of the usual strength


@pytest.mark.parametrize(
    ("words", "told", "grade"),
    [
        ("Bt", {"strength": "2 g/L"}, "keep-off-water"),
        ("beneficial nematodes", {}, "keep-off-water"),
        ("milk", {"strength": "10%", "amount": "100 mL"}, "keep-off-water"),
        ("sugar", {"amount": "1 g", "strength": ""}, "away-from-system"),
        ("rubbing alcohol", {"strength": "70% vol", "amount": "1 mL"}, "keep-off-water"),
        ("milk", {"strength": "10%", "amount": "5L"}, "away-from-system"),
        ("sugar", {"amount": "100 g", "cover": "drench", "strength": ""}, "never"),
        ("rubbing alcohol", {"strength": "70% vol"}, "never"),
    ],
)
def test_what_lives_and_what_is_eaten(judge: Judge, words: str, told: dict[str, str], grade: str) -> None:
    """Published words that fish bear it, or the oxygen it takes, stand in for a lethal level."""
    assert judge.judge(_asked(words, **told)).verdict.grade == grade


def test_it_says_what_a_mild_grade_rests_on(judge: Judge) -> None:
    fish = next(harm for harm in judge.judge(_asked("Bt", strength="2 g/L")).verdict.harms if harm.harm == "fish")
    assert any("published text" in why for why in fish.why)
    milk = next(harm for harm in judge.judge(_asked("milk", strength="10%")).verdict.harms if harm.harm == "fish")
    assert any("oxygen it takes" in why for why in milk.why)


def test_carbaryl_is_no_spray_in_place(judge: Judge) -> None:
    """A recalled 0.25 mg/L for salmon, and 0.0075 for water fleas where shrimp are kept (toumi2015)."""
    assert judge.judge(_asked("carbaryl", strength="0.01%", amount="10 mL")).verdict.grade == "away-from-system"


def test_ammonium_is_held_against_the_limit_of_this_water(judge: Judge, make_judge: object) -> None:
    """5 g of urea in 1,000 L: 5 x 0.467 = 2.3 mg/L of nitrogen; at pH 7 and 25 degrees 10 and more are allowed."""
    dose = Asked(words="urea", amount="5 g", cover="drench")
    fish = next(harm for harm in judge.judge(dose).verdict.harms if harm.harm == "fish")
    assert fish.grade == "ok"
    risen = make_judge(1000, ("tilapia",), ph=8.8, temperature=28, oxygen=8)  # type: ignore[operator]
    worse = next(harm for harm in risen.judge(dose).verdict.harms if harm.harm == "fish")
    assert worse.grade == "never"
