"""One list of what is due, the most urgent first."""

from __future__ import annotations

from typing import Literal

import msgspec

FORMAT = "triage-today/1"
#: alarm: cannot wait; wait: no harvest yet; step: the next spray, dose or round; look: a recheck; watch: a look at
#: neighbours of what spreads; retest: changed on purpose and not tested since; test: the usual test of the water;
#: series: begun and not finished.
DueKind = Literal["alarm", "wait", "step", "look", "watch", "retest", "test", "series"]


class DueLine(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is due. ``due`` is its day; ``late`` the days since then, below nothing while it is still to come.

    For ``wait``, ``due`` is the day from which one may harvest. ``bed`` and ``cause``: of a ``watch``, where to look
    and for what.
    """

    kind: DueKind
    due: str
    late: int
    say: str
    case: int | None = None
    treatment: str = ""
    quantity: str = ""
    name: str = ""  # of the quantity
    last: str = ""  # day of its last test
    bed: str = ""
    cause: str = ""
    command: str = ""


class DueReport(msgspec.Struct, frozen=True, kw_only=True):
    """What is due on a day, and what comes in the days after."""

    format: str = FORMAT
    on: str
    due: tuple[DueLine, ...]
    coming: tuple[DueLine, ...]
