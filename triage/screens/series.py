"""The question series beside the plant: fish first, then crop, own words, water, what changed, then one at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from rich.console import Console

from ..errors import UsageError
from ..intake import clean_text
from ..model.outcome import NextQuestion
from ..report.build import age_days
from ..report.case_report import QuestionLine, Report
from ..report.names import Names
from ..session import Session, Told
from . import wording
from .alarms import render_alarms
from .beside import pictures_for, pictures_on_request, whisper
from .question import is_yes_or_no, nothing_typed, parse_answer, prompt_of, shortened, show_question
from .standing import render_so_far
from .style import columns, heading, line
from .telling import ask_openly, hear_instead

Ask = Callable[[str], str]  # shows a prompt, gives the typed line; raises EOFError when nobody answers any more

LONGEST = 15  # questions; nobody enjoys more beside a plant
UNSEEN = 4  # "can't tell" so often in a row means that looking does not help any more
CHANGES = 2  # lists of what changed lately that are always asked; others only when they are worth it
BY_ITSELF = ("settled", "nothing", "test", "time")  # why a series ends of its own accord, with no question left
WEEK = 7  # days for which a reading stands for the water of today


class Leave(Exception):
    """The grower has had enough (``why`` is a key of ``wording.ENDED``)."""

    def __init__(self, why: str) -> None:
        self.why = why
        super().__init__(why)


class Back(Exception):
    """The grower wants the question before again."""


class Series:
    """Drives one Session with a console and somebody who answers.

    ``record`` is called with everything told the moment it is told, ``forget`` when it is taken back. After ``run``,
    ``ended`` says why it ended (a key of ``wording.ENDED``).
    """

    intro = True

    def __init__(
        self, session: Session, console: Console, ask: Ask, *, record: Callable[[Told], object],
        forget: Callable[[], object],
    ) -> None:  # fmt: skip
        self.session = session
        self.console = console
        self.ask = ask
        self.record = record
        self.forget = forget
        self.names = Names(session.book)
        self.chances: Mapping[str, float] = {}  # of every cause, before the answer to a question that was chosen
        self.step = NextQuestion(id="", why="", bits=0.0, about=())  # what is being asked just now
        self.shown: QuestionLine | None = None  # the question of the book being asked just now
        self.ended = ""
        self._warned: set[str] = set()

    def run(self) -> Report:
        """Ask until it is settled, nothing is worth asking, or the grower has had enough; then the report.

        It names a next question only where the series ended before that was worth asking no more.
        """
        if self.intro:
            line(self.console, (wording.INTRO, "triage.quiet"), indent=0)
        if self.session.told:  # alarms of a resumed series were shown before
            self._warned = {alarm.id for alarm in self.session.alarms()}
        while not self.ended:
            try:
                self.ended = self._once()
            except Back:
                self._back()
            except Leave as leave:
                self.ended = leave.why
            except EOFError:
                self.ended = "gone"
        if wording.ENDED[self.ended] and self.session.told:
            self.console.print()
            line(self.console, wording.ENDED[self.ended], indent=0)
        return self.report()

    def report(self) -> Report:
        """Everything told, looked at once more."""
        return self.session.look(with_question=self.ended not in BY_ITSELF)

    def _once(self) -> str:
        """Ask one thing; why the series ends, or '' while it goes on."""
        step = self._opening_step()
        if step is None:
            standing = self.session.standing()
            self.chances, step = standing.chances, standing.question
            if step is None:
                return standing.why_none
            if why := self._why_enough():
                return why
        self.step, self.shown = step, None
        if step.id in self.session.book.questions:
            self._question(self.session.question_line(step))
        else:
            ask_openly(self, step.id)
        self._warn()
        return ""

    # -- which step ------------------------------------------------------------------------------------------------

    def _opening_step(self) -> NextQuestion | None:
        """What everybody is asked first, one after another; None when all of it was asked."""
        asked = {told.question for told in self.session.told}
        for id_ in self._opening():
            if id_ not in asked:
                step = NextQuestion(id=id_, why="", bits=0.0, about=())
                if id_ not in self.session.book.questions or self.session.question_line(step).options:
                    return step
        return None

    def _opening(self) -> Iterator[str]:
        questions = [q for q in self.session.book.questions.values() if not q.after]
        yield from (q.question for q in questions if q.place == "fish")
        yield from ("crop", "words")
        if not any(0 <= (age_days(r.on, self.session.on) or 0) <= WEEK for r in self.session.readings):
            yield "readings"
        yield from [q.question for q in questions if q.place == "lately"][:CHANGES]

    @property
    def number(self) -> int:
        """The number of the question being asked, counted from one."""
        return len({told.question for told in self.session.told if told.question}) + 1

    def _why_enough(self) -> str:
        """Why no further question is put, though one would tell something; '' if it is put."""
        opening = {*self._opening(), "readings"}
        last = [told.kind for told in self.session.told if told.question and told.question not in opening][-UNSEEN:]
        if last == ["cant-tell"] * UNSEEN:
            return "unseen"
        return "long" if self.number > LONGEST else ""

    # -- one step --------------------------------------------------------------------------------------------------

    def tell(self, told: Told) -> None:
        """Take and keep one thing told."""
        self.session.tell(told)
        self.record(told)

    def _back(self) -> None:
        told = self.session.undo()
        if told is None:
            line(self.console, wording.FIRST_QUESTION, indent=0)
        else:
            self.forget()
            line(self.console, wording.TAKEN_BACK.format(said_again(told, self.names)), indent=0)

    def _question(self, shown: QuestionLine) -> None:
        self.shown = shown
        self.show(shown)
        wide = columns(self.console)
        while True:
            typed = self.typed(prompt_of(shown))
            if not typed and columns(self.console) != wide:  # the window was resized: once more, as it fits now
                self.show(shown)
                wide = columns(self.console)
            elif not typed:
                line(self.console, nothing_typed(shown))
            elif typed.lower() in wording.KEYS["can't tell"]:
                self.tell(Told(kind="cant-tell", question=shown.id))
                return
            elif self._take(typed, shown):
                return

    def title(self, ask: str, look: str = "") -> None:
        """Put a question that is answered in words."""
        heading(self.console, ask, bullet=f"{self.number}.")
        if look:
            line(self.console, (look, "triage.quiet"))

    def show(self, shown: QuestionLine) -> None:
        """Put a question of the book, and quietly beside it what may help."""
        show_question(shown, self.console, self.number)
        pictures_for(shown, self.session.case.crop, self.console, self.session.book)
        if self.step.bits:
            whisper(self.chances, self.names, self.console)

    def _take(self, typed: str, shown: QuestionLine) -> bool:
        """Take an answer in numbers or in words; False if it answers nothing."""
        try:
            seen, unsure = parse_answer(typed, shown)
        except UsageError as error:
            heard = hear_instead(self, typed, shown)
            if heard is None:
                line(self.console, str(error))
            return heard == shown.id
        if typed[0].isalpha() and not is_yes_or_no(shown):
            said = [wording.inside(option.name) for option in shown.options if option.id in (*seen, *unsure)]
            said = said or [wording.NONE_OF_THESE]
            line(self.console, wording.CROP_TAKEN.format("; ".join(said)))
        offered = [option.id for option in shown.options]
        self.tell(self.session.answered(shown.id, seen, unsure=unsure, offered=offered))
        return True

    def _warn(self) -> None:
        """Say at once what cannot wait, and ask whether to go on."""
        new = [alarm for alarm in self.session.alarms() if alarm.id not in self._warned]
        if not new:
            return
        self._warned |= {alarm.id for alarm in new}
        render_alarms(new, self.console)
        self.console.print()
        line(self.console, wording.GO_ON, indent=0)
        while (typed := self.typed(wording.GO_ON_PROMPT).lower()) not in ("", *wording.KEYS["yes"]):
            if typed in wording.KEYS["no"]:
                raise Leave("enough")
            line(self.console, wording.GO_ON_HELP, indent=0)

    # -- what is typed ---------------------------------------------------------------------------------------------

    def typed(self, prompt: str) -> str:
        """What was typed; what may be typed at any prompt is dealt with here."""
        while True:
            typed = clean_text(self.ask(prompt))
            word = typed.lower()
            if word in wording.KEYS["enough"]:
                raise Leave("enough")
            if word in wording.KEYS["keep"]:
                raise Leave("kept")
            if word in wording.KEYS["back"]:
                raise Back
            if word in wording.KEYS["why"]:
                line(self.console, self._because())
            elif word in wording.KEYS["so far"]:
                render_so_far(self.session.look(with_question=False, with_responses=False), self.console)
            elif word in wording.KEYS["pictures"]:
                pictures_on_request(self.shown, self.session.case.crop, self.console, self.session.book)
            elif word in wording.KEYS["help"]:
                for words in wording.HELP:
                    line(self.console, words)
            else:
                return typed

    def _because(self) -> str:
        """Why this is asked."""
        about = [wording.inside(self.names[cause]) for cause in self.step.about]
        if len(about) > 1:
            return wording.TELLS_APART.format("; ".join(about))
        if about:
            return wording.TELLS_WHETHER.format(about[0])
        place = self.session.book.questions[self.step.id].place if self.shown else self.step.id
        return wording.ASK_BECAUSE.get(place, wording.ASK_BECAUSE[""])


def said_again(told: Told, names: Mapping[str, str]) -> str:
    """One thing told, as it was told, short."""
    if told.kind == "crop":
        return wording.inside(names.get(told.crop, told.crop))
    if told.kind == "words":
        return f'"{shortened(told.text, 60)}"'
    if told.kind == "cant-tell":
        return wording.CANT_TELL
    seen = [wording.inside(names.get(finding, finding)) for finding in told.seen]
    unsure = [wording.STATES["unsure"].format(wording.inside(names.get(finding, finding))) for finding in told.unsure]
    return "; ".join([*seen, *unsure]) or wording.NONE_OF_THESE


__all__ = ["Ask", "Back", "Leave", "Series", "said_again"]
