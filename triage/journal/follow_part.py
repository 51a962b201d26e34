"""The part of the journal that holds what became of a case: actions, later looks, what it turned out to be, its end."""

from __future__ import annotations

from collections.abc import Sequence

from . import actions, cases, outcomes, rechecks
from .part import Part
from .records import Closing, CorrectedAction, Outcome, OutcomeSaid, StoredAction, StoredRecheck, StoredReport


class FollowPart(Part):
    """Everything after the advice."""

    def record_action(self, case_id: int, what: str, on: str, note: str = "", *, treatment: str = "") -> int:
        """Keep what was done about a case, on which day; the number of the entry."""
        with self._database.write() as sql:
            return actions.record_action(sql, case_id, what, on, note, self._now(), treatment)

    def case_actions(self, case_id: int) -> tuple[StoredAction, ...]:
        """What was done about a case, by day; entries that were corrected are left out."""
        with self._database.read() as sql:
            return actions.list_actions(sql, case_id)

    def action_history(self, case_id: int) -> tuple[CorrectedAction, ...]:
        """Every entry of what was done, corrected and withdrawn ones too."""
        with self._database.read() as sql:
            return tuple(actions.action_history(sql, case_id))

    def correct_action(self, action_id: int, what: str, on: str, note: str = "", *, why: str = "") -> int:
        """Let another entry stand in for action number ``action_id``; the number of the new one."""
        with self._database.write() as sql:
            return actions.replace_action(sql, action_id, what, on, note, why, self._now())

    def withdraw_action(self, action_id: int, why: str = "") -> None:
        """Let an action no longer count; it stays in the history."""
        with self._database.write() as sql:
            actions.withdraw_action(sql, action_id, why, self._now())

    def begin_recheck(self, case_id: int, on: str) -> int:
        """Open another look at a finished case, or go on with one of the same day; its number.

        Its answers are recorded like those of the first look (``record_answer``).
        """
        with self._database.write() as sql:
            return rechecks.begin_recheck(sql, case_id, on, self._now())

    def finish_recheck(
        self, recheck_id: int, verdict: str, report_json: str, book_version: str, book_hash: str, *, summary: str = ""
    ) -> None:
        """Keep what the look gave and what followed from it."""
        with self._database.write() as sql:
            report = StoredReport(
                report=report_json, book_version=book_version, book_hash=book_hash, summary=summary, at=self._now()
            )
            rechecks.finish_recheck(sql, recheck_id, verdict, report)

    def case_rechecks(self, case_id: int) -> tuple[StoredRecheck, ...]:
        """Every later look at a case, the first one first."""
        with self._database.read() as sql:
            return rechecks.list_rechecks(sql, case_id)

    def last_looks(self, until: str) -> dict[int, str]:
        """The day of the last finished later look at each case, up to a day, by the number of the case."""
        with self._database.read() as sql:
            return rechecks.last_looks(sql, until)

    def record_outcome(self, case_id: int, causes: Sequence[str] | None, how: str, on: str) -> None:
        """Keep what a case turned out to be: causes, none (nothing of the book), or None (not known after all)."""
        with self._database.write() as sql:
            outcomes.record_outcome(sql, case_id, causes, how, on, self._now())

    def outcomes(self) -> dict[int, Outcome]:
        """What each case turned out to be, as far as anybody said, by its number."""
        with self._database.read() as sql:
            return outcomes.list_outcomes(sql)

    def case_outcome(self, case_id: int) -> Outcome | None:
        """What a case turned out to be, as last said; None if it is not known."""
        with self._database.read() as sql:
            return outcomes.case_outcome(sql, case_id)

    def outcome_history(self, case_id: int) -> tuple[OutcomeSaid, ...]:
        """Every entry of what a case turned out to be; the last one holds."""
        with self._database.read() as sql:
            return outcomes.outcome_history(sql, case_id)

    def close_case(self, case_id: int, outcome: str, note: str = "") -> None:
        """Keep how a case ended; closing it again corrects that."""
        with self._database.write() as sql:
            cases.close_case(sql, case_id, outcome, note, self._now())

    def case_closings(self, case_id: int) -> tuple[Closing, ...]:
        """How a case ended; the last entry holds."""
        with self._database.read() as sql:
            return cases.list_closings(sql, case_id)
