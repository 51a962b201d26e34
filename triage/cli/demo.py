"""`triage demo`: the made-up glasshouse, played through the real series on a throw-away home."""

from __future__ import annotations

import tempfile
from pathlib import Path

import click

from ..book.places import built_in_demo
from . import common
from .common import home_option


@click.command()
@home_option
def demo(home: str | None) -> None:
    """Play the demo: a school glasshouse, four days, four questions. Nothing of it is kept.

    Example: triage demo
    """
    from ..screens.demo import play_demo

    with tempfile.TemporaryDirectory(prefix="triage-demo-") as folder:
        journal = common.open_home_journal(Path(folder))
        with journal:
            play_demo(built_in_demo(), common.open_own_book(Path(folder)), journal, common.console())
