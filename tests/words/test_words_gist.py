"""What was told sounds like as a whole."""

from __future__ import annotations

from itertools import permutations
from math import isclose, log2

import msgspec
import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.model.speech import PARTS
from triage.reasoning import Engines
from triage.session import session_from_case
from triage.words.gist import MOST_BITS
from triage.words.talk import ratio_bits, talk_of, word_gains


@pytest.fixture(scope="module")
def engines(book: Book) -> Engines:
    return Engines(book)


def factors(engines: Engines, *words: str, **ticked: frozenset[str]) -> dict[str, float]:
    case = Case(on="2026-05-04", words=words, **ticked)
    return engines.hearing.gist(case)


def leader(factors: dict[str, float]) -> str:
    return max(sorted(factors), key=factors.__getitem__)


@pytest.mark.parametrize(
    ("words", "cause"),
    [
        ("fine webs and pale dots, like dust", "two-spotted-spider-mite"),
        ("white mealy dust that wipes off the top of the leaf", "powdery-mildew"),
        ("galls and knots on the roots", "root-knot-nematode"),
        ("the fish come up for air at dawn", "low-dissolved-oxygen"),
    ],
)
def test_words_sound_like_the_cause_that_is_spoken_of_in_them(engines: Engines, words: str, cause: str) -> None:
    assert leader(factors(engines, words)) == cause


def test_ticked_findings_speak_in_the_words_of_their_phrases(engines: Engines) -> None:
    assert leader(factors(engines, seen=frozenset(("pale-stippling", "webbing")))) == "two-spotted-spider-mite"
    perhaps = factors(engines, unsure=frozenset(("pale-stippling", "webbing")))
    assert leader(perhaps) == "two-spotted-spider-mite"
    surely, unsurely = (factors(engines, **{state: frozenset(("wilting",))}) for state in ("seen", "unsure"))
    assert max(surely.values()) > max(unsurely.values()) > 1


def test_what_was_heard_in_words_does_not_speak_twice(engines: Engines) -> None:
    words = "webbing between the leaves, leaf spots with rings"
    heard = frozenset(item.finding for item in engines.hearing.read(words)[0])
    assert heard
    assert factors(engines, words, seen=heard) == factors(engines, words)


def test_what_follows_from_a_finding_does_not_speak_twice(engines: Engines, book: Book) -> None:
    finding = next(f for f in book.findings.values() if f.implies and book.findings[f.implies[0]].phrases)
    alone = factors(engines, seen=frozenset((finding.finding,)))
    assert factors(engines, seen=frozenset((finding.finding, *finding.implies))) == alone


def test_words_that_say_nothing_move_nothing(engines: Engines) -> None:
    assert factors(engines, "") == {}
    assert factors(engines, "it is so, and I do not know") == {}
    assert factors(engines) == {}


def test_denied_words_do_not_speak(engines: Engines) -> None:
    assert factors(engines, "no webbing") == {}
    assert leader(factors(engines, "pale dots, no webbing")) == leader(factors(engines, "pale dots"))


@pytest.mark.parametrize("crop", ["tomato", "cucumber", "strawberry"])
def test_the_name_of_the_crop_says_no_more_than_plant(engines: Engines, crop: str) -> None:
    """Else cucumber mosaic would be favoured for whatever a cucumber has."""
    assert factors(engines, f"pale dots on the {crop}") == factors(engines, "pale dots on the plant")


def test_order_and_repeats_say_nothing(engines: Engines) -> None:
    parts = ("pale dots", "fine webs", "dull leaves")
    found = [factors(engines, ", ".join(order)) for order in permutations(parts)]
    found.append(factors(engines, *parts, *parts))
    for each in found:
        assert all(isclose(each[cause], factor, rel_tol=1e-12) for cause, factor in found[0].items())


def test_no_cause_gains_more_than_a_rule_that_favours_somewhat(engines: Engines, book: Book) -> None:
    for words in ("dots", "pale dots", " ".join(text for text in book.findings["pale-stippling"].phrases)):
        assert max(factors(engines, words).values()) <= 2**MOST_BITS + 1e-12
    many = factors(engines, seen=frozenset(book.causes["two-spotted-spider-mite"].shows))
    assert max(many.values()) == pytest.approx(2**MOST_BITS)
    assert min(many.values()) == pytest.approx(2**-MOST_BITS)


def test_a_word_of_all_talk_alike_says_the_same_for_all() -> None:
    gains = word_gains([{"leaf": 0.5, "web": 0.5}, {"leaf": 0.5, "dust": 0.5}])
    assert gains["leaf"][0] == gains["leaf"][1] < gains["web"][0]
    assert set(gains["web"]) == {0}


def test_a_word_half_as_common_says_more() -> None:
    assert ratio_bits(0.1, 0.05, 0.2) == pytest.approx(log2(9))
    assert ratio_bits(0.0, 0.05, 0.2) == 0


def test_the_talk_of_a_cause_is_shared_out_among_its_words(book: Book) -> None:
    cause = book.causes["two-spotted-spider-mite"]
    talk = talk_of(cause, {"webbing": {"web": 1.0}, "pale-stippling": {"dot": 0.5, "pale": 0.5}}, ["mite", "mite"])
    assert sum(talk.values()) == pytest.approx(1)
    assert talk["dot"] == talk["pale"]
    assert set(talk) == {"web", "dot", "pale", "mite"}


def test_packed_gains_are_whole_hundredths_of_causes_of_the_book(book: Book) -> None:
    speech = book.speech
    assert speech.spoken_of == tuple(book.causes)
    for say in (speech.words_say, speech.signs_say):
        for packed in say.values():
            numbers = [int(number) for number in packed.split()]
            assert numbers[::2] == sorted(set(numbers[::2]))
            assert max(numbers[::2]) < len(book.causes)
            assert min(numbers[1::2]) >= 0.05 * PARTS


def test_the_support_of_a_suspect_says_what_all_of_it_did(engines: Engines, book: Book) -> None:
    case = Case(on="2026-05-04", seen=frozenset(("pale-stippling", "webbing")))
    session = session_from_case(book, case, engines)
    first = session.look(with_question=False, with_responses=False).suspects[0]
    whole = [support for support in first.for_ if support.kind == "words"]
    assert [support.what for support in whole] == ["words"]
    assert whole[0].say == "taken together, what was told sounds like it"
    assert 0 < whole[0].support <= MOST_BITS + 1e-9


def test_a_book_without_a_cause_is_moved_all_the_same(engines: Engines, book: Book) -> None:
    case = Case(on="2026-05-04", seen=frozenset(("pale-stippling", "webbing")))
    fewer = {id_: cause for id_, cause in book.causes.items() if id_ != "two-spotted-spider-mite"}
    less = Engines(msgspec.structs.replace(book, causes=fewer))
    report = session_from_case(less.book, case, less).look(with_question=False, with_responses=False)
    assert "two-spotted-spider-mite" not in {suspect.cause for suspect in report.suspects}
    assert any(support.kind == "words" for suspect in report.suspects for support in (*suspect.for_, *suspect.against))


def test_every_cause_in_use_says_how_growers_speak_of_it(book: Book) -> None:
    short = [id_ for id_, cause in book.causes.items() if cause.status != "retired" and len(cause.talk) < 5]
    assert short == []


@pytest.mark.parametrize("cause", ["two-spotted-spider-mite", "rust", "low-dissolved-oxygen", "nitrogen-deficiency"])
def test_all_of_its_own_talk_sounds_like_the_cause(engines: Engines, book: Book, cause: str) -> None:
    assert leader(factors(engines, ", ".join(book.causes[cause].talk))) == cause


def test_own_talk_has_its_share_beside_the_signs(book: Book) -> None:
    cause = book.causes["rust"]
    talk = talk_of(cause, {"rust-pustules": {"pustule": 1.0}}, ["rust"], ["orange", "orange", "dust"])
    assert sum(talk.values()) == pytest.approx(1)
    assert talk["orange"] == pytest.approx(2 * talk["dust"]) == pytest.approx(0.2)
    assert talk["pustule"] + talk["rust"] == pytest.approx(0.7)
