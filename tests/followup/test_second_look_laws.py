"""Laws of a later look, over many made-up cases."""

from __future__ import annotations

import random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from triage.followup.done import Act, rhythm_of
from triage.followup.judge import works_against
from triage.followup.recovery import day_after, recovery_days
from triage.model.book import Book
from triage.reasoning import WORTH_TREATING, Engines
from triage.session import Session, Told

FAR = "2026-09-30"  # whatever was done in May had its time


def treated_pairs(book: Book) -> list[tuple[str, str]]:
    """Every remedy with a cause it works well or partly against."""
    return [
        (treatment.treatment, cause.cause)
        for treatment in book.treatments.values()
        for cause in book.causes.values()
        if works_against(treatment, cause) in ("well", "partly") and cause.status != "retired"
    ]


def often_enough(book: Book, treatment: str) -> list[Act]:
    times, every = rhythm_of(book.treatments[treatment])
    days = [day_after("2026-05-05", n * (every or 1)) for n in range(times or 1)]
    return [Act(what=treatment, on=day, treatment=treatment) for day in days]


def made_up(data: st.DataObject, book: Book, follow: Any, cause: str) -> Any:
    """A case that shows some of what the cause shows, and something else."""
    shows = sorted(book.causes[cause].shows)
    others = sorted(id_ for id_, finding in book.findings.items() if finding.by_itself != "not-otherwise")
    seen = set(data.draw(st.lists(st.sampled_from(shows), min_size=1, max_size=5)))
    seen |= set(data.draw(st.lists(st.sampled_from(others), max_size=2)))
    seen -= {other for one in seen for other in book.findings[one].excludes}
    return follow(data.draw(st.sampled_from(["basil", "cucumber", "chard"])), sorted(seen), "ph=6.6", "temperature=22")


@settings(max_examples=40)
@given(data=st.data())
def test_better_never_puts_what_was_treated_below_a_rival(follow: Any, data: st.DataObject) -> None:
    book: Book = follow.book
    treatment, cause = data.draw(st.sampled_from(treated_pairs(book)))
    case = made_up(data, book, follow, cause)
    said = ["better", *data.draw(st.sampled_from([[], ["new-leaves-better"], ["new-leaves-better", "no-more-plants"]]))]
    report = case.look(FAR, *said, acts=often_enough(book, treatment))
    before, after = case.before(), {suspect.cause: suspect.probability for suspect in report.suspects}
    for rival, chance in before.items():
        untreated = works_against(book.treatments[treatment], book.causes[rival]) is None
        if untreated and chance <= before.get(cause, 0.0):
            assert after.get(rival, 0.0) <= after.get(cause, 0.0) + 1e-9, (treatment, cause, rival)


@settings(max_examples=25)
@given(data=st.data())
def test_better_never_lowers_what_alone_was_treated(follow: Any, data: st.DataObject) -> None:
    book: Book = follow.book
    treatment, cause = data.draw(st.sampled_from(treated_pairs(book)))
    only = [c for c in book.causes.values() if works_against(book.treatments[treatment], c) in ("well", "partly")]
    case = made_up(data, book, follow, cause)
    after = {s.cause: s.probability for s in case.look(FAR, "better", acts=often_enough(book, treatment)).suspects}
    if len(only) == 1:
        assert after.get(cause, 0.0) >= case.before().get(cause, 0.0) - 1e-9


@settings(max_examples=25)
@given(data=st.data())
def test_a_remedy_that_failed_is_never_offered_again(follow: Any, data: st.DataObject) -> None:
    book: Book = follow.book
    treatment, cause = data.draw(st.sampled_from(treated_pairs(book)))
    case = made_up(data, book, follow, cause)
    report = case.look(FAR, data.draw(st.sampled_from(["same", "worse"])), acts=often_enough(book, treatment))
    assert [line.treatment for line in report.not_again] == [treatment]
    assert treatment not in {response.treatment for response in report.now.responses}


def test_a_remedy_that_failed_is_set_aside_though_nothing_is_likely(follow: Any) -> None:
    """Few and vague signs: no cause is worth treating for its own sake, and there are responses all the same."""
    case = follow("basil", ["cold-nights-hot-days", "dark-green-leaves", "pruned-lately"], "ph=6.6", "temperature=22")
    report = case.look(FAR, "same", acts=often_enough(follow.book, "leave-alone"))
    assert max(case.before().values()) < WORTH_TREATING
    assert report.now.responses
    assert [line.treatment for line in report.not_again] == ["leave-alone"]


@settings(max_examples=20)
@given(data=st.data())
def test_too_early_moves_nothing(follow: Any, data: st.DataObject) -> None:
    book: Book = follow.book
    treatment, cause = data.draw(st.sampled_from(treated_pairs(book)))
    case = made_up(data, book, follow, cause)
    report = case.look("2026-05-06", "same", acts=[Act(what=treatment, on="2026-05-05", treatment=treatment)])
    before = {id_: chance for id_, chance in case.before().items() if chance > 0.01}
    # What should be better within a day had its time, and what it loses the others gain, however unlikely it was.
    remedy = book.treatments[treatment]
    had_time = [c for c in book.causes.values() if works_against(remedy, c) and recovery_days(book, c, None) <= 1]
    if report.too_early and not had_time:
        after = {suspect.cause: suspect.probability for suspect in report.suspects}
        assert all(abs(after.get(id_, 0.0) - chance) < 1e-9 for id_, chance in before.items())


@settings(max_examples=15)
@given(seed=st.integers(0, 10**6), verdict=st.sampled_from(["better", "same", "worse"]))
def test_the_order_of_answers_does_not_matter(iron: Any, seed: int, verdict: str) -> None:
    from triage.followup.second_look import Earlier, SecondLook

    book: Book = iron.book
    acts = (Act(what="iron", on="2026-05-05", treatment="iron-chelate-dtpa"),)
    earlier = Earlier(number=1, told=iron.case, acts=acts, suspects=iron.before())
    roles = [verdict, "no-more-plants", "new-leaves-better" if verdict == "better" else "new-leaves-as-before"]
    told = [Told(kind="finding", seen=(book.roles[role].finding,)) for role in roles]  # type: ignore[index]
    told += [Told(kind="finding", absent=("webbing",)), Told(kind="finding", seen=("roots-white-healthy",))]
    reports = []
    for order in (told, random.Random(seed).sample(told, len(told))):
        look = SecondLook(book, earlier, iron.readings, on="2026-05-18")
        engines = Engines(look.book)
        session = Session(look.book, on="2026-05-18", readings=look.readings, engines=engines)
        begins = look.begins_with
        session.tell(Told(kind="finding", seen=tuple(begins.seen), absent=tuple(begins.absent)))
        for one in order:
            session.tell(one)
        reports.append(look.report(session.case, engines))
    assert reports[0] == reports[1]
