"""What the tests of pictures share: consoles of every kind, and pictures painted once."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from rich.console import Console
from rich.theme import Theme

from triage.model.crop import LeafShape
from triage.model.picture import Picture
from triage.screens.pictures.patterns import leaf_scene
from triage.screens.pictures.raster import Raster
from triage.screens.pictures.show import small_raster
from triage.screens.style import STYLES

#: Scatterings in which each leaf is looked at.
SALTS = (0, 7, 13)


class Screen:
    """A console that writes into text."""

    def __init__(self, width: int, system: str | None, **more: object) -> None:
        self.out = io.StringIO()
        self.console = Console(
            theme=Theme(STYLES), file=self.out, width=width, force_terminal=system is not None, highlight=False,
            markup=False, color_system=system, **more,  # type: ignore[arg-type]
        )  # fmt: skip

    @property
    def text(self) -> str:
        return self.out.getvalue()


@pytest.fixture
def screen() -> Callable[..., Screen]:
    """A screen of a width: in 256 colours, or (system None) without any."""

    def make(width: int = 80, system: str | None = "256", **more: object) -> Screen:
        return Screen(width, system, **more)

    return make


@pytest.fixture(scope="session")
def leaves() -> Callable[[Picture, LeafShape, bool], tuple[Raster, ...]]:
    """One leaf as small as beside an answer, its marks scattered three times; painted once a run."""
    kept: dict[tuple[str, str, bool], tuple[Raster, ...]] = {}

    def painted(picture: Picture, shape: LeafShape, close: bool) -> tuple[Raster, ...]:
        key = (picture.picture, shape, close)
        if key not in kept:
            scenes = (leaf_scene(shape, (picture,), close=close, salt=salt) for salt in SALTS)
            kept[key] = tuple(small_raster(scene) for scene in scenes)
        return kept[key]

    return painted
