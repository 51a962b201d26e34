"""The one small table from words to numbers; the bench may tune it as a whole, authors never write numbers."""

from typing import Literal, get_args

Frequency = Literal["nearly-always", "usually", "often", "sometimes", "seldom", "hardly-ever"]
Base = Literal["common", "uncommon", "rare"]
CropWord = Literal["more", "less", "not"]
Strength = Literal["strongly", "somewhat", "slightly"]

#: How often a plant with the cause shows the finding (judgement, tuned as a whole on published cases).
FREQUENCY: dict[str, float] = {
    "nearly-always": 0.95,
    "usually": 0.80,
    "often": 0.50,
    "sometimes": 0.18,
    "seldom": 0.05,
    "hardly-ever": 0.02,
}
#: How often a cause stands behind a plant somebody is worried about (judgement).
BASE: dict[str, float] = {"common": 0.03, "uncommon": 0.012, "rare": 0.004}
#: What the crop does to the odds of a cause.
CROP: dict[str, float] = {"more": 2.5, "less": 0.4, "not": 0.0}
#: What one rule does to the odds of a cause: for; against is the inverse.
STRENGTH: dict[str, float] = {"strongly": 12.0, "somewhat": 4.0, "slightly": 1.8}
#: How often a finding is there with nothing behind it (its leak); tuned with ``BY_OTHER`` on published cases.
BY_ITSELF: dict[str, float] = {
    "often": 0.08,
    "sometimes": 0.018,
    "seldom": 0.004,
    "hardly-ever": 0.0005,
    "not-otherwise": 0.00005,  # the pest or pathogen itself, hardly to be mistaken
}
#: How often it is there when something that is not in the book is behind the plant's trouble.
BY_OTHER: dict[str, float] = {
    "often": 0.35,
    "sometimes": 0.20,
    "seldom": 0.10,
    "hardly-ever": 0.045,
    "not-otherwise": 0.018,
}
#: How likely that is among plants somebody is worried about, as odds.
OTHER_ODDS = 0.05
ByItself = Literal["often", "sometimes", "seldom", "hardly-ever", "not-otherwise"]

FREQUENCY_WORDS = get_args(Frequency)

#: Prior odds never leave these ends: readings and rules alone neither prove a cause nor rule it out (judgement).
ODDS_ENDS: tuple[float, float] = (1e-6, 4.0)
#: What share of its word a finding keeps (judgement): 0 is no evidence at all, 1 is plain noisy-OR. ``implied`` is for
#: a finding that is seen anyway because a seen one implies it; below 1 it damps near-duplicates.
WEIGHT: dict[str, float] = {"seen": 1.0, "unsure": 0.5, "implied": 1.0}
#: What a look costs, in glances (judgement).
EFFORT: dict[str, float] = {
    "glance": 1.0,
    "close-look": 1.5,
    "lens": 2.5,
    "pull-root": 4.0,
    "test-kit": 5.0,
    "laboratory": 25.0,
}
