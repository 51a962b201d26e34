"""What the grower typed, told apart by its type, so that it can be left out of a copy without naming a single field."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NewType, TypeVar

import msgspec

#: Text in the grower's own words: names, notes, files.
Own = NewType("Own", str)
AnyPart = TypeVar("AnyPart", bound=msgspec.Struct)


def without_own_words(part: AnyPart) -> AnyPart:
    """The same with everything of the type ``Own`` empty, however deep it lies."""
    return msgspec.structs.replace(part, **dict(_kept(part)))


def _kept(part: msgspec.Struct) -> Iterator[tuple[str, Any]]:
    for field in msgspec.structs.fields(part):
        value = getattr(part, field.name)
        if field.type is Own:
            yield field.name, ""
        elif field.type == tuple[Own, ...]:
            yield field.name, ()
        elif isinstance(value, msgspec.Struct):
            yield field.name, without_own_words(value)
        elif isinstance(value, tuple):
            yield field.name, tuple(without_own_words(v) if isinstance(v, msgspec.Struct) else v for v in value)


def printable(part: AnyPart) -> AnyPart:
    """The same with every text free of control characters, direction marks and broken characters."""
    cleaned: AnyPart = msgspec.convert(_cleaned(msgspec.to_builtins(part)), type(part))
    return cleaned


def _cleaned(value: Any) -> Any:
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, dict):
        return {key: _cleaned(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_cleaned(inner) for inner in value]
    return value


def clean(text: str) -> str:
    """Text in which everything can be seen; every kind of blank is one blank.

    >>> clean("web\\x1b[31mbing\\u202e\\tthere")
    'web[31mbing there'
    """
    return "".join(c if c.isprintable() else " " if c.isspace() else "" for c in text)
