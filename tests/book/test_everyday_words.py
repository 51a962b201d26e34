"""What is asked beside a plant is said in everyday words; eyes, fingers, nose and a kit at hand answer it."""

from __future__ import annotations

import re

import pytest

from triage.model.book import Book

#: Beginnings of words that belong beside the main text (as ``term``), never in it.
JARGON = (
    "abiotic", "abort", "anaerob", "anthocyan", "apical", "asexual", "axil", "biotic", "calyx", "chloro", "conidi",
    "cortex", "cotyledon", "cultivar", "cuticle", "cyst", "defoliat", "desiccat", "epiderm", "epinast", "etiolat",
    "exudat", "exuvia", "foliar", "foliage", "frass", "fruiting bod", "girdl", "gutation", "guttation", "haemorr",
    "haustor", "honeydew", "hydathod", "hypha", "hypox", "inflorescence", "infest", "inocul", "instar", "internode",
    "interveinal", "intumesc", "lamina", "larva", "lesion", "lignif", "lodging", "marginal", "meristem", "methaem",
    "moult", "mummif", "mycel", "necro", "nematod", "nitrif", "nymph", "oedema", "edema", "ovipos", "pathogen",
    "pedicel", "pericarp", "petiole", "phloem", "photosynth", "phyto", "pinna", "pupa", "pustule", "pycnid",
    "reticulat", "rhizo", "savoy", "sclerot", "senesc", "sepal", "sp.", "spp.", "sporangi", "sporul", "stipple",
    "stippling", "stolon", "stoma", "stunting", "substrate", "suberi", "symptom", "systemic", "toxic", "truss",
    "turgid", "turgor", "vascular", "vector", "xylem",
)  # fmt: skip
#: First words of the Latin names that people meet in this trade.
LATIN = {
    "aculops", "agrotis", "albugo", "alternaria", "aphis", "autographa", "bemisia", "botrytis", "bradysia", "bremia",
    "cercospora", "chrysoperla", "cladosporium", "colletotrichum", "encarsia", "erwinia", "fulvia", "fusarium",
    "frankliniella", "liriomyza", "meloidogyne", "myzus", "neoseiulus", "peronospora", "phoma", "phytonemus",
    "phytophthora", "phytoseiulus", "pieris", "plasmodiophora", "plutella", "polyphagotarsonemus", "pseudomonas",
    "puccinia", "pythium", "rhizoctonia", "scatella", "sclerotinia", "septoria", "sciara", "tetranychus",
    "thielaviopsis", "trialeurodes", "trichoplusia", "verticillium", "xanthomonas",
}  # fmt: skip
LONGEST_WORD, LONGEST_QUESTION, LONGEST_ANSWER, LONGEST_HINT = 14, 17, 14, 30  # letters, then words


def texts_of(book: Book) -> dict[str, str]:
    """Every main text of a question series, by where it stands."""
    asked = {f"question {id_}: ask": question.ask for id_, question in book.questions.items()}
    asked |= {f"question {id_}: look": question.look for id_, question in book.questions.items() if question.look}
    answers = {f"finding {id_}: name": finding.name for id_, finding in book.findings.items()}
    return asked | answers | {f"finding {id_}: look": f.look for id_, f in book.findings.items() if f.look}


def test_no_jargon_in_what_is_asked(book: Book) -> None:
    texts = texts_of(book)
    assert len(texts) > 400
    wrong = {
        where: term
        for where, text in texts.items()
        for term in JARGON
        if re.search(rf"(?<![a-z]){re.escape(term)}", text.lower())
    }
    assert wrong == {}


def test_no_latin_in_what_is_asked(book: Book) -> None:
    said = {where: set(re.findall(r"[a-z]+", text.lower())) for where, text in texts_of(book).items()}
    assert {where: words & LATIN for where, words in said.items() if words & LATIN} == {}


def test_the_lists_find_what_the_technical_words_hold(book: Book) -> None:
    """The words beside the main text are where such words belong: there the lists find many."""
    terms = " ".join(finding.term for finding in book.findings.values()).lower()
    assert sum(bool(re.search(rf"(?<![a-z]){re.escape(term)}", terms)) for term in JARGON) > 20
    names = set(re.findall(r"[a-z]+", " ".join(cause.name for cause in book.causes.values()).lower()))
    assert len(names & LATIN) > 4


def test_words_and_sentences_are_short(book: Book) -> None:
    limits = {"ask": LONGEST_QUESTION, "name": LONGEST_ANSWER, "look": LONGEST_HINT}
    wrong = {}
    for where, text in texts_of(book).items():
        most = limits[where.rsplit(" ", 1)[1]]
        sentences = re.split(r"[.;?!](?: |$)", text)
        if max(len(sentence.split()) for sentence in sentences) > most:
            wrong[where] = text
        if any(len(part) > LONGEST_WORD for word in text.split() for part in word.split("-")):
            wrong[where] = text
    assert wrong == {}


def test_every_question_can_be_answered_beside_the_bed(book: Book) -> None:
    """No question waits for a laboratory; one that needs a lens, a pulled plant or a kit says so itself."""
    says = {
        "lens": r"\blens\b", "pull-root": r"\broots?\b", "test-kit": r"\b(tests?|kits?|pH|vinegar)\b",
        "glance": "", "close-look": "",
    }  # fmt: skip
    for question in book.questions.values():
        assert question.effort in says, question.question
        assert re.search(says[question.effort], f"{question.ask} {question.look}", re.IGNORECASE), question.question


@pytest.mark.parametrize("kind", ["ask", "look"])
def test_a_question_is_one_that_a_person_would_put(book: Book, kind: str) -> None:
    for question in book.questions.values():
        text = getattr(question, kind)
        assert (text.count("?") >= 1 and text[0].isupper()) if kind == "ask" else (not text or text[0].isupper())
        assert text == " ".join(text.split())
