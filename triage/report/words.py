"""The fixed words of a report, in one place, so that a translation can be added; programs get them in English."""

from __future__ import annotations

CAUTIONS = (
    "The label and local law come first; nothing here permits what they forbid.",
    "This is advice from published signs, not a diagnosis: look again before you act, and try one plant first.",
    "Change water by small steps; fish in trouble come before any plant.",
)
STATES = {"seen": "{}", "absent": "not there: {}", "unsure": "perhaps: {}"}
NEW_LEAVES, OLD_LEAVES = "New leaves", "Old leaves"
BETTER = "Better within about {}."
LOOK_AGAIN = "Look again in {}{}."
ON_DAY = ", on {}"
DAY, DAYS = "1 day", "{} days"
