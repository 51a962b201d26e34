"""What the engines give back: firings, suspects, responses."""

import msgspec

from .rule import Grade, Harm


class Out(msgspec.Struct, frozen=True, kw_only=True):
    """Base of outcomes."""


class Firing(Out, frozen=True, kw_only=True):
    """One rule that fired, with the facts it fired on (fact keys such as 'reading ph = 7.4')."""

    rule: str
    stage: str
    because: str
    facts: tuple[str, ...]  # readable keys of the facts; a conclusion's key is 'conclusion ID'
    conclude: str = ""
    sources: tuple[str, ...] = ()


class AlarmRaised(Out, frozen=True, kw_only=True):
    id: str
    say: str
    do: tuple[str, ...]
    because: tuple[str, ...]


#: Stands in the place of a rule's id where the grower's words as a whole moved a cause.
BY_WORDS = "words"


class Favoured(Out, frozen=True, kw_only=True):
    """A rule that moved the odds of a cause by a factor (below one: against)."""

    cause: str
    factor: float
    rule: str
    because: str


class Heard(Out, frozen=True, kw_only=True, omit_defaults=True):
    """A finding read from the grower's words; ``by_meaning``: they only mean something like it, so it is unsure."""

    words: str
    finding: str
    state: str  # seen | absent | unsure
    score: float
    by_meaning: bool = False


class Support(Out, frozen=True, kw_only=True):
    """What speaks for or against a suspect; bits > 0 speak for it."""

    what: str  # finding id, or rule id
    bits: float
    kind: str  # seen | absent | unsure | rule | crop | words


class Suspect(Out, frozen=True, kw_only=True):
    cause: str
    probability: float
    support: tuple[Support, ...]


class Together(Out, frozen=True, kw_only=True):
    causes: tuple[str, ...]
    probability: float


class NextQuestion(Out, frozen=True, kw_only=True):
    id: str
    why: str
    bits: float
    about: tuple[str, ...]  # causes it would tell apart


class Ranking(Out, frozen=True, kw_only=True):
    suspects: tuple[Suspect, ...]  # most likely first
    none_in_book: float
    together: tuple[Together, ...]
    unexplained: tuple[str, ...]


class HarmVerdict(Out, frozen=True, kw_only=True):
    """One of the harms, graded."""

    harm: Harm
    grade: Grade
    why: tuple[str, ...]
    quotient_as_sprayed: float | None = None
    quotient_spilled: float | None = None
    value_mg_l: float | None = None
    kind: str = ""  # LC50, EC50 …
    species: str = ""
    source: str = ""
    verified: str = ""
    printed: str = ""  # the value as its source prints it, with its unit and what was weighed
    relation: str = ""  # species: of the animal kept; group: of a near relative; any: of another animal
    counts_mg_l: float | None = None  # what is reckoned with, after the margins


class Exposure(Out, frozen=True, kw_only=True):
    as_sprayed_mg_l: float | None
    spilled_mg_l: float | None
    share_reaching_water: float
    volume_l: float | None
    of: str  # active | product | metal | element


class Verdict(Out, frozen=True, kw_only=True):
    """How a substance may be used around the animals kept."""

    substance: str
    grade: Grade
    why: tuple[str, ...]
    exposure: Exposure
    harms: tuple[HarmVerdict, ...]
    firings: tuple[Firing, ...] = ()


class Dose(Out, frozen=True, kw_only=True):
    """How much to add, in steps."""

    what: str
    grams: float
    low_grams: float
    high_grams: float
    steps: tuple[str, ...]
    note: str = ""
    days: int = 1  # the grams are split evenly over so many days


class Response(Out, frozen=True, kw_only=True):
    treatment: str
    name: str
    grade: Grade
    works_for: tuple[str, ...] = msgspec.field(name="for")  # cause ids
    why: tuple[str, ...]
    dose: Dose | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    harvest_wait_days: int | None
    sources: tuple[str, ...]


class Avoided(Out, frozen=True, kw_only=True):
    treatment: str
    name: str
    grade: Grade
    why: tuple[str, ...]
