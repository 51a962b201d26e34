"""The fixed words about responses and doses, in one place, so that a translation can be added."""

from __future__ import annotations

LOWER_FIRST = "yes"  # whether a name loses its capital inside a sentence; empty in a language that keeps it
QUANTITIES = {
    "alkalinity": "alkalinity", "boron": "boron", "calcium": "calcium", "chloride": "chloride", "copper": "copper",
    "iron": "iron", "magnesium": "magnesium", "manganese": "manganese", "molybdenum": "molybdenum",
    "nitrate": "nitrate", "phosphate": "phosphate", "potassium": "potassium", "zinc": "zinc",
}  # fmt: skip

# -- doses

STEP = "{grams} of {product}, dissolved in a bucket of system water, slowly into the sump."
TEST_NEXT_DAY = "Test {quantity} the next day."
EACH_DAY = "Each day for {days} days: {step}"
TEST_EACH_DAY = "Test {quantity} before each day's step and stop at {to}."
HOLDS_TO = "{product} holds to pH {ph}; this water has {here}."
ENOUGH = "The water already has {here} or more; the target is {to}."
MEASURE_FIRST = "Measure {quantity} first: the dose follows from it."
LITRES_FIRST = "How many litres does the system hold? The dose follows from it."
PH_FIRST = "Measure pH first: it holds only to pH {ph}. {note}"
MAY_NOT_HOLD = "It holds to pH {ph}, and this water may be above that. {note}"

# -- reasons and cautions

WORKS = "Works {how} against {cause}{stage}{recalled}."
HOW_WELL = {"well": "well", "partly": "partly", "little": "little"}
STAGE = " ({})"
RECALLED = ", recalled"
ON_SHELF = "It is on your shelf."
HASTE = "It spreads fast, so today and not next week. {}"
NOT_TOGETHER = "Not together with '{name}': {why}{wait}"
DAY_BETWEEN, DAYS_BETWEEN = " Leave a day between.", " Leave {} days between."
BURNS = "{substance} burns {crop}."
MEASURES = {"air-temperature": "air temperature", "humidity": "humidity", "temperature": "temperature"}
CLIMATE = "It works at {low} to {high}{unit} ({what}); here it is {here}."

# -- grades and what was taken for granted

NO_RULE = "No safety rule asks for more care."
WHY_FINE = (
    "{sprayed} of the level that counts as planned, {spilled} with all of it in the water; that level comes from "
    "{published} mg/L for {organism}{relation}."
)
RELATIONS = {"species": "", "group": " (a relative)", "any": " (another animal)"}
NOT_IN_BOOK = "'{}' is not in the book. Read the label and look the active ingredient up."
NOT_DISSOLVED = "Nothing of it is dissolved in the water."
ALKALINITY_UNMEASURED = "alkalinity was not measured: reckoned with {} mg/L"
OXYGEN_UNMEASURED = "neither oxygen nor temperature is known: reckoned with {} mg/L of oxygen"
AMMONIA_LIMIT_UNMEASURED = "pH and temperature were not measured: reckoned with an ammonia limit of {} mg/L"
WATER_UNMEASURED = "{} was not measured: the strictest published water counts"
CHEMISTRY = {"hardness": "hardness", "alkalinity": "alkalinity", "ph": "ph", "temperature": "temperature"}
OR = " or "
VOLUME_UNKNOWN = "how much water the system holds is not known"
AMOUNT_UNKNOWN = "how much is used is not known"
STRENGTH_UNKNOWN = "the strength cannot be reckoned (the density or the content of the product is not known)"
UNDILUTED = "no strength was given: taken undiluted, at the strongest it is sold"
ALL_ACTIVE = "how much active the product holds is not known: taken as all active"
ADDS_UP = "how fast it breaks down is not known: repeated use adds up in full"


def inside(name: str) -> str:
    """A name inside a sentence."""
    return f"{name[:1].lower()}{name[1:]}" if LOWER_FIRST else name


def digits(value: float, count: int) -> str:
    """A number with so many digits that count, without an exponent.

    >>> digits(0.00123, 2), digits(999.6, 3), digits(1234567, 3)
    ('0.0012', '1000', '1230000')
    """
    text = f"{float(f'{value:.{count}g}'):.10f}"
    return text.rstrip("0").rstrip(".")
