"""The small charts of a case on its page: every reading once, limits that say whose they are, round ticks."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from triage.report.case_sheet import LimitLine, MeasuredLine
from triage.report.own_words import Own
from triage.screens.sheet_chart import HEIGHT, WIDTH, draw_chart, nice_ticks


def measured(day: int, value: float, bound: str = "=", low: float | None = None, high: float | None = None) -> Any:
    return MeasuredLine(
        quantity="ph", name="pH <of> the water", on=f"2026-05-{day:02d}", time="", value=value, bound=bound, unit="pH",
        low=value if low is None else low, high=value if high is None else high, step=0.0, kit="", point="",
        note=Own(""),
    )  # fmt: skip


def test_a_chart_shows_each_reading_once() -> None:
    readings = [measured(1, 6.4), measured(8, 6.8, low=6.6, high=7.0), measured(9, 7.6, ">="), measured(10, 6.0, "<=")]
    svg = draw_chart(
        readings, None, first="2026-05-01", last="2026-05-10", looks=["2026-05-04", "2026-06-30"], deeds=["2026-05-05"]
    )
    assert svg.count("<circle") == 2
    assert svg.count('stroke="#111"/>') == 1  # the span of the one kit
    assert svg.count('z" fill="#111"/>') == 2  # arrows of limits
    assert svg.count("stroke-dasharray") == 1  # the look within the days shown
    assert "pH &lt;of&gt; the water" in svg
    assert "4 readings" in svg


def test_what_lies_beyond_a_limit_is_grey_and_says_whose_it_is() -> None:
    limit = LimitLine(quantity="ph", low=6.5, low_for="Shrimp & co", high=9.0, high_for="Carp", sources=())
    days = {"first": "2026-05-01", "last": "2026-05-10", "looks": (), "deeds": ()}
    svg = draw_chart([measured(1, 6.4), measured(8, 6.8)], limit, **days)  # type: ignore[arg-type]
    (band,) = re.findall(r'<rect [^>]*y="([\d.]+)"', svg)
    below, above = (y for _, y in places(svg))
    assert above < float(band) < below  # the lower reading lies in the grey
    assert "6.5 Shrimp &amp; co" in svg
    assert "Carp" not in svg  # too far away to be shown


@given(values=st.lists(st.floats(-1e4, 1e6), min_size=1, max_size=6))
def test_ticks_hold_every_value_and_are_few(values: list[float]) -> None:
    low, high = min(values), max(values)
    ticks = nice_ticks(low, high)
    assert ticks == sorted(set(ticks))
    assert 2 <= len(ticks) <= 7
    room = 1e-6 * max(abs(low), abs(high), 1.0)
    assert ticks[0] <= low + room
    assert ticks[-1] >= high - room


def places(svg: str) -> Iterator[tuple[float, float]]:
    for x, y in re.findall(r'cx="([-\d.]+)" cy="([-\d.]+)"', svg):
        yield float(x), float(y)


@given(
    values=st.lists(st.tuples(st.integers(1, 28), st.floats(0, 500)), min_size=1, max_size=12),
    pick=st.sampled_from([min, max]),
)
def test_every_dot_lies_inside_and_higher_is_higher(
    values: list[tuple[int, float]], pick: Callable[..., tuple[int, float]]
) -> None:
    readings = [measured(day, value) for day, value in sorted(values)]
    svg = draw_chart(readings, None, first="2026-05-01", last="2026-05-28", looks=(), deeds=())
    dots = list(places(svg))
    assert all(0 < x < WIDTH and 0 < y < HEIGHT for x, y in dots)
    extreme = pick(range(len(readings)), key=lambda n: readings[n].value)
    wanted = (max if pick is min else min)(y for _, y in dots)
    assert dots[extreme][1] == wanted
