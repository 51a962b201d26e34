"""Plain data plus the line of every value, built from what a reader of YAML meets, all faults collected.

A stack of its own instead of recursion: neither deep nesting nor an alias bomb can exhaust memory.
"""

from __future__ import annotations

import re
from typing import Any

from ..errors import Fault

Path = tuple[str | int, ...]

MAX_DEPTH = 20
MAX_CHARACTERS = 2_000_000
_INT = r"[-+]?(0|[1-9]\d{0,15})$"
_FLOAT = r"[-+]?(0|[1-9]\d{0,15})\.\d{1,20}$"
_BOOLEAN_TRAPS = {"y", "n", "yes", "no", "on", "off"}
_BOOLEAN_SHAPES = {"True", "TRUE", "False", "FALSE"}
_EMPTY = {"", "~", "null", "Null", "NULL"}
_NUMBER_TRAP = (
    r"(?i)[-+]?(0\d+|0x[0-9a-f]+|0o[0-7]+|\d[\d_]*_[\d_]*|\.\d+|\d+\.|\d+(\.\d+)?e[-+]?\d+|\.(inf|nan)|\d{17,})$"
)
_CONTROL = r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]"


class Document:
    """What one file held: plain data, the line of each path, and the faults met on the way."""

    def __init__(self, data: Any, lines: dict[Path, int], faults: list[Fault]) -> None:
        self.data = data
        self.lines = lines
        self.faults = faults

    def line(self, path: Path) -> int:
        """Line of the nearest known ancestor of ``path`` (1 if nothing is known)."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


class _Frame:
    """One open mapping or sequence."""

    __slots__ = ("items", "key", "path")

    def __init__(self, items: Any, path: Path) -> None:
        self.items = items
        self.path = path
        self.key: str | None = None

    def next_path(self) -> Path:
        step: str | int = len(self.items) if isinstance(self.items, list) else (self.key or "")
        return (*self.path, step)

    def put(self, value: Any) -> None:
        if isinstance(self.items, list):
            self.items.append(value)
        else:
            self.items[self.key] = value
            self.key = None


class Tree:
    """Takes what a reader meets, in order; lines count from 1."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.lines: dict[Path, int] = {}
        self.faults: list[Fault] = []
        self.stack: list[_Frame] = []
        self.root: Any = None

    @property
    def document(self) -> Document:
        return Document(self.root, self.lines, self.faults)

    def fault(self, line: int, code: str, message: str) -> None:
        self.faults.append(Fault(self.name, line, "error", code, message))

    def open(self, items: Any, line: int) -> None:
        """A mapping ({}) or a list ([]) begins."""
        if self._wants_key():
            self.fault(line, "KB001", "a list or mapping cannot be a key (write a plain word)")
            self.stack[-1].key = ""
        path = self.stack[-1].next_path() if self.stack else ()
        self.lines.setdefault(path, line)
        self.stack.append(_Frame(items, path))

    def close(self) -> None:
        """The innermost mapping or list ends."""
        frame = self.stack.pop()
        if self.stack:
            self.stack[-1].put(frame.items)
        else:
            self.root = frame.items

    def scalar(self, text: str, line: int, *, quoted: bool) -> None:
        """A key, or a value; unquoted values become numbers and truth values where they are written plainly."""
        if not text.isprintable() and re.search(_CONTROL, text):
            self.fault(line, "KB006", "control characters are not allowed in texts")
            text = re.sub(_CONTROL, "", text)
        if self._wants_key():
            self._key(text, line)
        else:
            self._value(text if quoted else self._resolve(text, line), line)

    def _wants_key(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1].items, dict) and self.stack[-1].key is None

    def _key(self, text: str, line: int) -> None:
        frame = self.stack[-1]
        frame.key = text
        if text in frame.items:
            first = self.lines.get((*frame.path, text), 0)
            self.fault(line, "KB002", f"key '{text}' stands twice in one mapping (first at line {first})")
        self.lines[(*frame.path, text)] = line

    def _value(self, value: Any, line: int) -> None:
        if not self.stack:
            self.root = value
            self.lines[()] = line
            return
        self.lines.setdefault(self.stack[-1].next_path(), line)
        self.stack[-1].put(value)

    def _resolve(self, text: str, line: int) -> Any:
        if text in ("true", "false"):
            return text == "true"
        if text in _EMPTY:
            self.fault(line, "KB004", "empty value (leave the key out, or write one)")
            return ""
        if text in _BOOLEAN_SHAPES or text.lower() in _BOOLEAN_TRAPS:
            self.fault(line, "KB003", f"'{text}' may be read as yes or no (write true, false, or quote it)")
            return text
        return self._number(text, line) if text[0] in "-+.0123456789" or not text.isascii() else text

    def _number(self, text: str, line: int) -> Any:
        if re.match(_INT, text):
            return int(text)
        if re.match(_FLOAT, text):
            return float(text)
        if re.match(_NUMBER_TRAP, text):
            self.fault(line, "KB003", f"'{text}' is not a plain number (write 0.001 or 12; quote it if it is text)")
        return text
