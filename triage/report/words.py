"""The fixed words of a report, in one place, so that a translation can be added; programs get them in English."""

from __future__ import annotations

CAUTIONS = (
    "The label and local law come first; nothing here permits what they forbid.",
    "This is advice from published signs, not a diagnosis: look again before you act, and try one plant first.",
    "Change water by small steps; fish in trouble come before any plant.",
)
STATES = {"seen": "{}", "absent": "not there: {}", "unsure": "perhaps: {}"}
SOUNDS_LIKE = "taken together, what was told sounds like it"
SOUNDS_ELSE = "taken together, what was told sounds more like others"
NEW_LEAVES, OLD_LEAVES = "New leaves", "Old leaves"
BETTER = "Better within about {}."
LOOK_AGAIN = "Look again in {}{}."
ON_DAY = ", on {}"
DAY, DAYS = "1 day", "{} days"
AND = "and"
SMALL_FIRST = ("*",)  # first words that lose their capital inside a sentence ("*": all); nouns in German do not

# -- what the garden's own journal added

ALIKE = {
    "several-crops": "Several kinds of crop have it now, too: {looks} ({symptoms}). That points to what they share, "
    "the water first.",
    "one-crop": "Other crops looked at these days do not show it: {looks}. That points to this kind of crop.",
    "one-plant": "Others of the same kind looked at these days do not show it: {looks}. That points to this plant.",
}
ALIKE_LOOK = "{crop} (case {case}, {day})"
PROVEN_HERE = "{proven} of {cases} proven cases in this garden turned out to be “{cause}”; that makes it {times} here."
ONE_PROVEN_HERE = "{proven} of 1 proven case in this garden turned out to be “{cause}”; that makes it {times} here."
AS_LIKELY, LESS_LIKELY = "{:.1f} times as likely", "{:.1f} times less likely"

# -- what is due

THE_PLANT = "the plant"
BED = "bed {}"
IN_BED = " in bed {}"
GRAMS = "{grams} g of {what}"
DUE_SERIES = "The look at {plant} of {day} was not finished."
DUE_LOOK = "Look again at {plant}."
DUE_LOOK_FOR = "Look again at {plant} for {cause}."
DUE_WATCH = "Look over {crops}{where} for {cause} (case {case}: {source})."
DUE_STEP = "{plant}: {what}, {round} (last on {last})."
DUE_ROUND, DUE_ROUND_OF = "round {n}", "round {n} of {of}"
DUE_RETEST = "Test {what}: it was changed on {day} and not tested since."
DUE_TEST, DUE_TEST_FIRST = "Test {what} (last on {last}).", "Test {what} (never tested)."
AFTER = "{plant} after {what} of {day}"
DUE_WAIT = "Do not harvest before {day}, later if the label says so: {what}."
DUE_WAIT_OVER = "May be harvested again, if the label names no longer wait: {what}."
DUE_WAIT_UNSAID = "Before you pick, read on the label how long to wait: {what}."
