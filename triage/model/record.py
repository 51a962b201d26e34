"""The base of every knowledge entry: frozen, strict, with hyphenated keys as authors write them."""

from typing import Literal

import msgspec

Status = Literal["draft", "reviewed", "retired"]
Read = Literal["seen", "partly", "practice", "memory", "computed"]


class Record(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, rename="kebab", omit_defaults=True):
    """A frozen record whose keys are written with hyphens; unknown keys are refused."""


class Source(Record, frozen=True, kw_only=True):
    """Where a fact comes from and how far it was read.

    ``read`` says how much may be built on it: ``seen`` (the text was read), ``partly`` (opening or abstract),
    ``computed`` (our arithmetic), ``practice`` (common practice, no source), ``memory`` (recalled, not read).
    """

    source: str
    title: str
    publisher: str = ""
    year: str = ""
    address: str = ""
    read: Read = "seen"
    note: str = ""


class Sourced(Record, frozen=True, kw_only=True):
    """A number with its unit, its source and how far it was verified."""

    value: float
    unit: str
    source: str
    read: Read = "seen"
    note: str = ""
