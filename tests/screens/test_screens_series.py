"""The question series: its order, what may be typed at any time, what is kept, and how it ends."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from triage.model.book import Book
from triage.model.case import System
from triage.model.quantity import Reading
from triage.screens import wording
from triage.screens.series import CHANGES, LONGEST, UNSEEN, said_again
from triage.session import Told

Run = Callable[..., Any]
PH = Reading(quantity="ph", value=6.8, unit="pH", low=6.8, high=6.8, on="2026-05-03")
OPENING = ("1", "basil", "webbing under the leaf", "ph 6.8", "0", "0")
PALE = ("1", "basil", "the leaves are pale", "ph 6.8", "0", "0")  # leaves much open


def asked(text: str) -> list[str]:
    """The questions that were put, with their numbers."""
    return re.findall(r"^(\d+\. .*)$", text, flags=re.MULTILINE)


def test_fish_come_first_then_crop_words_water_and_what_changed(talk: Run, book: Book) -> None:
    questions = asked(talk(*OPENING).text)
    assert questions[0].startswith("1. First the fish")
    assert questions[1:4] == [f"2. {wording.CROP_ASK}", f"3. {wording.WORDS_ASK}", f"4. {wording.WATER_ASK}"]
    lists = [q.ask for q in book.questions.values() if q.place == "lately" and not q.after]
    assert [one.split(". ", 1)[1] for one in questions[4:6]] == lists[:CHANGES]


def test_this_weeks_readings_are_not_asked_for(talk: Run) -> None:
    assert wording.WATER_ASK not in talk(*OPENING[:3], readings=[PH]).text
    old = Reading(quantity="ph", value=6.8, unit="pH", low=6.8, high=6.8, on="2026-04-01")
    assert wording.WATER_ASK in talk(*OPENING[:3], readings=[old]).text


def test_every_answer_is_kept_the_moment_it_is_given(talk: Run) -> None:
    for count in range(1, len(OPENING) + 1):
        done = talk(*OPENING[:count])
        assert len(done.kept) == count
        assert done.kept == done.session.told


def test_back_takes_the_last_answer_back_and_asks_again(talk: Run) -> None:
    done = talk("1", "basil", "b", "chard")
    assert [told.crop for told in done.kept if told.kind == "crop"] == ["chard"]
    assert done.text.count(wording.CROP_ASK) == 2
    assert "Taken back: basil" in done.text


def test_back_at_the_first_question_says_so(talk: Run) -> None:
    done = talk("b", "back", "1")
    assert done.text.count(wording.FIRST_QUESTION) == 2
    assert len(done.kept) == 1


def test_back_takes_words_back_one_by_one(talk: Run) -> None:
    done = talk("1", "basil", "webbing and gobbledygook xyzzy", "moving dots under the leaf", "b", "b")
    assert [told.kind for told in done.kept] == ["finding", "crop"]


def test_why_is_answered_at_every_kind_of_question(talk: Run) -> None:
    done = talk("w", "1", "w", "basil", "why", "the leaves are pale", "w", "ph 6.8", "w", "0", "0", "w")
    for reason in ("fish", "crop", "words", "readings", "lately"):
        assert wording.ASK_BECAUSE[reason] in done.words
    assert "It helps to tell apart: " in done.words or "It shows whether it is " in done.words
    assert len(done.kept) == 6


def test_so_far_is_short_and_takes_no_answer(talk: Run) -> None:
    done = talk("s", *OPENING[:3], "s")
    assert wording.SO_FAR_NOTHING in done.text
    assert "- Spider mites (" in done.text
    assert wording.DO not in done.text
    assert len(done.kept) == 3


def test_help_names_every_command(talk: Run) -> None:
    text = talk("h").words
    assert all(" ".join(words.split()) in text for words in wording.HELP)


def test_enter_alone_helps_and_keeps_nothing(talk: Run) -> None:
    done = talk("", "1")
    assert wording.EMPTY.split(",")[0] in done.words
    assert len(done.kept) == 1


def test_not_sure_counts_as_not_sure(talk: Run) -> None:
    (told,) = talk("2? 8?").kept
    assert told.seen == ()
    assert told.unsure == ("fish-gasping", "fish-dying-one-by-one")


def test_none_of_these_says_that_all_are_absent_and_cant_tell_says_nothing(talk: Run, book: Book) -> None:
    done = talk(*OPENING[:4], "0", "t")
    assert set(done.kept[-2].absent) == set(book.questions[done.kept[-2].question].options)
    assert done.kept[-1] == Told(kind="cant-tell", question=done.kept[-1].question)


def test_what_was_said_in_words_is_not_asked_again_nor_made_absent(talk: Run) -> None:
    done = talk("1", "basil", "we put in new stones", "ph 6.8", "0")
    put = done.text.split("5. What was done")[1]
    assert "New stones" not in put.split("One number")[0]
    assert "new-stones" in done.session.look(with_responses=False).read_words[0].finding
    assert "new-stones" not in done.session.case.absent
    assert "new-stones" in done.session.case.seen


def test_words_typed_at_a_list_are_heard(talk: Run) -> None:
    done = talk(*OPENING[:4], "we put in new stones")
    assert "I understood: new stones" in done.text
    assert done.kept[-1].kind == "words"
    assert done.kept[-1].question == "changed-water"


def test_first_letters_are_taken_and_said_back(talk: Run) -> None:
    done = talk("gasp", "", "cuc")
    assert "Taken as: fish gasp or hang at the surface" in done.text
    assert done.kept[0].seen == ("fish-gasping",)
    assert "Taken as: Cucumber" in done.text
    assert done.kept[1].crop == "cucumber"


def test_words_about_something_else_are_kept_and_the_question_stays(talk: Run) -> None:
    done = talk("webbing under the leaf", "1")
    assert [told.question for told in done.kept] == ["", "fish-now"]
    assert len(asked(done.text)) == 2  # fish, then the crop, at which nobody answers


def test_words_that_say_nothing_are_said_back(talk: Run) -> None:
    done = talk("gobbledygook", "1")
    assert "'gobbledygook' is no answer here" in done.text
    assert len(done.kept) == 1


def test_control_characters_never_reach_screen_or_journal(talk: Run) -> None:
    done = talk("1", "basil", "web\x1b[31mbing \x07under the leaf\x00")
    assert "\x1b" not in done.kept[-1].text + done.text.split(wording.WORDS_ASK)[1].split("\n", 3)[3]
    assert done.kept[-1].text == "web[31mbing under the leaf"


def test_very_long_words_are_kept_whole_and_said_back_short(talk: Run) -> None:
    long = "gobbledygook " * 400
    done = talk("1", "basil", long, "")
    assert done.kept[-1].text == long.strip()
    assert max(len(part) for part in re.findall(r'Not understood: "([^"]*)"', done.words)) < 250


def test_readings_told_with_short_names_count(talk: Run) -> None:
    done = talk(*OPENING[:3], "ph=7.2, temp 22, iron <= 0.1 mg/L")
    values = {reading.quantity: (reading.value, reading.bound) for reading in done.session.case.readings}
    assert values == {"ph": (7.2, "="), "temperature": (22.0, "="), "iron": (0.1, "<=")}
    assert "I understood: pH 7.2" in done.text


def test_an_unknown_crop_brings_near_names_and_no_dead_end(talk: Run) -> None:
    done = talk("1", "bazil", "")
    assert "Did you mean basil" in done.words
    assert done.kept[-1] == Told(kind="cant-tell", question="crop")


def test_crops_of_the_system_are_chosen_by_number(talk: Run) -> None:
    done = talk("1", "7", "2", system=System(crops=("basil", "chard")))
    assert "You grow: 1 Basil, 2 Chard" in done.words
    assert "'7' is not in the book" in done.words
    assert done.kept[-1].crop == "chard"


def test_fish_in_trouble_say_what_to_do_before_anything_else_is_asked(talk: Run) -> None:
    done = talk("2")
    before, after = done.text.split(wording.GO_ON.split(",")[0])
    assert wording.ALARM in before
    assert wording.CROP_ASK not in done.text
    assert done.series.ended == "gone"
    assert after
    assert len(done.kept) == 1


@pytest.mark.parametrize(("typed", "ended"), [("q", "enough"), ("n", "enough"), ("k", "kept")])
def test_after_an_alarm_one_may_stop(talk: Run, typed: str, ended: str) -> None:
    assert talk("2", typed).series.ended == ended


def test_after_an_alarm_one_may_go_on_or_back_and_is_not_warned_twice(talk: Run) -> None:
    done = talk("2", "what", "", "basil", "webbing", "ph 6.8")
    assert wording.GO_ON_HELP in done.text
    assert done.text.count(wording.ALARM) == 1
    assert wording.CROP_ASK in done.text
    assert talk("2", "b", "1").kept[0].seen == ("fish-well",)


@pytest.mark.parametrize("typed", ["q", "enough", "Q", "quit"])
def test_enough_ends_at_once(talk: Run, typed: str) -> None:
    done = talk("1", typed)
    assert done.series.ended == "enough"
    assert len(done.kept) == 1


def test_keep_ends_and_says_how_to_go_on(talk: Run) -> None:
    done = talk("1", "k")
    assert done.series.ended == "kept"
    assert wording.ENDED["kept"] in done.text


def test_a_settled_series_ends_by_itself_and_says_why(talk: Run) -> None:
    done = talk(
        "1", "cucumber", "fine webs and tiny moving dots under the leaf, many fine pale dots", "ph 6.8", *"0" * 30
    )
    assert done.series.ended == "settled"
    assert wording.ENDED["settled"] in done.words
    assert done.session.next_question() is None


def test_a_series_is_never_longer_than_anybody_bears(talk: Run) -> None:
    done = talk(*PALE, *["0", "t"] * 20)
    assert len(asked(done.text)) <= LONGEST
    assert done.series.ended in ("long", "settled", "nothing")


def test_what_ended_by_itself_names_no_further_look(talk: Run) -> None:
    done = talk(
        "1", "cucumber", "fine webs and tiny moving dots under the leaf, many fine pale dots", "ph 6.8", *"0" * 30
    )
    assert done.series.report().next_question is None
    assert talk(*PALE, "q").series.report().next_question is not None


def test_looking_that_does_not_help_ends_it(talk: Run) -> None:
    done = talk(*PALE, *"t" * 20)
    assert done.series.ended == "unseen"
    assert len(done.kept) == len(PALE) + UNSEEN
    assert wording.ENDED["unseen"] in done.words


def test_entering_nothing_at_all_still_gets_questions_about_the_plant(talk: Run) -> None:
    done = talk("t", "", "", "", "t", "t", "t")
    assert len(asked(done.text)) == 8


def test_a_resumed_series_goes_on_where_it_stopped(talk: Run) -> None:
    first = talk(*OPENING[:3])
    second = talk("ph 6.8", told=first.kept)
    assert asked(second.text)[0] == f"4. {wording.WATER_ASK}"
    assert second.session.told[:3] == first.kept


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (Told(kind="crop", question="crop", crop="basil"), "basil"),
        (Told(kind="words", question="words", text="w" * 90), f'"{"w" * 60}..."'),
        (Told(kind="cant-tell", question="crop"), wording.CANT_TELL),
        (Told(kind="finding", question="x", absent=("webbing",)), wording.NONE_OF_THESE),
        (Told(kind="finding", question="x", seen=("webbing",), unsure=("honeydew",)), "webs; perhaps: sticky"),
    ],
)
def test_what_was_told_is_said_again_short(told: Told, said: str) -> None:
    assert said_again(told, {"basil": "Basil", "webbing": "Webs", "honeydew": "Sticky"}) == said
