"""`triage demo`: the made-up glasshouse, played through the real series on a throw-away home."""

from __future__ import annotations

import tempfile
from pathlib import Path

import click

from ..book.places import built_in_demo
from ..errors import UsageError
from . import common
from .common import home_option


@click.command()
@click.option("--season", is_flag=True, help="Play forty weeks: cases, rechecks, why pH drifts, a spray refused.")
@click.option("--keep", type=click.Path(path_type=Path), help="With --season: keep its journal in this new folder.")
@home_option
def demo(season: bool, keep: Path | None, home: str | None) -> None:
    """Play the demo: a school glasshouse, four days, four questions; or a whole season of it. Nothing of it is kept.

    Example: triage demo --season --keep glasshouse
    """
    if keep is not None and not season:
        raise UsageError("--keep goes with --season")
    if keep is not None and common.has_journal(keep):
        raise UsageError(f"{keep} has a journal already: name a new folder")
    with tempfile.TemporaryDirectory(prefix="triage-demo-") as folder:
        if season:
            _play_season(keep or Path(folder))
        else:
            _play_scenes(Path(folder))
    if keep is not None:
        from ..screens.season_lines import render_season_kept

        render_season_kept(str(keep), common.page())


def _play_scenes(folder: Path) -> None:
    from ..screens.demo import play_demo

    with common.open_home_journal(folder) as journal:
        play_demo(built_in_demo(), common.open_own_book(folder), journal, common.console())


def _play_season(folder: Path) -> None:
    """It is written in English, so it is played and kept in English."""
    from ..book.season import load_season
    from ..journal import open_journal
    from ..screens.season import Clock, SeasonPlayer
    from ..screens.season_lines import render_happened, render_season_end, render_season_intro

    clock, out = Clock(), common.page()
    with common.in_english(folder) as book, open_journal(folder, now=clock.now) as journal:
        render_season_intro(out)
        for happened in SeasonPlayer(book, journal, clock).play(load_season(built_in_demo() / "season")):
            render_happened(happened, out, book)
        render_season_end(journal, out)
