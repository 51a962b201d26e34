"""Phrases and runs as lines of text and back: a line is only taken apart when its word stands in a text."""

from __future__ import annotations

from collections.abc import Iterable

from ..model.speech import Phrase, Run

#: A phrase of so many words may be understood with one of them missing.
PARTIAL = 3


def pack_phrases(phrases: Iterable[Phrase]) -> str:
    """One line a phrase."""
    return "\n".join(f"{p.finding}|{' '.join(p.needs)}|{' '.join(p.lean)}|{p.weight}|{_flags(p)}" for p in phrases)


def _flags(phrase: Phrase) -> str:
    return "a" * phrase.absent + "s" * phrase.spans + "h" * phrase.hint


def unpack_phrases(text: str) -> list[Phrase]:
    """The phrases of packed lines.

    >>> unpack_phrases(pack_phrases([Phrase("wilting", ("wilt",), ("plant",), 1.5)]))[0].needs
    ('wilt',)
    """
    return [_phrase(*line.split("|")) for line in text.splitlines()]


def _phrase(finding: str, needs: str, lean: str, weight: str, flags: str) -> Phrase:
    spoken = tuple(needs.split()), tuple(lean.split())
    return Phrase(finding, *spoken, float(weight), "a" in flags, "s" in flags, "h" in flags)


def pack_runs(runs: Iterable[Run]) -> str:
    """One line a run."""
    return "\n".join(f"{' '.join(run.words)}|{' '.join(run.meant)}|{'gap' if run.gap else ''}" for run in runs)


def unpack_runs(text: str) -> list[Run]:
    """The runs of packed lines.

    >>> unpack_runs("fine web|web|")
    [Run(words=('fine', 'web'), meant=('web',), gap=False)]
    """
    return [_run(*line.split("|")) for line in text.splitlines()]


def _run(words: str, meant: str, gap: str) -> Run:
    return Run(tuple(words.split()), tuple(meant.split()), bool(gap))
