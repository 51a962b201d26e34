"""Which plants have it, as other looks of the same days tell."""

from __future__ import annotations

import msgspec
import pytest

from triage.model.book import Book
from triage.model.garden import Here, OtherLook
from triage.ranking.alike import close_look
from triage.report.case_report import Report
from triage.session import Session, Told

IRON = ("newest-leaves-first", "yellow-between-veins")


def a_look(number: int, crop: str, *seen: str, absent: tuple[str, ...] = (), passes_on: bool = False) -> OtherLook:
    return OtherLook(number=number, on="2026-05-01", crop=crop, seen=frozenset(seen), absent=frozenset(absent),
                     passes_on=passes_on)  # fmt: skip


def report_with(book: Book, *looks: OtherLook, seen: tuple[str, ...] = IRON, crop: str = "basil") -> Report:
    here = Here(looks=tuple(close_look(look, book.findings) for look in looks))
    session = Session(msgspec.structs.replace(book, here=here), on="2026-05-04")
    session.tell(Told(kind="crop", crop=crop))
    session.tell(Told(kind="finding", seen=seen))
    return session.look(with_responses=False)


def chance(report: Report, *causes: str) -> float:
    return sum(suspect.probability for suspect in report.suspects if suspect.cause in causes)


def test_the_same_on_another_crop_points_to_the_water(book: Book) -> None:
    """Growers' rule: one plant, look at the plant; all kinds at once, look at the water (common practice)."""
    alone = report_with(book)
    shared = report_with(book, a_look(3, "chard", *IRON))
    assert alone.from_journal == ()
    assert "chard (case 3, 2026-05-01)" in shared.from_journal[0]
    assert "water" in shared.from_journal[0]
    water = ("iron-deficiency", "iron-lockout-high-ph", "micronutrient-lockout-high-ph")
    assert chance(shared, *water) > chance(alone, *water)
    assert chance(shared, "downy-mildew") < chance(alone, "downy-mildew")


def test_it_is_the_same_as_if_the_grower_had_said_so(book: Book) -> None:
    told = report_with(book, seen=(*IRON, "many-crops-alike"))
    known = report_with(book, a_look(3, "chard", *IRON))
    found = [{s.cause: round(s.probability, 9) for s in report.suspects} for report in (told, known)]
    assert found[0] == found[1]
    assert "many-crops-alike" not in known.seen  # what was told stays what was told


def test_the_growers_own_answer_wins(book: Book) -> None:
    report = report_with(book, a_look(3, "chard", *IRON), seen=(*IRON, "one-plant-only"))
    assert report.from_journal == ()


def test_one_vague_symptom_in_common_is_not_the_same(book: Book) -> None:
    assert report_with(book, a_look(3, "chard", "newest-leaves-first")).from_journal == ()
    assert report_with(book, a_look(3, "chard", "wilting"), seen=(*IRON, "wilting")).from_journal == ()


@pytest.mark.parametrize(
    "look", [a_look(3, "chard", *IRON, "webbing"), a_look(3, "chard", *IRON, passes_on=True), a_look(3, "", *IRON)]
)
def test_the_same_creature_on_both_is_not_the_water(book: Book, look: OtherLook) -> None:
    assert report_with(book, look, seen=(*IRON, "webbing")).from_journal == ()


def test_sound_plants_of_the_kind_point_to_the_one(book: Book) -> None:
    sound = [a_look(n, "basil", absent=IRON) for n in (3, 4)]
    report = report_with(book, *sound)
    assert "points to this plant" in report.from_journal[0]
    assert "one-plant-among-sound-ones" in {conclusion.id for conclusion in report.conclusions}
    assert report_with(book, sound[0]).from_journal == ()  # one look is too few


def test_sound_neighbours_of_other_kinds_point_to_the_crop(book: Book) -> None:
    sound = [a_look(3, "chard", absent=IRON), a_look(4, "cucumber", absent=IRON)]
    assert "points to this kind of crop" in report_with(book, *sound).from_journal[0]


def test_what_nobody_looked_for_is_not_sound(book: Book) -> None:
    looks = [a_look(n, "basil", "leaf-spots") for n in (3, 4)]
    assert report_with(book, *looks).from_journal == ()
