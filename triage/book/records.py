"""Plain data → one frozen record, with every fault named by line, what is allowed and the nearest match."""

from __future__ import annotations

import re
import types
from functools import cache
from typing import Any, Literal, Union, get_args, get_origin

import msgspec

from ..errors import Fault, nearest
from .yaml_tree import Document, Path

_AT = r" - at `(?:key in )?\$(?P<path>[^`]*)`$"
_STEP = r"\.([^.\[]+)|\[(\d+)\]|\[(\.\.\.)\]"


def _literal_words(kind: Any) -> tuple[str, ...]:
    """The words a (possibly optional or union) literal type allows."""
    if get_origin(kind) is Literal:
        return tuple(str(word) for word in get_args(kind))
    if get_origin(kind) in (Union, types.UnionType):
        return tuple(word for part in get_args(kind) for word in _literal_words(part))
    return ()


def _step_into(kind: Any, step: str | int) -> Any:
    origin, args = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        for part in args:
            inner = _step_into(part, step)
            if inner is not None:
                return inner
        return None
    if origin in (list, tuple):
        return args[0]
    if origin is dict:
        return args[1]
    if isinstance(kind, type) and issubclass(kind, msgspec.Struct):
        return next((f.type for f in msgspec.structs.fields(kind) if f.encode_name == step), None)
    return None


def _parse_path(text: str, data: Any) -> Path:
    """msgspec's '$.a[0].b' as our path; '[...]' (a dict value it does not name) ends it."""
    steps: list[str | int] = []
    for name, index, dots in re.findall(_STEP, text):
        if dots:
            break
        steps.append(int(index) if index else name)
    return tuple(steps)


def _culprit(kind: Any, data: Any, steps: Path) -> Path:
    """msgspec hides which value of a dict is wrong: try them one by one."""
    inner_kind, inner = kind, data
    for step in steps:
        inner_kind = _step_into(inner_kind, step)
        try:
            inner = inner[step]
        except (KeyError, IndexError, TypeError):
            return steps
    dict_kind = next((k for k in (inner_kind, *get_args(inner_kind)) if get_origin(k) is dict), None)
    if dict_kind is None or not isinstance(inner, dict):
        return steps
    for key, value in inner.items():
        try:
            msgspec.convert(value, get_args(dict_kind)[1], strict=True)
        except msgspec.ValidationError as error:
            found = re.search(_AT, str(error))
            return (*steps, key, *_parse_path(found["path"] if found else "", value))
    return steps


def _explain(message: str, kind: Any, data: Any, steps: Path) -> str:
    for step in steps:
        kind = _step_into(kind, step)
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return message
    words = _literal_words(kind)
    if words and isinstance(data, str):
        return f"'{data}' is not allowed (allowed: {', '.join(words)}{nearest(data, words)})"
    unknown = re.match(r"Object contains unknown field `(.+)`", message)
    if unknown and (names := _field_names(kind)):
        return f"unknown key '{unknown[1]}' (allowed: {', '.join(names)}{nearest(unknown[1], names)})"
    return f"{message[0].lower()}{message[1:]}".replace("`", "'")


def _field_names(kind: Any) -> list[str]:
    for part in (kind, *get_args(kind)):
        if isinstance(part, type) and issubclass(part, msgspec.Struct):
            return [f.encode_name for f in msgspec.structs.fields(part)]
    return []


@cache
def fields_of(cls: type[msgspec.Struct]) -> dict[str, msgspec.structs.FieldInfo]:
    """The fields of a record by the key authors write."""
    return {f.encode_name: f for f in msgspec.structs.fields(cls)}


def build_record(cls: type[msgspec.Struct], data: Any, document: Document, base: Path, name: str) -> Any:
    """Convert ``data`` (found at path ``base`` of ``document``) to ``cls``; faults go to ``document.faults``.

    Returns None when anything was wrong. Every field is tried on its own, so one wrong value hides no other.
    """

    def fault(path: Path, code: str, message: str) -> None:
        document.faults.append(Fault(name, document.line((*base, *path)), "error", code, message))

    if not isinstance(data, dict):
        fault((), "KB103", f"expected a mapping with keys, got {type(data).__name__}")
        return None
    before = len(document.faults)
    fields = fields_of(cls)
    for key in data:
        if key not in fields:
            allowed = ", ".join(fields)
            fault((key,), "KB101", f"unknown key '{key}' (allowed: {allowed}{nearest(key, fields)})")
    values: dict[str, Any] = {}
    for key, info in fields.items():
        if key not in data:
            if info.required:
                fault((), "KB102", f"key '{key}' is missing")
            continue
        try:
            values[info.name] = msgspec.convert(data[key], info.type, strict=True)
        except msgspec.ValidationError as error:
            found = re.search(_AT, str(error))
            steps = _culprit(info.type, data[key], _parse_path(found["path"] if found else "", data[key]))
            message = re.sub(_AT, "", str(error))
            fault((key, *steps), "KB103", f"{key}: {_explain(message, info.type, data[key], steps)}")
    return cls(**values) if len(document.faults) == before else None


def texts_of(value: object) -> list[str]:
    """Every text in a record that may be a source id."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        return [word for inner in value.values() for word in texts_of(inner)]
    if isinstance(value, list | tuple):
        return [word for inner in value for word in texts_of(inner)]
    fields = getattr(value, "__struct_fields__", ())
    return [word for name in fields for word in texts_of(getattr(value, name))]
