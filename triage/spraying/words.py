"""The fixed words about one spray, in one place, so that a translation can be added."""

from __future__ import annotations

NOT_IN_BOOK = "Not in the book."
ANIMALS_UNSAID = "Nobody said which animals live in the water: fish and crustaceans both count (--animals)."
VOLUME_UNSAID = "Nobody said how much water there is (--volume)."
COVER_UNSAID = "Nobody said how the water is covered: reckoned as open (--cover)."
EVERY_UNSAID = "Nobody said how far apart: reckoned as a day (--every)."
STRENGTH_UNSAID = "Nobody said how strong: figures for the usual {value} {unit}{recalled} (--strength)."
RECALLED = ", recalled"
AMOUNT_UNSAID = "Nobody said how much: figures for {} (--amount)."
AMOUNT_COUNTS = "how much was not said, so {} counts, too"
STRENGTH_COUNTS = "the strength was not said, so {} g/L counts, too"
ON_LEAVES = "It may be sprayed on leaves instead ({litres} L of {strength} g/L over open water)"
DOSE_UNSAID = "Nobody said how much goes into the water (--amount, in grams)."
DOSE_USUAL = "Nobody said how much: figures for {} g, as it is usually done (--amount)."
DOSE_OF_DAY = "Nobody said how much: figures for the usual dose, {grams} g of {product} a day (--amount)."
EACH_STRENGTH = "Nobody said how strong: each at its usual strength, and stronger counts, too (--strength)."
EACH_AMOUNT = "Nobody said how much: a litre or the usual dose, and more counts, too (--amount)."
NEAREST = "Nearest in the book: {}."
MAY_MEAN = "'{words}' may mean any of: {names}. The strictest counts: {strictest}."
LABEL_FIRST = "The label and local law come first; nothing here permits what they forbid."
LOOK_ON_LABEL = (
    "Look on the label for the active ingredients and their strength, and ask again by the active ingredient.",
    "Look for words such as 'toxic to fish', 'toxic to aquatic life' or 'do not contaminate water', and for the hazard"
    " codes H400 to H413.",
)
MIXED = "Several things in one bottle; the strictest counts: {}."

# -- a spill

NO_MEASURE = "No level is known to compare with: change half the water now and half again after some hours."
OUT, REST = "out of danger", "at rest"
NO_CHANGE = "By the figures no water has to be changed; change a quarter all the same if the animals look unwell."
TOO_SLOW = "Changing water cannot do that in time: move the animals into clean water first."
BETWEEN = "An hour between changes; stop when the animals are calm and the tests are in order."
FADES = (
    "By itself half of it goes in {days} days{recalled}: about {rest} days until it is at rest without changing water."
)
FADES_SLOWLY = "By itself half of it goes in {days} days{recalled}; do not wait for that."
DO_NOT_COUNT = " (recalled, so do not count on it)"
