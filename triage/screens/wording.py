"""Every fixed word a person sees, in one place, so that a translation can be added."""

from __future__ import annotations

from ..model.rule import Grade

GRADE_WORDS: dict[Grade, str] = {
    "ok": "fine around these animals",
    "keep-off-water": "keep it off the water",
    "away-from-system": "only on a plant carried away from the system",
    "never": "not with these animals, not anywhere near the system",
    "unknown": "unknown: treat as never until the label is read",
}
GRADE_TAGS: dict[Grade, str] = {
    "ok": "FINE",
    "keep-off-water": "KEEP OFF WATER",
    "away-from-system": "AWAY ONLY",
    "never": "NEVER",
    "unknown": "UNKNOWN",
}
NOT_HERE = "NOT HERE"
HARM_WORDS = {
    "fish": "Fish",
    "crustaceans": "Shrimp and crayfish",
    "filter": "Filter bacteria",
    "water": "The water itself",
    "people": "People and food",
}
SURE: tuple[tuple[float, str], ...] = ((0.85, "very likely"), (0.5, "likely"), (0.2, "possible"), (0.0, "less likely"))

ALARM = "Act on this before anything else"
HEARD = "What I understood"
UNREAD = "Not understood (nothing was thrown away; say it in other words)"
SUSPECTS = "What it most likely is"
NOTHING_FITS = "Nothing in this book explains it well"
SETTLE = "The one check that would settle it"
MISTAKEN = "Often taken for"
WATER = "What this week's water has to do with it"
NO_WATER = "No readings are known. pH and iron from a drop kit would help most."
DO = "What to do"
AVOID = "What not to use here"
RECOVER = "How it gets better"
TOGETHER = "Perhaps two things at once"
UNEXPLAINED = "Not explained by the leading causes"
CAUTIONS = "Please note"
NEXT = "One more look would help"
LABEL_FIRST = "The label and local law come first; nothing here permits what they forbid."
SAVED = "Saved as case {number}. Look at it again: triage case show {number}"

CANT_TELL = "can't tell"
NONE_OF_THESE = "none of these"
COMMANDS = "t can't tell · b back · w why do you ask · s show me so far · q enough, show me"


def sure_words(probability: float) -> str:
    """How sure, in words.

    >>> sure_words(0.93), sure_words(0.3)
    ('very likely', 'possible')
    """
    return next(words for limit, words in SURE if probability >= limit)
