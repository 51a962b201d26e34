"""What the journal keeps of a report."""

from __future__ import annotations

import msgspec

from triage.model.book import Book
from triage.report.case_report import Report, report_as_data
from triage.report.keeping import KEPT_ALWAYS, KEPT_FROM, encode_kept
from triage.session import Session, Told


def test_only_the_long_tail_is_left_out(book: Book) -> None:
    session = Session(book, on="2026-05-04")
    session.tell(Told(kind="finding", seen=("webbing", "pale-stippling")))
    report = session.look()
    kept = msgspec.json.decode(encode_kept(report), type=Report)
    whole = report_as_data(report)
    again = report_as_data(kept)
    count = len(kept.suspects)
    assert count >= KEPT_ALWAYS
    assert again["suspects"] == whole["suspects"][:count]
    assert all(suspect["probability"] < KEPT_FROM for suspect in whole["suspects"][count:])
    assert {key: value for key, value in again.items() if key != "suspects"} == {
        key: value for key, value in whole.items() if key != "suspects"
    }
    assert len(encode_kept(report)) < len(msgspec.json.encode(whole)) * 2 / 3
