"""The question series beside the plant: fish first, then crop, own words, what changed, then one question at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from rich.console import Console

from ..book.casefile import find_named
from ..errors import UsageError
from ..intake import clean_text
from ..model.finding import Question
from ..report.build import names_of
from ..report.case_report import QuestionLine, Report
from ..session import Session, Told
from . import wording
from .answer import render_alarms, render_answer
from .style import heading, line

Ask = Callable[[str], str]  # shows a prompt, gives the typed line; raises EOFError when nobody answers any more


class Stop(Exception):
    """The grower has had enough questions."""


class Back(Exception):
    """The grower wants the question before again."""


@dataclass(frozen=True)
class Step:
    """One thing to ask: a question of the book, the crop, or words."""

    kind: str  # question | crop | words
    question: str = ""


class Series:
    """Drives one Session with a console and somebody who answers.

    ``record`` is called with everything told the moment it is told, ``forget`` when it is taken back.
    """

    def __init__(
        self, session: Session, console: Console, ask: Ask, *, record: Callable[[Told], object],
        forget: Callable[[], object], numbers: bool = False,
    ) -> None:  # fmt: skip
        self.session = session
        self.console = console
        self.ask = ask
        self.record = record
        self.forget = forget
        self.numbers = numbers
        self.names = names_of(session.book)
        self.step = Step("question")  # what is being asked just now
        self.shown: QuestionLine | None = None

    def run(self) -> Report:
        """Ask until it is settled, nothing is worth asking, or the grower has had enough; then the report."""
        line(self.console, (wording.COMMANDS, "triage.quiet"), indent=0)
        done = len(self.session.told)  # a resumed series goes on where it stopped
        try:
            while (step := self._next_step()) is not None:
                try:
                    self._take(step)
                except Back:
                    self._back()
        except (Stop, EOFError):
            pass
        if len(self.session.told) == done:
            line(self.console, "Nothing was told.", indent=0)
        return self.session.look()

    # -- which step ------------------------------------------------------------------------------------------------

    def _next_step(self) -> Step | None:
        told = self.session.told
        asked = {answer.question for answer in told}
        for step in self._opening():
            if step.kind == "question" and step.question not in asked:
                return step
            if step.kind in ("crop", "words") and not any(answer.question == step.kind for answer in told):
                return step
        question = self.session.next_question()
        return Step("question", question.id) if question is not None else None

    def _opening(self) -> Iterator[Step]:
        questions = self.session.book.questions.values()
        yield from (Step("question", q.question) for q in questions if q.place == "fish" and not q.after)
        yield Step("crop")
        yield Step("words")
        yield from (Step("question", q.question) for q in questions if q.place == "lately" and not q.after)

    # -- one step --------------------------------------------------------------------------------------------------

    def _take(self, step: Step) -> None:
        self.step = step
        if step.kind == "crop":
            self._crop()
        elif step.kind == "words":
            self._words()
        else:
            self._question(self.session.book.questions[step.question])

    def _tell(self, told: Told) -> None:
        self.session.tell(told)
        self.record(told)

    def _back(self) -> None:
        if self.session.undo() is None:
            line(self.console, "This is the first question.", indent=0)
        else:
            self.forget()

    def _crop(self) -> None:
        heading(self.console, "Which plant is it?")
        crops = self.session.book.crops
        while True:
            typed = self._typed("Name of the crop, or Enter if it is not a crop: ")
            found = find_named(typed, crops) if typed else ""
            if found is not None:
                self._tell(Told(kind="crop" if found else "cant-tell", question="crop", crop=found))
                return
            line(self.console, f"'{typed}' is not in the book; try another name, or press Enter to go on without.")

    def _words(self) -> None:
        heading(self.console, "What do you see? Tell it in your own words.")
        typed = self._typed("Your words, or Enter to be asked instead: ")
        self._tell(Told(kind="words", question="words", text=typed))
        if not typed:
            return
        heard, unread = self.session.understood(typed)
        for item in heard:
            state = {"seen": "", "absent": "not there: ", "unsure": "perhaps: "}[item.state]
            line(self.console, f"I understood: {state}{self.names.get(item.finding, item.finding)}")
        for words in unread:
            line(self.console, f'Not understood: "{words}"')

    def _question(self, question: Question) -> None:
        shown = self.session.question_line(question.question)
        self.shown = shown
        self._show(shown)
        while True:
            typed = self._typed("Your answer: ")
            if typed == "w":
                line(self.console, shown.why or "It is asked of every plant, because it decides more than leaf detail.")
            elif typed == "s":
                render_answer(self.session.look(), self.console, self.names, numbers=self.numbers)
            elif typed == "t":
                self._tell(Told(kind="cant-tell", question=question.question))
                return
            else:
                try:
                    chosen, unsure = parse_choice(typed, len(shown.options), one=shown.pick == "one")
                except UsageError as error:
                    line(self.console, str(error))
                    continue
                options = [option.id for option in shown.options]
                told = self.session.answer(
                    question.question, [options[n] for n in chosen], unsure=[options[n] for n in unsure]
                )
                self.record(told)
                self._alarm(question)
                return

    def _alarm(self, question: Question) -> None:
        if question.place == "fish":
            report = self.session.look(with_responses=False)
            render_alarms(report, self.console)

    def _show(self, shown: QuestionLine) -> None:
        heading(self.console, shown.ask)
        if shown.look:
            line(self.console, (shown.look, "triage.quiet"))
        for number, option in enumerate(shown.options, start=1):
            line(self.console, option.name, bullet=f"{number:>2}")
        line(self.console, wording.NONE_OF_THESE, bullet=" 0")
        line(self.console, wording.CANT_TELL, bullet=" t")

    def _typed(self, prompt: str) -> str:
        typed = clean_text(self.ask(prompt))
        if typed.lower() in ("q", "quit", "enough"):
            raise Stop
        if typed.lower() in ("b", "back"):
            raise Back
        return typed.lower() if typed.lower() in ("t", "w", "s") else typed


def parse_choice(typed: str, options: int, *, one: bool) -> tuple[list[int], list[int]]:
    """Option numbers typed → (chosen, unsure), counted from zero. '2?' means not sure, '0' none of these.

    Errors: UsageError that says what is allowed.

    >>> parse_choice("1, 3?", 4, one=False)
    ([0], [2])
    """
    allowed = f"a number from 0 to {options}" + ("" if one else ", or several (1 3)") + "; 2? if not sure; t can't tell"
    chosen: list[int] = []
    unsure: list[int] = []
    words = typed.replace(",", " ").split()
    for word in words:
        number = word.removesuffix("?")
        if not number.isdecimal() or int(number) > options:
            raise UsageError(f"'{word}' is no answer here (allowed: {allowed})")
        if int(number):
            (unsure if word.endswith("?") else chosen).append(int(number) - 1)
    if not words or (one and len(words) > 1) or ("0" in words and len(words) > 1):
        raise UsageError(f"please give one answer (allowed: {allowed})" if words else f"allowed: {allowed}")
    return list(dict.fromkeys(chosen)), [number for number in dict.fromkeys(unsure) if number not in chosen]
