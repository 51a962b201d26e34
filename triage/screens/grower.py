"""A made-up grower who answers a question series from a written case: for the demo and for measuring the series."""

from __future__ import annotations

from ..model.case import Case
from .series import Series


class WrittenGrower:
    """Answers from ``case`` what it says, and "can't tell" where it is silent."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.series: Series | None = None

    def ask(self, prompt: str) -> str:
        """The line this grower types at a prompt."""
        if self.series is None:
            raise EOFError
        if self.series.step.kind == "crop":
            return self.case.crop
        if self.series.step.kind == "words":
            return ". ".join(self.case.words)
        return self._choice()

    def _choice(self) -> str:
        shown = self.series.shown if self.series else None
        if shown is None:
            return "t"
        numbered = list(enumerate((option.id for option in shown.options), start=1))
        sure = [str(number) for number, option in numbered if option in self.case.seen]
        perhaps = [f"{number}?" for number, option in numbered if option in self.case.unsure]
        picked = (sure or perhaps)[:1] if shown.pick == "one" else sure + perhaps
        if picked:
            return " ".join(picked)
        known_absent = all(option in self.case.absent for _, option in numbered)
        return "0" if known_absent else "t"
