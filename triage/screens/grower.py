"""A made-up grower who answers a question series from a written case: for the demo and for measuring the series."""

from __future__ import annotations

from ..model.case import Case
from ..report.case_report import QuestionLine
from . import wording
from .question import is_yes_or_no
from .series import Series


class WrittenGrower:
    """Answers from ``case`` what it says, "can't tell" where it is silent, and goes on after every warning."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.series: Series | None = None

    def ask(self, prompt: str) -> str:
        """The line this grower types at a prompt. Errors: EOFError before a series asks."""
        if self.series is None:
            raise EOFError
        if prompt in (wording.GO_ON_PROMPT, wording.WORDS_AGAIN):
            return ""
        if self.series.shown is not None:
            return self.choice(self.series.shown)
        told = {"crop": self.case.crop, "words": ". ".join(text.rstrip(".") for text in self.case.words)}
        return told.get(self.series.step.id, "")

    def choice(self, shown: QuestionLine) -> str:
        """The answer to one question."""
        numbered = list(enumerate((option.id for option in shown.options), start=1))
        sure = [str(number) for number, option in numbered if option in self.case.seen]
        perhaps = [f"{number}?" for number, option in numbered if option in self.case.unsure]
        picked = (sure or perhaps)[:1] if shown.pick == "one" or is_yes_or_no(shown) else sure + perhaps
        if picked:
            return " ".join(picked)
        absent = sum(option in self.case.absent for _, option in numbered)
        return "0" if 2 * absent > len(numbered) else "t"  # most of the list was looked for: so was the list
