"""YAML without its traps: plain data plus the line of every value, all faults collected.

The one door to the ``yaml`` library. Works on the event stream with a stack of its own, so that neither deep nesting
nor an alias bomb can exhaust memory or recursion.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import yaml

from ..errors import Fault

Path = tuple[str | int, ...]

MAX_DEPTH = 20
MAX_BYTES = 2_000_000
_INT = re.compile(r"[-+]?(0|[1-9]\d{0,15})$")
_FLOAT = re.compile(r"[-+]?(0|[1-9]\d{0,15})\.\d{1,20}$")
_BOOLEAN_TRAP = re.compile(r"(?i:y|n|yes|no|on|off)$|True$|TRUE$|False$|FALSE$")
_NUMBER_TRAP = re.compile(
    r"[-+]?(0\d+|0x[0-9a-fA-F]+|0o[0-7]+|\d[\d_]*_[\d_]*|\.\d+|\d+\.|\d+(\.\d+)?[eE][-+]?\d+|\.(inf|nan)|\d{17,})$",
    re.I,
)
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")


@dataclass
class Document:
    """What one file held: plain data, the line of each path, and the faults met on the way."""

    data: Any
    lines: dict[Path, int]
    faults: list[Fault] = field(default_factory=list)

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


class _Builder:
    def __init__(self, name: str) -> None:
        self.name = name
        self.lines: dict[Path, int] = {}
        self.faults: list[Fault] = []
        self.stack: list[_Frame] = []
        self.root: Any = None

    def fault(self, mark: Any, code: str, message: str) -> None:
        self.faults.append(Fault(self.name, mark.line + 1, "error", code, message))

    def wants_key(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1].items, dict) and self.stack[-1].key is None

    def value(self, value: Any, mark: Any) -> None:
        if not self.stack:
            self.root = value
            self.lines[()] = mark.line + 1
            return
        self.lines.setdefault(self.stack[-1].next_path(), mark.line + 1)
        self.stack[-1].put(value)

    def open(self, items: Any, mark: Any) -> None:
        if self.wants_key():
            self.fault(mark, "KB001", "a list or mapping cannot be a key (write a plain word)")
            self.stack[-1].key = ""
        path = self.stack[-1].next_path() if self.stack else ()
        self.lines.setdefault(path, mark.line + 1)
        self.stack.append(_Frame(items, path))

    def close(self, mark: Any) -> None:
        frame = self.stack.pop()
        if self.stack:
            self.stack[-1].put(frame.items)
        else:
            self.root = frame.items

    def scalar(self, event: Any) -> None:
        text = event.value
        if _CONTROL.search(text):
            self.fault(event.start_mark, "KB006", "control characters are not allowed in texts")
            text = _CONTROL.sub("", text)
        self.plain(text if self.wants_key() else self._resolve(text, event), event.start_mark)

    def plain(self, value: Any, mark: Any) -> None:
        if self.wants_key():
            self._key(value, mark)
        else:
            self.value(value, mark)

    def _key(self, text: str, mark: Any) -> None:
        frame = self.stack[-1]
        frame.key = text
        if text in frame.items:
            first = self.lines.get((*frame.path, text), 0)
            self.fault(mark, "KB002", f"key '{text}' stands twice in one mapping (first at line {first})")
        self.lines[(*frame.path, text)] = mark.line + 1

    def _resolve(self, text: str, event: Any) -> Any:
        if event.style or event.tag:
            return text
        if text in ("true", "false"):
            return text == "true"
        if _INT.match(text):
            return int(text)
        if _FLOAT.match(text):
            return float(text)
        if text in ("", "~", "null", "Null", "NULL"):
            self.fault(event.start_mark, "KB004", "empty value (leave the key out, or write one)")
            return ""
        if _BOOLEAN_TRAP.match(text):
            self.fault(event.start_mark, "KB003", f"'{text}' may be read as yes or no (write true, false, or quote it)")
        elif _NUMBER_TRAP.match(text):
            self.fault(
                event.start_mark, "KB003", f"'{text}' is not a plain number (write 0.001 or 12; quote it if it is text)"
            )
        return text


def _depth_fault(builder: _Builder, mark: Any) -> bool:
    if len(builder.stack) < MAX_DEPTH:
        return False
    builder.fault(mark, "KB006", f"nested deeper than {MAX_DEPTH} levels")
    return True


def _feed(builder: _Builder, event: Any) -> bool:
    """Take one event; False stops reading."""
    mark = event.start_mark
    if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
        builder.fault(mark, "KB005", "anchors and aliases (&, *) are not used here (write the value out)")
    if isinstance(event, yaml.AliasEvent):
        builder.plain("", mark)
        return True
    if getattr(event, "tag", None):
        builder.fault(mark, "KB005", f"tags such as {event.tag} are not used here (write plain values)")
    if isinstance(event, yaml.ScalarEvent):
        builder.scalar(event)
    elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
        if _depth_fault(builder, mark):
            return False
        builder.open({} if isinstance(event, yaml.MappingStartEvent) else [], mark)
    elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
        builder.close(mark)
    return True


def parse_yaml(text: str, name: str) -> Document:
    """Read one YAML document strictly.

    ``name`` is the path shown in faults. The data hold only dict, list, str, int, float and bool. Dates and other
    plain words stay text.

    >>> doc = parse_yaml("a: 7.4\\nb: [x, yes]", "case.yaml")
    >>> doc.data, [(fault.line, fault.code) for fault in doc.faults]
    ({'a': 7.4, 'b': ['x', 'yes']}, [(2, 'KB003')])
    """
    builder = _Builder(name)
    if len(text) > MAX_BYTES:
        builder.faults.append(Fault(name, 1, "error", "KB006", f"larger than {MAX_BYTES:,} characters"))
        return Document(None, {}, builder.faults)
    documents = 0
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            documents += isinstance(event, yaml.DocumentStartEvent)
            if documents > 1:
                builder.fault(event.start_mark, "KB001", "more than one document (---) in the file")
                break
            if not _feed(builder, event):
                break
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        problem = getattr(error, "problem", None) or "cannot be read"
        line = mark.line + 1 if mark else 1
        builder.faults.append(Fault(name, line, "error", "KB001", f"not valid YAML: {problem}"))
    except ValueError as error:
        builder.faults.append(Fault(name, 1, "error", "KB001", f"not valid YAML: {error}"))
    return Document(builder.root, builder.lines, builder.faults)
