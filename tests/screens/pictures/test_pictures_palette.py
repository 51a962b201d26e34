"""Inks, and the colours a terminal has for them."""

from __future__ import annotations

from typing import get_args

import pytest

from triage.model.picture import InkName
from triage.screens.pictures.palette import INKS, colour_difference, lab_of, xterm_of, xterm_rgb


def test_knowledge_may_name_exactly_the_inks_there_are() -> None:
    assert set(get_args(InkName)) == set(INKS)


def test_letters_are_plain_and_two_inks_share_one_only_if_they_are_called_alike() -> None:
    assert all(len(ink.letter) == 1 and ink.letter.isascii() for ink in INKS.values())
    letters = [ink.letter for name, ink in INKS.items() if name != "white"]  # both whites are w
    assert len(letters) == len(set(letters))


@pytest.mark.parametrize(
    ("rgb", "lab"),
    [  # sRGB primaries under D65, values as tabulated by B. Lindbloom's colour calculator (from memory)
        ((255, 0, 0), (53.24, 80.09, 67.20)),
        ((0, 255, 0), (87.73, -86.18, 83.18)),
        ((0, 0, 255), (32.30, 79.19, -107.86)),
        ((128, 128, 128), (53.59, 0.0, 0.0)),
    ],
)
def test_lab_of_known_colours(rgb: tuple[int, int, int], lab: tuple[float, float, float]) -> None:
    assert lab_of(rgb) == pytest.approx(lab, abs=0.05)


def test_every_fixed_terminal_colour_is_its_own_nearest() -> None:
    for number in range(16, 256):
        assert colour_difference(xterm_rgb(xterm_of(xterm_rgb(number))), xterm_rgb(number)) == 0


def test_inks_survive_the_256_colours() -> None:
    """The cube has steps; none of them turns an ink into another one to the eye."""
    lost = {name: round(colour_difference(ink.rgb, xterm_rgb(xterm_of(ink.rgb))), 1) for name, ink in INKS.items()}
    assert {name: far for name, far in lost.items() if far > 16} == {}


def test_what_is_wrong_stands_out_from_sound_green_on_the_terminal() -> None:
    green = xterm_rgb(xterm_of(INKS["green"].rgb))
    for name in ("yellow", "cream", "white", "tan", "brown", "black", "purple", "bronze", "silver", "rust", "wet"):
        assert colour_difference(green, xterm_rgb(xterm_of(INKS[name].rgb))) > 25, name
