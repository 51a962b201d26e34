"""Pictures side by side on one SVG page, each with its title and its words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from . import words
from .catalogue import Shown
from .svg import SvgWriter, bar, label, page

#: Width of one panel of an SVG page, and what its title and words need above and below.
PANEL, TITLE, TEXT_LINE = 330.0, 34.0, 17.0
_ID = re.compile(r'(?<=[ <])id="|="url\(#|href="#')


def svg_page(panels: Sequence[Shown]) -> str:
    """Pictures side by side (three in a row) on one SVG page, each with its title above and its words below."""
    across = min(3, len(panels))
    writer, body, top = SvgWriter(), [], 0.0
    for first in range(0, len(panels), across):
        row = panels[first : first + across]
        body += [_panel(writer, panel, place * PANEL, top) for place, panel in enumerate(row)]
        top += max(_panel_height(panel) for panel in row)
    said = " ".join(f"{panel.title}: {panel.says}" for panel in panels)
    return page(across * PANEL, top, "; ".join(panel.title for panel in panels), said, "".join(body))


def svg_figure(panel: Shown, name: str) -> str:
    """One picture without its words, which stand beside it in the page. Its ids begin with ``name``, so that several
    pictures can stand in one document."""
    widths = _widths(panel)
    body, left, writer = "", 0.0, SvgWriter()
    tall = max(w * s.height / s.width for w, s in zip(widths, panel.scenes, strict=True))
    bars = 26 if any(scene.bar_mm for scene in panel.scenes) else 0
    for scene, width in zip(panel.scenes, widths, strict=True):
        body += writer.scene(scene, left, tall - width * scene.height / scene.width, width)
        if scene.bar_mm:
            body += bar(left, tall + 8, width * scene.bar_length / scene.width, words.BAR.format(mm=scene.bar_mm))
        left += width + 10
    text = page(left - 10, tall + bars, panel.title, panel.says, body)
    text = text.replace('aria-labelledby="t d"', f'aria-labelledby="{name}-t {name}-d"', 1)
    return _ID.sub(rf"\g<0>{name}-", text)


def _widths(panel: Shown) -> list[float]:
    """Scenes share the panel: each as wide as makes them equally tall, none larger than it need be."""
    room = PANEL - 30 - 10 * (len(panel.scenes) - 1)
    shapes = [scene.width / scene.height for scene in panel.scenes]
    tall = min(210.0, room / sum(shapes))
    return [tall * shape for shape in shapes]


def _panel_height(panel: Shown) -> float:
    tall = max(w * s.height / s.width for w, s in zip(_widths(panel), panel.scenes, strict=True))
    bars = 26 if any(scene.bar_mm for scene in panel.scenes) else 0
    return TITLE + tall + bars + TEXT_LINE * len(_folded(panel.says)) + 24


def _panel(writer: SvgWriter, panel: Shown, x: float, y: float) -> str:
    widths = _widths(panel)
    left = x + (PANEL - sum(widths) - 10 * (len(widths) - 1)) / 2
    tall = max(w * s.height / s.width for w, s in zip(widths, panel.scenes, strict=True))
    parts = [label(x + PANEL / 2, y + 24, panel.title, 16, bold=True, middle=True)]
    low = y + TITLE + tall
    for scene, width in zip(panel.scenes, widths, strict=True):
        parts.append(writer.scene(scene, left, low - width * scene.height / scene.width, width))
        if scene.bar_mm:
            parts.append(bar(left, low + 8, width * scene.bar_length / scene.width, words.BAR.format(mm=scene.bar_mm)))
        left += width + 10
    low += 26 if any(scene.bar_mm for scene in panel.scenes) else 0
    for number, text in enumerate(_folded(panel.says), start=1):
        parts.append(label(x + 15, low + 4 + TEXT_LINE * number, text, 12))
    return "".join(parts)


def _folded(says: str, most: int = 46) -> list[str]:
    """Words in lines for a panel."""
    lines = [""]
    for word in says.split():
        if len(lines[-1]) + len(word) >= most and lines[-1]:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines
