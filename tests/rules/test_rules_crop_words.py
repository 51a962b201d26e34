"""A rule may name a crop by its id, its family or its kind."""

from __future__ import annotations

import pytest

from triage.model.case import Case
from triage.model.crop import Crop
from triage.model.facts import CaseFacts
from triage.rules.tell import tell_case

BASIL = Crop(crop="basil", name="Basil", family="mint family", kind="herb", sources=["our-judgement"])
NAMELESS = Crop(crop="reed", name="Reed", kind="other", sources=["our-judgement"])


@pytest.mark.parametrize(
    ("crop", "words"), [(BASIL, ["", "basil", "herb", "mint family"]), (NAMELESS, ["", "other", "reed"])]
)
def test_the_words_a_crop_answers_to(crop: Crop, words: list[str]) -> None:
    told = tell_case(CaseFacts(case=Case(on="2026-05-04"), crop=crop), ())
    assert [key[1] for one in told for key in one.keys if key[0] == "crop"] == words
