"""Whether a treatment suits the crop and the climate, and what is at hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import msgspec
import pytest

from triage.model.crop import Crop
from triage.model.treatment import Treatment
from triage.responses.fit import Circumstances, misfit


def _treatment(*substances: str, **climate: list[float]) -> Treatment:
    return Treatment(
        treatment="it", kind="spray", name="It", plain="", steps=[], substances=list(substances), climate=climate,
        sources=["our-judgement"], status="draft",
    )  # fmt: skip


def _crop(*sensitive: str) -> Crop:
    return Crop(crop="basil", name="Sweet Basil", kind="herb", sensitive=list(sensitive), sources=[])


def test_only_what_burns_this_crop_is_named_and_by_its_name(kit: SimpleNamespace) -> None:
    oil = msgspec.structs.replace(kit.substance(), substance="oil", name="Plant oil")
    here = Circumstances(substances={"oil": oil}, crop=_crop("oil", "copper", "sulphur"))
    assert misfit(_treatment("soap", "oil", "copper"), here) == [
        "Plant oil burns sweet Basil.", "copper burns sweet Basil.",
    ]  # fmt: skip
    assert misfit(_treatment("soap"), here) == []
    assert misfit(_treatment("oil"), Circumstances()) == []


@pytest.mark.parametrize(
    ("low", "high", "fits"),
    [(14, 14.9, False), (14, 15, True), (20, 25, True), (30, 31, True), (30.1, 33, False), (10, 40, True)],
)
def test_only_what_is_certainly_outside_does_not_fit(kit: SimpleNamespace, low: float, high: float, fits: bool) -> None:
    here = Circumstances(readings=(kit.reading("air-temperature", (low + high) / 2, low, high),))
    assert (misfit(_treatment(temperature=[15, 30]), here) == []) is fits


def test_the_temperature_meant_is_that_of_the_air(kit: SimpleNamespace) -> None:
    water = Circumstances(readings=(kit.reading("temperature", 5),))
    assert misfit(_treatment(temperature=[15, 30]), water) == []


def test_each_condition_is_said_with_its_unit(kit: SimpleNamespace) -> None:
    air = msgspec.structs.replace(kit.reading("air-temperature", 9.5), unit="°C")
    here = Circumstances(readings=(kit.reading("ec", 3), kit.reading("humidity", 40), air))
    assert misfit(_treatment(temperature=[15, 30], humidity=[60.5, 90], ec=[0, 2]), here) == [
        "It works at 15 to 30 °C (air temperature); here it is 9.5.",
        "It works at 60.5 to 90 (humidity); here it is 40.",
        "It works at 0 to 2 (ec); here it is 3.",
    ]


def test_a_condition_that_is_not_known_or_not_a_range_does_not_hide_the_next(kit: SimpleNamespace) -> None:
    here = Circumstances(readings=(kit.reading("ec", 9), kit.reading("humidity", 40)))
    told: dict[str, Any] = {"temperature": [15, 30], "ec": [1], "humidity": [60, 90]}
    assert misfit(_treatment(**told), here) == ["It works at 60 to 90 (humidity); here it is 40."]


def test_at_hand_is_what_takes_only_what_is_at_hand() -> None:
    here = Circumstances(shelf=frozenset({"soap", "oil"}))
    assert here.at_hand(_treatment("soap", "oil"))
    assert not here.at_hand(_treatment("soap", "copper"))
    assert here.at_hand(_treatment())
    assert Circumstances().at_hand(_treatment("copper"))
