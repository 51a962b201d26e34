"""Every fixed word about readings, doses and drift that a person sees."""

from __future__ import annotations

READINGS = "Readings"
FOLLOWS = "What follows from them"
SAYS = "What this water says"
BEAR = "What the animals kept bear"
NUTRIENTS = "Nutrient by nutrient"
NOT_MEASURED = "Not measured: {}"
SALT = "Salt and the crops grown"
STATE_WORDS = {
    "locked": "locked by pH", "scarce": "scarce", "antagonised": "crowded out", "too-much": "too much",
    "enough": "enough", "between": "neither scarce nor plenty", "unknown": "not measured",
}  # fmt: skip
STATES_ALSO = "{} and {}"
MEMORY = ", from memory"
FROM, UP_TO, FROM_ON = "from {}", "up to {}", "from {} on"
NO_RANGE = "no range to work with is published"
OUTSIDE, WITHIN = "OUTSIDE", "within"
LIMIT_WORDS = {"best": "best", "tolerated": "tolerated", "deadly": "deadly"}
CROP_LOST = "{crop}: the yield falls from {threshold} mS/cm on (measured in soil)"
CROP_HAS = "{lost}; the water has {ec}"
CROP_LEFT = "{has}; about {left} % of the yield is left"
ION = "{crop}: {ion} up to {limit}{note}; the water has {value}: {verdict}"
TOO_MUCH, FINE = "TOO MUCH", "fine"

# -- as it stands

LATEST = "Latest readings"
NONE_YET = "None yet. Record some: triage water add ph=7.2 iron=0.6mg/L"
DUE = "Due for a test"
WAYS = {"rising": "rising", "falling": "falling", "steady": "steady", "cannot-tell": "can't tell yet which way it goes"}
BELOW, ABOVE = "below {}", "above {}"
BOUND_BY = "{bound} ({name}, {source})"
SHADED, TOO_FAR = "Shaded: {}{}", "Too far off to be drawn: {}{}"
AND = " and "
DISAGREE = "; sources disagree"
PACE_UNKNOWN = "how fast, the steps of the kit cannot tell"
A_WEEK = "{pace} a week ({span})"
IN_DAYS = "in {low} to {high} days"
IN_DAYS_OR_LATER = "in {} days or later"
REACHES = "reaches {limit}, the limit for {name}, {days}"
CHART_KEY = (
    "{point} reading, {span} what the kit leaves open, {at_most} at most, {at_least} at least, {shade} beyond what "
    "the animals bear; a day without a reading stays empty."
)

# -- tables

RECORDED = "{} recorded"
RECORDED_ON = "{number} recorded for {day}"
READING_CORRECTED = "Number {old} no longer counts; it stands in the history. Instead number {new}: {what}."
KNOWN_ALREADY = "; {} known already"
NOT_READ = "Columns not read: {}"
REFUSED = "Rows refused: {}. Nothing of such a row is recorded."
REFUSED_LINE = "line {}: "
COLUMNS_READ = "The columns, as they are read"
WOULD_BE = "Would be recorded: {readings} readings from {rows} rows"
MORE_ROWS = "… and {} more"
FORM_NOT_SAID = "form not said"
COLUMN_ROLES = {"unread": "not read", "date": "date", "time": "time", "kit": "kit", "point": "point", "note": "note"}

# -- doses

NOTHING_FITS = "There is nothing here that may be used for it"
NOT_HERE = "Not here"
MORE_ACID, LESS_ACID = "That is {} times more acid.", "That is {} times less acid."
NOT_KNOWN = "not known"
NOW_SPAN = " ({})"
TO, IN_LITRES = " to {}", " in {} L"
AT_GRADE = " at {} %"
LEAVE = " (the readings leave {} to {})"
IN_ALL = "{grams}{grade}{volume} in all"
MORE_DAYS = "… {days} more days; the last: {step}"
BESIDES = "What it does besides"
NO_MORE = "no more: "
STEP = "day {day}: {grams}"
STEP_PH = "{step}; pH {before:.2f}, after an hour {at_once:.2f}, next day {next_day:.2f}"
ABOUT = "about "
EFFECT_OPEN = "{name}: {about}{change} (not measured)"
EFFECT = "{name}: {about}{before} to {after}"

# -- why it moves

OVER_DAYS = "{readings} readings over {days}"
TOO_COARSE = "From {}; the steps of the kit are too coarse to tell how fast."
PACE = "{pace} a week ({span}), from {since}."
BALANCE = "The balance of one day in mg/L (nitrogen as N, the rest as CaCO3)"
MAY_DO_IT = "What may do it, most likely first"
FOR_IT, AGAINST_IT = "speaks for it: ", "speaks against it: "
UNKNOWN_YET = "What is not known yet, the cheapest first"
LITRES_MISSING = "How many litres the system holds: triage setup --volume 1000L"
HOW_TO_TELL = "Record them like readings: triage water add feed=60 protein=32 top-up=30 base=0 'top-up alkalinity=40'"
OF_TOP_UP = " of the top-up water"
MORE_READINGS = " ({}, some days apart)"
