"""The watch list: which crops in which beds are at risk from what spreads, and when to look."""

from __future__ import annotations

import msgspec

from triage.followup.standing import Standing
from triage.followup.watching import Plot, at_risk, list_plots, list_watch
from triage.model.book import Book
from triage.model.garden import Bed, Plant

MITE = "two-spotted-spider-mite"
BEDS = (
    Bed(name="window", crops=("cucumber",), beside=("wall",)),
    Bed(name="wall", crops=("chard", "strawberry")),
    Bed(name="far", crops=("basil",)),
)


def a_case(number: int = 1, cause: str = MITE, **said: object) -> Standing:
    known = {"state": "finished", "crop": "cucumber", "bed": "window", "on": "2026-05-04", "last_look": "2026-05-04"}
    return Standing(number=number, suspects={cause: 0.9}, **(known | said))  # type: ignore[arg-type]


def plots(*cases: Standing, on: str = "2026-05-04") -> tuple[Plot, ...]:
    return list_plots(BEDS, (), (), cases, on)


def test_each_bed_is_watched_by_how_near_it_is(book: Book) -> None:
    case = a_case()
    lines = list_watch(book, [case], plots(case), "2026-05-04")
    assert {line.bed: line.near for line in lines} == {"window": "same", "wall": "beside", "far": "apart"}
    assert all(line.case == 1 and line.speed == "fast" and line.how for line in lines)


def test_what_keeps_to_one_family_threatens_only_that(book: Book) -> None:
    """Clubroot lives on the cabbage family alone (its `spreads` in the book)."""
    crops = at_risk(book, book.causes["clubroot"], ["pak-choi", "basil", "tomato", "kale"])
    assert {each.crop for each in crops} == {"pak-choi", "kale"}


def test_a_crop_that_does_not_get_it_is_not_at_risk(book: Book) -> None:
    for cause in book.causes.values():
        if cause.spreads is not None:
            immune = [crop for crop, word in cause.crops.items() if word == "not" and crop in book.crops]
            assert at_risk(book, cause, immune) == ()


def test_prone_crops_come_first(book: Book) -> None:
    cause = book.causes[MITE]
    words = [each.prone for each in at_risk(book, cause, book.crops)]
    assert words == sorted(words, key=("more", "", "less").index)
    assert "more" in words


def test_neighbours_are_due_at_once_and_then_every_few_days(book: Book) -> None:
    case = a_case(last_look="2026-05-06")
    every = int(book.margins["watch-days-fast"].value)
    lines = {line.bed: line for line in list_watch(book, [case], plots(case), "2026-05-10")}
    assert (lines["wall"].due, lines["wall"].late) == ("2026-05-04", 6)
    assert (lines["window"].due, lines["window"].every_days) == (f"2026-05-{6 + every:02d}", every)


def test_a_look_in_a_bed_counts_for_that_bed(book: Book) -> None:
    case = a_case()
    other = a_case(2, cause="iron-deficiency", crop="chard", bed="wall", on="2026-05-08", last_look="2026-05-08")
    lines = {line.bed: line.due for line in list_watch(book, [case, other], plots(case, other), "2026-05-09")}
    assert lines["wall"] == "2026-05-11"
    assert lines["far"] == "2026-05-04"


def test_neighbours_said_to_be_clean_are_looked_over_again_after_the_usual_days(book: Book) -> None:
    case = a_case(neighbours_on="2026-05-08")
    lines = {line.bed: line.due for line in list_watch(book, [case], plots(case), "2026-05-09")}
    assert lines == dict.fromkeys(("window", "wall", "far"), "2026-05-11")
    before = {line.bed: line.due for line in list_watch(book, [case], plots(case), "2026-05-07")}
    assert before["far"] == "2026-05-04"


def test_a_case_that_is_over_is_watched_a_while_longer(book: Book) -> None:
    days = int(book.margins["watch-after-closed"].value)
    case = a_case(state="closed")
    last = f"2026-05-{4 + days:02d}"
    assert all(line.over for line in list_watch(book, [case], plots(case), last))
    assert list_watch(book, [case], plots(case), last)
    assert list_watch(book, [case], plots(case), f"2026-05-{5 + days:02d}") == ()


def test_a_case_left_open_and_forgotten_is_no_longer_watched(book: Book) -> None:
    case = a_case(last_look="2026-05-04")
    assert list_watch(book, [case], plots(case), "2026-07-03")
    assert list_watch(book, [case], plots(case), "2026-07-04") == ()


def test_what_was_proven_decides(book: Book) -> None:
    assert list_watch(book, [a_case(proven=("iron-deficiency",))], plots(a_case()), "2026-05-05") == ()
    assert list_watch(book, [a_case(cause="iron-deficiency", proven=(MITE,))], plots(a_case()), "2026-05-05")


def test_a_mere_possibility_is_not_watched(book: Book) -> None:
    likely = book.margins["watch-from"].value
    for chance, watched in ((likely, True), (likely - 0.01, False)):
        case = msgspec.structs.replace(a_case(), suspects={MITE: chance})
        assert bool(list_watch(book, [case], plots(case), "2026-05-05")) is watched


def test_the_nearest_case_speaks_for_a_bed(book: Book) -> None:
    far = a_case(1, bed="far", crop="basil")
    near = a_case(2, bed="wall", crop="chard", on="2026-05-05", last_look="2026-05-05")
    lines = {line.bed: line.case for line in list_watch(book, [far, near], plots(far, near), "2026-05-06")}
    assert lines == {"window": 2, "wall": 2, "far": 1}


def test_without_beds_every_crop_is_watched_in_one_place(book: Book) -> None:
    case = a_case(bed="")
    (line,) = list_watch(book, [case], list_plots((), (), ("chard", "basil"), [case], "2026-05-04"), "2026-05-04")
    assert (line.bed, line.near) == ("", "")
    assert {each.crop for each in line.crops} == {"chard", "basil"}


def test_beds_hold_what_grows_in_them_that_day() -> None:
    plants = (
        Plant(name="row", bed="wall", crop="basil", planted="2026-06-01"),
        Plant(name="old", bed="wall", crop="kale", gone="2026-05-01"),
    )
    beds = (*BEDS, Bed(name="shed", crops=("mint",), gone="2026-04-01"))
    cases = [a_case(bed="shed", crop="mint"), a_case(bed="new", crop="pea")]
    found = {plot.name: plot.crops for plot in list_plots(beds, plants, (), cases, "2026-05-04")}
    assert found == {"window": ("cucumber",), "wall": ("chard", "strawberry"), "far": ("basil",), "new": ("pea",)}
    later = {plot.name: plot.crops for plot in list_plots(beds, plants, (), [], "2026-06-02")}
    assert later["wall"] == ("chard", "strawberry", "basil")
