"""Every fixed word of the questions about the system."""

from __future__ import annotations

INTRO = "Enter keeps what stands in brackets. Nothing has to be exact, and every answer is kept at once."
ASKS = {
    "volume_l": "How much water is in tank, sump and beds together? (1000 L, 1 m3, 250 gal US)",
    "animals": "Which animals live in it? With commas, such as: tilapia, shrimp",
    "crops": "What do you grow? With commas, such as: basil, lettuce",
    "beds": "What kind of beds?",
    "filter": "What filters the water? In your own words",
    "top_up": "Where does top-up water come from?",
    "place": "Where does it stand?",
    "altitude_m": "How high above the sea, in metres? (it matters for oxygen above some 300 m)",
    "shelf": "Which sprays and additives are at hand? With commas",
}
CHOICES = "One word: {}."
NO_CHOICE = "'{}' is not one of: {}"
SAVED = "Saved. Change any of it later: triage setup"
STOPPED = "Stopped. What you answered so far is kept."
NOT_A_NUMBER = "'{}' is not a height in metres (such as 250)"
NO_NAMES = "'{}' names nothing (write names with commas between them)"
NEEDED = "Doses and the safety of the animals hang on this; it is asked once. Enter if you do not know."
CHOICE_WORDS = {
    "media": "media", "raft": "raft", "channel": "channel", "wicking": "wicking", "mixed": "mixed", "mains": "mains",
    "rain": "rain", "well": "well", "greenhouse": "greenhouse", "outdoors": "outdoors", "indoors": "indoors",
}  # fmt: skip
