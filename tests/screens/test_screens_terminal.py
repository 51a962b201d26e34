"""In a real terminal: nothing typed is lost by Ctrl-C, a killed process or a closed window; back, why, unsure."""

from __future__ import annotations

import os
import re
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pexpect
import pytest

from triage.journal import open_journal
from triage.screens import setup_words, wording

ROOT = Path(__file__).resolve().parents[2]
ESCAPE = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]|\x1b\][^\x07]*\x07|[\r\x00]")
Start = Callable[..., "Terminal"]


class Terminal:
    """The command in a pseudo-terminal, as a person sees it."""

    def __init__(self, home: Path, cache: Path, *words: str, columns: int = 80, **extra: str) -> None:
        environment = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "LINES", "NO_COLOR")}
        environment |= {"PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(cache), "TERM": "xterm-256color"} | extra
        self.child = pexpect.spawn(
            sys.executable, ["-m", "triage", *(words or ("plant",)), "--home", str(home)], env=environment,
            dimensions=(45, columns), encoding="utf-8", timeout=30,
        )  # fmt: skip
        self.seen = ""

    def until(self, words: str) -> str:
        """Wait for some words; what was shown since the last wait, without escapes."""
        self.child.expect_exact(words)
        shown = ESCAPE.sub("", str(self.child.before) + words)
        self.seen += shown
        return shown

    def type(self, *lines: str) -> None:
        """Type lines, each when a prompt is there."""
        for line in lines:
            self.child.sendline(line)

    def answer(self, prompt: str, line: str) -> str:
        """Wait for a prompt and type a line at it."""
        shown = self.until(prompt)
        self.type(line)
        return shown

    def end(self) -> tuple[str, int]:
        """Everything to the end, and the exit code (negative: the signal that ended it)."""
        self.child.expect(pexpect.EOF)
        self.child.close()
        shown = ESCAPE.sub("", str(self.child.before))
        return shown, -self.child.signalstatus if self.child.signalstatus else int(self.child.exitstatus or 0)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def start(home: Path, cache: Path) -> Iterator[Start]:
    """Start the command; whatever is left of it in the end is stopped."""
    begun: list[Terminal] = []

    def run(*words: str, **how: object) -> Terminal:
        begun.append(Terminal(home, cache, *words, **how))  # type: ignore[arg-type]
        return begun[-1]

    yield run
    for terminal in begun:
        terminal.child.close(force=True)


CROP = wording.CROP_PROMPT.format("")


def three_answers(start: Start) -> Terminal:
    """A series stopped at its fourth question."""
    terminal = start()
    terminal.answer(wording.PICK_ANY, "1")
    terminal.answer(CROP, "basil")
    terminal.answer(wording.WORDS_PROMPT, "webbing under the leaf")
    terminal.until(wording.WATER_PROMPT)
    return terminal


def kept(home: Path) -> list[tuple[str, str]]:
    """Questions and kinds of the answers in the journal of the last case."""
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        last = journal.list_cases(limit=1)[0]
        return [(answer.question, answer.kind) for answer in journal.load_case(last.id).answers]


THREE = [("fish-now", "finding"), ("crop", "crop"), ("words", "words")]


def test_ctrl_c_in_the_middle_loses_nothing_and_says_how_to_go_on(start: Start, home: Path) -> None:
    terminal = three_answers(start)
    terminal.child.sendintr()
    shown, code = terminal.end()
    assert wording.STOPPED in " ".join(shown.split())
    assert "Traceback" not in shown
    assert code == 130
    assert kept(home) == THREE


@pytest.mark.parametrize("signal_", [signal.SIGKILL, signal.SIGHUP, signal.SIGTERM])
def test_a_killed_series_loses_nothing_and_is_offered_again(start: Start, home: Path, signal_: signal.Signals) -> None:
    terminal = three_answers(start)
    terminal.child.kill(signal_)
    assert terminal.end()[1] == -signal_
    assert kept(home) == THREE
    again = start()
    shown = again.answer(wording.RESUME_PROMPT, "y")
    assert "look at basil today and stopped after 3 answers" in " ".join(shown.split())
    shown = again.answer(wording.WATER_PROMPT, "q")
    assert '- "webbing under the leaf"' in shown
    assert f"4. {wording.WATER_ASK}" in shown


def test_a_killed_process_loses_nothing_after_each_single_answer(start: Start, home: Path) -> None:
    lines = ((wording.PICK_ANY, "1"), (CROP, "basil"), (wording.WORDS_PROMPT, "webbing under the leaf"))
    for count, (prompt, line) in enumerate(lines, start=1):
        terminal = start()
        if count > 1:
            terminal.answer(wording.RESUME_PROMPT, "y")
        terminal.answer(prompt, line)
        terminal.until(lines[count][0] if count < len(lines) else wording.WATER_PROMPT)
        terminal.child.kill(signal.SIGKILL)
        terminal.end()
        assert kept(home) == THREE[:count]


def test_back_why_so_far_and_unsure(start: Start, home: Path) -> None:
    terminal = start()
    terminal.answer(wording.PICK_ANY, "1")
    terminal.answer(CROP, "w")
    terminal.answer(CROP, "b")
    terminal.answer(wording.PICK_ANY, "8?")
    terminal.answer(CROP, "s")
    terminal.answer(CROP, "k")
    shown, code = terminal.end()
    assert code == 0
    assert wording.ASK_BECAUSE["crop"] in terminal.seen
    assert "Taken back: fish look as always" in terminal.seen
    assert wording.ENDED["kept"] in shown
    assert kept(home) == [("fish-now", "finding")]


def test_a_whole_series_to_the_answer(start: Start, home: Path) -> None:
    terminal = three_answers(start)
    terminal.type("ph 6.8")
    terminal.answer(wording.PICK_ANY, "q")
    terminal.answer("> ", "1000 L")
    terminal.answer("> ", "tilapia")
    shown, code = terminal.end()
    assert code == 0
    for words in (wording.TITLES["one"], "Spider mites", wording.DO, "Saved as case 1"):
        assert words in shown
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        assert [reading.value for reading in journal.readings()] == [6.8]  # told in the series, kept with the others
        assert journal.load_system().animals == ("tilapia",)  # type: ignore[union-attr]


def test_after_an_alarm_the_fish_come_first(start: Start, home: Path) -> None:
    terminal = start()
    terminal.answer(wording.PICK_ANY, "2")
    shown = terminal.answer(wording.GO_ON_PROMPT, "k")
    assert wording.ALARM in shown
    assert terminal.end()[1] == 0
    assert kept(home) == [("fish-now", "finding")]


def test_an_end_of_input_is_no_error(start: Start) -> None:
    terminal = start()
    terminal.until(wording.PICK_ANY)
    terminal.child.sendeof()
    shown, code = terminal.end()
    assert wording.NOTHING_WAS_TOLD in " ".join(shown.split())
    assert code == 0


def test_arrow_keys_and_control_keys_type_nothing_strange(start: Start, home: Path) -> None:
    terminal = start()
    terminal.answer(wording.PICK_ANY, "1")
    terminal.answer(CROP, "xasil\x1b[D\x1b[D\x1b[D\x1b[D\x1b[D\x1b[3~b")  # back to the start, x deleted, b typed
    terminal.until(wording.WORDS_PROMPT)
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        assert journal.list_cases(limit=1)[0].crop == "basil"


def test_the_window_may_be_resized_between_two_questions(start: Start) -> None:
    terminal = start()
    terminal.until(wording.PICK_ANY)
    terminal.child.setwinsize(45, 40)
    terminal.type("h")
    terminal.type("1")
    terminal.answer(CROP, "s")
    help_ = terminal.seen.split(wording.HELP[0][:20])[1]
    assert max(map(len, help_.splitlines())) <= 40


@pytest.mark.parametrize("extra", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_plain_terminals_get_no_colour(start: Start, extra: dict[str, str]) -> None:
    terminal = start(columns=60, **extra)
    terminal.child.expect_exact(wording.PICK_ANY)
    raw = str(terminal.child.before)
    assert not re.search(r"\x1b\[[0-9;]*3[0-9]", raw)  # no colour; bold may stay where the terminal knows it
    assert "\x1b[1m" not in raw or extra.get("TERM") != "dumb"
    assert max(len(line) for line in ESCAPE.sub("", raw).splitlines()) <= 60


@pytest.mark.parametrize(("words", "extra"), [(("plant", "--plain"), {}), (("plant",), {"TRIAGE_PLAIN": "1"})])
def test_a_screen_that_is_read_aloud_has_no_colour_and_tells_pictures(
    start: Start, words: tuple[str, ...], extra: dict[str, str]
) -> None:
    terminal = start(*words, columns=200, **extra)
    for prompt, line in ((wording.PICK_ANY, "1"), (CROP, "basil"), (wording.WORDS_PROMPT, "the leaves are pale")):
        terminal.answer(prompt, line)
    terminal.answer(wording.WATER_PROMPT, "")
    for line in ("0", "0"):
        terminal.answer(wording.PICK_ANY, line)
    terminal.child.expect([wording.PICK_ONE, wording.PICK_ANY])
    raw = str(terminal.child.before)
    assert not re.search(r"\x1b\[[0-9;]*m|[▀▄]", raw)
    assert "so far:" not in raw
    terminal.type("p")
    terminal.child.expect([wording.PICK_ONE, wording.PICK_ANY])
    assert re.search(r"\n +1 .+\.", ESCAPE.sub("", str(terminal.child.before)))


def test_nothing_told_is_nothing_kept(start: Start, home: Path) -> None:
    terminal = start()
    terminal.answer(wording.PICK_ANY, "k")
    shown, code = terminal.end()
    assert wording.NOTHING_WAS_TOLD in " ".join(shown.split())
    assert wording.ENDED["kept"] not in shown
    assert code == 0
    again = start()
    again.until(wording.PICK_ANY)
    assert "Go on with that?" not in again.seen


def test_a_stopped_setup_keeps_what_was_answered(start: Start, home: Path) -> None:
    terminal = start("setup")
    terminal.answer("> ", "800 L")
    terminal.until("> ")
    terminal.child.sendintr()
    shown, code = terminal.end()
    assert setup_words.STOPPED in shown
    assert code == 130
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        assert journal.load_system().volume_l == 800  # type: ignore[union-attr]
