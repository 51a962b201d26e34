"""Every fixed word about sprays that a person sees."""

from __future__ import annotations

from ..model.rule import Grade

COVERS = {
    "none": "over open water", "covered": "the water covered", "moved": "the plant carried away and rinsed",
    "drench": "poured where it drains to the fish", "returned": "carried away, brought back unrinsed",
    "neighbour": "sprayed by a neighbour", "perimeter": "sprayed round the house",
}  # fmt: skip
NOT_LIKE_THIS = "not like this; what makes it acceptable stands below"
DOSED = "into the water on purpose"
AS_PLANNED, NOT_AS_PLANNED = "As planned that is fine.", "Not as planned."
WATER = "{} L of water"
MEMBERS = "What it may be, strictest first"
IN_BOTTLE = "What is in it, strictest first"
MORE_MEMBERS = "and {} more"
HARMS = "Harm by harm"
WITH_CARE = "[WITH CARE] see the notes below"
FIGURES = "In figures"
NOT_RECKONED = "It cannot be reckoned: say --volume, --strength and --amount."
OF = {
    "active": "active", "product": "product", "metal": "metal", "element": "element",
    "plant-material": "plant-material", "": "",
}  # fmt: skip
IN_SPRAYER = "{amount} of {strength} holds {grams} of {of}. "
IN_DOSE = "{grams} of {of}. "
REACHES = "{share} of it reaches {volume} L: {sprayed} mg/L; all of it: {spilled} mg/L."
REACHES_FROM_OTHERS = "{share} of it reaches {volume} L: {sprayed} mg/L; at worst {spilled} mg/L."
ALL_IN = "In {volume} L: {level} mg/L."
TIMES = "{times} times, {every} apart, with what is left of the earlier ones. "
TIMES_SHORT = "{} times"
DAY, DAYS = "a day", "{:g} days"
UNKNOWN, UNKNOWN_AMOUNT = "unknown", "an unknown amount"
VALUE = "{kind} {printed}{here}, {species}{margin}. Source: {source}{recalled}."
HERE = " ({} mg/L of {} in this water)"
MARGIN = ", {}so {} counts: {} mg/L"
NOT_YOURS = {"group": "a relative of yours, ", "any": "none of yours, "}
LOWER = "known to be lower, "
PARTS = {2: "half", 4: "a quarter", 5: "a fifth", 10: "a tenth"}
PART = "1/{}"
RECALLED = {"memory": " (from memory)", "computed": " (our arithmetic)"}
ACCEPTABLE = "What makes it acceptable"
NOTHING_HELPS = "Neither a cover nor a smaller amount makes it acceptable."
SMALLER_DOSE = "{amount} at a time"
BETTER = "{amount}{strength}, {cover}"
STRENGTH_OF = " of {}"
BEFORE = "Before"
INSTEAD = "Instead"
WATCH = "The next 72 hours"
REACT = "If the animals react"
NOTE = "Please note"
WAIT = "Wait {:g} days before harvest, or longer if the label says so."
NO_WAIT = "Wash before eating; the label may ask for a wait before harvest."
SOURCES = "Sources: {}. What each is: triage book sources ID"

# -- a spill

SPILL = "{} got into the water"
LEVEL = "About {level} mg/L of {of} in {volume} L."
LEVEL_UNKNOWN = "How much of it is in the water is not known."
FIRST = "Now, in this order"
CHANGE = "How much water to change"
CHANGE_LINE = "{aim}: {times} x {each} of the water, {litres} L in all{target}; {decides} decides, {factor} times over."
THOUSANDS = ","  # between thousands of litres; where the reader takes a comma for a decimal sign, nothing
TARGET = ", until {} mg/L are left"
DECIDES = {
    "fish-quotient": "what fish bear", "crustacean-quotient": "what shrimp bear", "filter-quotient": "the filter",
    "oxygen-drawn": "the oxygen it draws", "ph-shift": "the pH", "ammonia-limit": "ammonia", "chlorine": "chlorine",
}  # fmt: skip
TEST = "What to test"
OVER = "When it is over"
TELL = "Who should know"

# -- several side by side

COMPARE = "Side by side"
SHELF = "What stands on your shelf"
SHELF_EMPTY = 'Nothing is noted on your shelf. Note it: triage setup --shelf "soap, neem oil"'
ALL_IN_ALL = "all in all"
COLUMNS = ("fish", "shrimp", "filter", "water")
SHORT: dict[Grade, str] = {
    "ok": "fine", "keep-off-water": "off", "away-from-system": "away", "never": "never", "unknown": "?"
}  # fmt: skip
LEGEND = (
    "fine; off: keep it off the water; away: only on a plant carried away and rinsed; ?: unknown, treat as never; "
    "-: not kept."
)
REASONS = "What decides"

# -- the questions

INTRO = "A few questions; Enter if you do not know. What is not known counts as the worst it may be."
ASK_WORDS = "What is on the label? The active ingredients, several with commas."
ASK_STRENGTH = "How strong is it in the sprayer? Such as 2%, 20 g/L, 5 mL/L product."
ASK_AMOUNT = "How much of it? Such as 1 L, 250 mL, 10 g."
ASK_COVER = "How near does it come to the water? A number."
COVER_CHOICES = {
    "none": "sprayed in place, open water below",
    "covered": "sprayed in place, tank and bed covered until dry",
    "moved": "plant carried away, rinsed over a drain before it returns",
    "returned": "plant carried away, brought back unrinsed",
    "drench": "poured into a bed that drains to the fish",
    "neighbour": "a neighbour sprays",
    "perimeter": "sprayed round the house or glasshouse",
    "into-water": "put into the water on purpose",
    "spilled": "it got into the water already",
}
ASK_VOLUME = "How much water is in the whole system? Such as 1000 L."
ASK_ANIMALS = "Which animals live in it? With commas."
UNDERSTOOD = "Understood: {}"
MAY_BE = "{} may be any of {} substances; the strictest counts unless the label says which."
NOT_IN_BOOK = "'{}' is not in the book."
NEAR = "Did you mean: {}? Type it so, or press Enter to go on without."
A_NUMBER = "a number from 1 to {}"
NOT_A_CHOICE = "'{}' is no answer here (allowed: {})."


def share(value: float) -> str:
    """A share in per cent, without needless digits.

    >>> share(0.25), share(0.002), share(1.0)
    ('25 %', '0.2 %', '100 %')
    """
    return f"{value * 100:.3g} %"


def figure(value: float | None) -> str:
    """A number with three digits that count, without an exponent.

    >>> figure(0.0000123), figure(1234567.0), figure(2.5), figure(None)
    ('0.0000123', '1230000', '2.5', 'unknown')
    """
    if value is None:
        return UNKNOWN
    rounded = float(f"{value:.3g}")
    text = f"{rounded:.10f}".rstrip("0").rstrip(".")
    return text or "0"


def grams(value: float | None) -> str:
    """Grams as one says them.

    >>> grams(10.0), grams(0.0005), grams(1500.0)
    ('10 g', '0.5 mg', '1.5 kg')
    """
    if value is None:
        return UNKNOWN_AMOUNT
    if value >= 1000:
        return f"{figure(value / 1000)} kg"
    return f"{figure(value)} g" if value >= 0.1 else f"{figure(value * 1000)} mg"
