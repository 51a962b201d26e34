"""The same cases in other books: without the right cause, and with every frequency word a step up or down."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import msgspec
from accuracy_cases import Vignette, case_of, right_ones
from accuracy_scores import Row, nothing_leads, score_ranking, share

from triage.model.cause import Cause
from triage.model.odds import FREQUENCY_WORDS
from triage.reasoning import Engines, closed
from triage.session import session_from_case

#: Without the right cause no other should be said to be likelier than this.
TOO_SURE = 0.6
STEPS = {"one word rarer": 1, "one word oftener": -1}


def rank_case(vignette: Vignette, engines: Engines, mode: str) -> Row:
    """The case ranked with this book."""
    session = session_from_case(engines.book, case_of(vignette, engines.book, mode), engines)
    report = session.look(with_question=False, with_responses=False)
    ranked = [(suspect.cause, suspect.probability) for suspect in report.suspects]
    heard = [f"{h.finding}{'' if h.state == 'seen' else ' ' + h.state}" for h in report.read_words]
    row = score_ranking(vignette, ranked, report.none_in_book)
    return row | {
        "heard": heard,
        "unread": list(report.unread_words),
        "seen": closed(session.case, engines.book)[0].seen,
    }


def hearing(vignette: Vignette, engines: Engines, words: Row) -> Row:
    """What was heard as seen in the words of a case, beside what is ticked (see ``summarise_hearing``)."""
    ticked = closed(case_of(vignette, engines.book, "coded"), engines.book)[0]
    return {"heard-seen": words["seen"], "ticked": ticked.seen, "fair": ticked.seen | ticked.unsure}


def without(engines: Engines, dropped: Collection[str]) -> Engines:
    """The engines over the same book without some causes; rules and words read so far are shared."""
    return _over(engines, {id_: cause for id_, cause in engines.book.causes.items() if id_ not in dropped})


def stepped(engines: Engines, step: int) -> Engines:
    """The engines over a book whose causes all use the next frequency word: 1 rarer, -1 oftener (ends stay)."""
    return _over(engines, {id_: _stepped(cause, step) for id_, cause in engines.book.causes.items()})


def _stepped(cause: Cause, step: int) -> Cause:
    last = len(FREQUENCY_WORDS) - 1
    places = {finding: FREQUENCY_WORDS.index(word) + step for finding, word in cause.shows.items()}
    shows = {finding: FREQUENCY_WORDS[min(max(place, 0), last)] for finding, place in places.items()}
    return msgspec.structs.replace(cause, shows=shows)


def _over(engines: Engines, causes: dict[str, Cause]) -> Engines:
    other = Engines(msgspec.structs.replace(engines.book, causes=causes))
    other.rules, other.hearing = engines.rules, engines.hearing
    return other


def rank_without_right(vignette: Vignette, engines: Engines, mode: str) -> Row:
    """The case in the book without the cause that its source gives (``alike``: without those it accepts, too)."""
    row = rank_case(vignette, without(engines, {vignette["expected"]}), mode)
    alike = rank_case(vignette, without(engines, right_ones(vignette)), mode) if vignette["acceptable"] else row
    return row | {"alike": alike["first"]}


def summarise_dropped(rows: Sequence[Row]) -> dict[str, float]:
    """How often no other cause is too sure, and how often 'nothing in the book' leads, as it should."""
    return {
        "cases": len(rows),
        "no other above 0.6": share(rows, lambda row: row["first"] <= TOO_SURE),
        "nor look-alikes accepted": share(rows, lambda row: row["alike"] <= TOO_SURE),
        "none leads": share(rows, nothing_leads),
    }
