"""Every fixed word a person sees, in one place, so that a translation can be added (``speech``).

A name is read where it is used and never copied at import, because a translation takes the place of the text.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from ..model.outcome import Heard
from ..model.rule import Grade
from ..report import saying
from ..report.saying import crop_inside as crop_inside
from ..report.saying import inside as inside

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
RANGE = "{} to {}"
BOUND_WORDS = {"=": "", "<=": "at most ", ">=": "at least ", "<": "below ", ">": "above "}
SURE: tuple[float, ...] = (0.85, 0.5, 0.2, 0.0)  # from these probabilities on a cause is called so:
SURE_WORDS = ("very likely", "likely", "possible", "less likely")
SPOKEN = {"!": "Caution:", "x": "Not:", ">": "So:", "=": "Amount:"}  # signs, where the screen is read aloud
AND_OR = {"and": "and", "or": "or"}
DAYS_AGO = ("Today", "Yesterday", "{} days ago")
COUNTED = {
    "day": ("day", "days"), "answer": ("answer", "answers"), "question": ("question", "questions"),
    "case": ("case", "cases"), "proven case": ("proven case", "proven cases"), "reading": ("reading", "readings"),
    "time": ("time", "times"), "more reading": ("more reading", "more readings"),
}  # fmt: skip
#: What may be typed at a prompt, in lower case.
KEYS = {
    "enough": ("q", "quit", "enough"), "keep": ("k", "keep"), "back": ("b", "back"), "why": ("w", "why"),
    "so far": ("s", "so far"), "pictures": ("p", "pictures"), "help": ("h", "help"),
    "can't tell": ("t", "can't tell"), "yes": ("y", "yes"),
    "no": ("n", "no"), "perhaps": ("?", "y?", "1?", "perhaps", "maybe"), "nothing": ("none", "nothing", "-", "?"),
}  # fmt: skip

# -- the answer

ALARM = "Act on this before anything else"
HEARD = "Understood"
UNREAD = "Not understood"
UNREAD_HELP = "Say it in other words; nothing was thrown away."
CLASH = "This does not go together"
STATES = {"seen": "{}", "absent": "not there: {}", "unsure": "perhaps: {}"}
BY_MEANING = "{} (by its meaning only)"
TITLES = {
    "one": "What it most likely is",
    "two": "What it most likely is: two things at once",
    "well": "Most likely nothing that needs treating",
    "unfit": "Nothing in my book explains this well",
    "untold": "There is too little to go on yet",
}
NEAREST = "What comes nearest, though it does not convince"
IN_GENERAL = "What is most common, before anything is known"
NOTHING_FITS_DO = (
    "Keep the plant apart from the others, take a photo in daylight, and look again in three days.",
    "Show the plant to somebody who knows the crop; an advisory office or a plant clinic can look closer.",
    "Do not spray or dose anything on a guess.",
)
NOTHING_TOLD_DO = (
    "Say what you see: which leaves, what colour, what moves on them, and what changed in the last two weeks.",
    "Do not spray or dose anything on a guess.",
)
FROM_JOURNAL = "From your journal"
SPEAKS_FOR = "For it: "
SPEAKS_AGAINST = "Against it: "
CROP_FOR = "{} is prone to it"
CROP_AGAINST = "{} seldom gets it"
ELSEWHERE = "{} (something else explains it better)"
REASONS = {"absent": "{} (not so here)", "unsure": "{} (perhaps)"}
BY_WATER = "what the water tests say (below)"
ALSO = "Also thought of"
MIGHT_BE = "Look out for"
UNEXPLAINED = "Left unexplained"
SETTLE = "The one check that would settle it"
SETTLE_TWO = "The checks that would settle it"
MISTAKEN = "Often taken for {}: "
WATER = "What the water has to do with it"
NO_WATER = "No readings are known. pH and iron from a drop kit would help most: triage water add ph=7.2 iron=0.6mg/L"
WATER_SILENT = "Nothing in these readings points to it."
WATER_BESIDE = "Beside that: "
DO = "What to do (fine around your animals unless marked)"
MORE_WAYS = "More ways"
DOSE = "{grams} g of {what}"
HARVEST_WAIT = "Wait {} before you harvest."
FOR_CAUSE = "against {}"
AVOID = "What not to use here"
AVOID_MORE = "Nor"
RECOVER = "How it gets better"
CAUTIONS = "Please note"
NEXT = "One more look would help"
SAVED = "Saved as case {number}. Look at it again: triage case show {number}"
MORE = "Everything, with all steps: add --full. The reasoning with its sources: add --why."
MANY_LOOKING = "Looking at the cases"
MANY_NONE = "nothing in the book fits well"
MANY_DONE = "Looked at {looked} cases: {bad} could not be read, {alarms} have an alarm."
MANY_BEFORE = "{} stood there already."
SAVED_MORE = "Saved as case {number}. Everything, with all steps: triage case show {number} --full. Reasons: --why."

# -- the series

INTRO = "Answer by looking. Any time: t can't tell, b back, w why, s so far, p pictures, q enough, k keep, h help."
HELP = (
    "A number picks that answer; where several may be true, give several: 1 3.",
    "2? says that you are not sure about number 2; 0 says none of these.",
    "The first letters of an answer do, too.",
    "Or type what you see in your own words.",
    "t  I can't tell; go on",
    "b  back: take my last answer back",
    "w  why do you ask that?",
    "s  what does it look like so far?",
    "p  show me pictures of these answers",
    "q  enough questions; the answer, please",
    "k  keep this for later and stop (Ctrl-C does the same)",
    "Every answer is kept the moment it is given.",
)
NONE_OF_THESE = "none of these"
CANT_TELL = "can't tell"
YES, NO = "yes", "no"
YES_KEY, NO_KEY = "y", "n"
PICK_ONE = "One number: "
PICK_ANY = "One number or several: "
YES_OR_NO = "y, n or t: "
EMPTY = "Type the number of what you see, 0 for none of these, or t if you can't tell (h for help)."
EMPTY_YES_NO = "Type y or n, or t if you can't tell (h for help)."
NO_ANSWER = "'{}' is no answer here: {}."
SEVERAL_BEGIN = "Several answers begin with '{}': {}. Type a few more letters, or the number."
ALLOWED_ONE = "a number from 0 to {}, 2? if not sure, t for can't tell"
ALLOWED_ANY = "numbers from 0 to {} such as 1 3, 2? if not sure, t for can't tell"
ALLOWED_YES_NO = "y, n, ? if not sure, t for can't tell"
JUST_ONE = "Here only one can be true; the likeliest, please: {}."
NONE_AND_SOME = "0 means none of these, so it stands alone: {}."
FIRST_QUESTION = "This is the first question; there is nothing to take back."
TAKEN_BACK = "Taken back: {}"
CROP_ASK = "Which plant is it?"
CROP_YOURS = "You grow: {}"
CROP_PROMPT = "Name{}, or Enter if you do not know: "
CROP_OR_NUMBER = " or number"
CROP_UNKNOWN = "'{}' is not in the book. {}Try another name, or press Enter to go on without."
CROP_NEAR = "Did you mean {}? "
CROP_TAKEN = "Taken as: {}"
WORDS_ASK = "What do you see? Tell it in your own words."
WORDS_LOOK = "Which leaves, what colour, what moves; and what is still as it should be."
WORDS_PROMPT = "Your words, or Enter to be asked instead: "
WORDS_AGAIN = "That part in other words, or Enter to go on: "
WATER_ASK = "What did your water tests say this week?"
WATER_LOOK = "For instance: pH 7.2, iron 0.1 mg/L, ammonia 0.25 mg/L, temperature 22."
WATER_PROMPT = "Your readings, or Enter if you did not test: "
I_UNDERSTOOD = "I understood: {}"
NOT_UNDERSTOOD = 'Not understood: "{}"'
ASK_BECAUSE = {
    "fish": "Fish come before any plant, and what they do says a lot about the water.",
    "crop": "Some plants get some troubles far more often than others.",
    "words": "What strikes you first decides which questions are worth asking.",
    "readings": "The water decides what the roots can take up, and what the fish can bear.",
    "lately": "What changed lately decides more cases than the look of a leaf.",
    "": "It helps with what is known so far.",
}
TELLS_APART = "It helps to tell apart: {}."
TELLS_WHETHER = "It shows whether it is {}."
SO_FAR = "So far, before the next answer:"
SO_FAR_BESIDE = "(so far: {})"
PICTURES_ASKED = "p shows these answers as pictures."
NO_PICTURES = "There are no pictures of these answers."
SO_FAR_NOTHING = "So far nothing stands out."
GO_ON = "When that is done: Enter goes on with the plant, q shows what I can say now, k keeps this for later."
GO_ON_PROMPT = "Go on? "
GO_ON_HELP = "Press Enter to go on, q for the answer as it stands, k to keep it for later."
ENDED = {
    "settled": "That is clear enough; more questions would hardly change it.",
    "nothing": "No further look would tell more than the check below.",
    "test": "Looking does not get further now; a test does: see the check below.",
    "time": "No further look would tell more now; the check below will, or time.",
    "long": "That is enough to ask of anybody; the rest is for the check below, or for time.",
    "unseen": "Looking alone does not get further here; the check below does.",
    "enough": "",
    "gone": "",
    "kept": "Kept. Go on with it any time: triage plant",
}
NOTHING_WAS_TOLD = "Nothing was told, so there is nothing to answer. Begin again any time: triage plant"
STOPPED = "Stopped. Every answer is kept; go on with it any time: triage plant"
RESUME = "You began to look at {plant} {day} and stopped after {answers}. Go on with that?"
RESUME_PROMPT = "y or n: "
RESUME_HELP = "y goes on where you stopped, n begins anew (the old answers stay in the journal)."
RESUMED = "You told so far:"
A_PLANT = "a plant"

# -- saved cases, the demo, the reasoning

NO_CASES = "No case yet. Begin one: triage plant"
NO_SUCH_CASE = "None of the {} fits."
IN_BED = "bed {}"
PROVEN = "proved to be {}"
NOTHING_OF_THE_BOOK = "nothing of the book"
LOOKED_AGAIN = "{verdict} on {day}"
NO_ADVICE = "{} so far and no advice yet. Go on with it: triage plant"
STATE_WORDS = {"unfinished": "not finished", "finished": "answered", "abandoned": "given up", "closed": "closed"}
CASE_TITLE = "Case {number}, {day}: {plant} ({state})"
DONE = "What was done"
ENDED_HOW = "How it ended"
OLDER_ADVICE = "(advice of an older book, in short)"
DEMO_INTRO = (
    "A made-up school glasshouse on a cool coast: tilapia and a few shrimp in 1,000 litres, five crops above them.",
    "Four days of one summer, played through the real questions and answers. Nothing of it is kept.",
)
DEMO_INSTEAD = "Instead, for instance: {}."
DEMO_MORE = "The whole answer, harm by harm: triage spray {} --volume 1000L --animals tilapia,shrimp"
DEMO_OUTRO = "Now your own: triage setup says what you keep, triage plant asks beside the plant."
WHY = "Why {}: what speaks for it, and where that is known from"
WHY_SIGNS = "Signs"
WHY_RULES = "What follows from readings, changes and signs"
WHY_NO_RULE = "No rule speaks for it; it rests on the signs alone."
WHY_NOTHING = "Nothing stands out, so there is nothing to give reasons for."
WHY_SIGN = "{}: {} seen with it"
WHY_RESTS_ON = "rests on: {}"
WHY_SOURCE = "source: {}"
WHY_ABOVE = "(see above)"
FREQUENCY_WORDS = {
    "nearly-always": "nearly always", "usually": "usually", "often": "often", "sometimes": "sometimes",
    "seldom": "seldom", "hardly-ever": "hardly ever",
}  # fmt: skip
READ_NOTES = {"memory": "from memory, not read", "partly": "read in part", "computed": "our own arithmetic"}


def sure_words(probability: float) -> str:
    """How sure, in words.

    >>> sure_words(0.93), sure_words(0.3)
    ('very likely', 'possible')
    """
    return next(words for limit, words in zip(SURE, SURE_WORDS, strict=True) if probability >= limit)


def count(number: float, one: str) -> str:
    """A number of things, in the right number.

    >>> count(1, "day"), count(3, "answer")
    ('1 day', '3 answers')
    """
    return f"{number:g} {COUNTED.get(one, (one, f'{one}s'))[number != 1]}"


def say_heard(item: Heard, name: str) -> str:
    """What was made of a grower's words: seen, not there or perhaps; said so where only the meaning tells."""
    said = STATES[item.state].format(inside(name))
    return BY_MEANING.format(said) if item.by_meaning else said


def listed(names: Sequence[str], last: str = "and") -> str:
    """Names in a sentence.

    >>> listed(["a", "b", "c"]), listed(["a"])
    ('a, b and c', 'a')
    """
    return saying.listed(names, AND_OR[last])


def day_words(day: str, on: str) -> str:
    """A day as seen from the day of the look; as it stands if either is no date.

    >>> day_words("2026-05-03", "2026-05-04"), day_words("2026-05-01", "2026-05-04")
    ('Yesterday', '3 days ago')
    """
    try:
        days = (date.fromisoformat(on) - date.fromisoformat(day)).days
    except ValueError:
        return day
    return DAYS_AGO[min(days, 2)].format(days) if days >= 0 else day
