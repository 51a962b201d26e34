"""Anything one can look for, and the questions that ask for it."""

from typing import Literal

from .odds import ByItself
from .record import Record, Status

FindingKind = Literal["symptom", "sign", "behaviour", "condition", "change"]
Effort = Literal["glance", "close-look", "lens", "pull-root", "test-kit", "laboratory"]
Place = Literal["whole-plant", "leaf", "underside", "stem", "root", "flower-fruit", "bed", "water", "fish", "lately"]
State = Literal["seen", "absent", "unsure"]


class Finding(Record, frozen=True, kw_only=True):
    """One thing to look for, in everyday words with the technical term beside it."""

    finding: str
    kind: FindingKind
    name: str
    place: Place
    term: str = ""
    look: str = ""
    effort: Effort = "glance"
    by_itself: ByItself = "seldom"
    phrases: list[str] = []  # a/b in a phrase: either word
    denials: list[str] = []  # ways to say that it is absent, beside "no" and "not" before a phrase
    implies: list[str] = []
    excludes: list[str] = []
    sources: list[str]
    status: Status = "reviewed"


class Question(Record, frozen=True, kw_only=True):
    """A question whose answers are findings.

    ``pick: one`` means that the answer is one piece of evidence (the option chosen is seen, the others are set
    aside); ``pick: any`` records each option as seen or absent. ``after`` lists findings of which one must be seen
    before the question makes sense; ``for_crops`` limits it to crop ids or kinds.
    """

    question: str
    ask: str
    pick: Literal["one", "any"]
    options: list[str]
    place: Place
    effort: Effort = "glance"
    look: str = ""
    after: list[str] = []
    for_crops: list[str] = []
    sources: list[str] = []
