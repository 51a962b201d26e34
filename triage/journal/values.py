"""What may enter the journal: real days, real numbers, real JSON; and a reading as JSON and back."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import msgspec

from triage.errors import UsageError
from triage.model.quantity import Reading

BROKEN_TEXT = "the text holds a broken character that cannot be kept: type it again"


def check_day(day: str) -> str:
    """The day itself if it is an ISO date (days are sorted as text); else UsageError.

    >>> check_day("2026-05-04")
    '2026-05-04'
    """
    try:
        known = date.fromisoformat(day).isoformat()
    except ValueError:
        known = None
    if known != day:
        raise UsageError(f"'{day}' is not a day: write it as year-month-day, for example 2026-05-04")
    return day


def check_json(text: str) -> str:
    """The text itself if it is JSON; else UsageError."""
    try:
        msgspec.json.decode(text)
    except (msgspec.DecodeError, RecursionError) as error:
        raise UsageError(f"not JSON: {error}") from error
    return text


def is_keepable(reading: Reading) -> bool:
    """Whether its numbers are finite and its ends lie right; an end may be without limit."""
    try:
        finite = math.isfinite(reading.value) and math.isfinite(reading.step)
    except OverflowError:  # a whole number beyond any float
        return False
    return finite and reading.low <= reading.high and reading.low < math.inf and reading.high > -math.inf


def reading_to_row(reading: Reading) -> dict[str, Any]:
    """The reading by column; an end without limit is None. UsageError for numbers or days that cannot be."""
    if not is_keepable(reading):
        raise UsageError(f"the reading of {reading.quantity} is not a number that can be kept")
    row = msgspec.structs.asdict(reading)
    row["day"] = check_day(row.pop("on"))
    row["low"] = None if math.isinf(reading.low) else reading.low
    row["high"] = None if math.isinf(reading.high) else reading.high
    return row


def row_to_reading(row: dict[str, Any]) -> Reading:
    """The reading of a row; msgspec.ValidationError if the row is no reading (a damaged file)."""
    fields = {name: row["day" if name == "on" else name] for name in Reading.__struct_fields__}
    fields["low"] = -math.inf if fields["low"] is None else fields["low"]
    fields["high"] = math.inf if fields["high"] is None else fields["high"]
    fields["derived"] = bool(fields["derived"])
    return msgspec.convert(fields, Reading)


def encode_reading(reading: Reading) -> str:
    """The reading as JSON text for an answer's payload; ends without limit are null.

    >>> encode_reading(Reading(quantity="tan", value=0.25, bound="<=", low=-math.inf, high=0.25, on="2026-05-04"))
    '{"quantity":"tan","value":0.25,"bound":"<=","low":null,"high":0.25,"on":"2026-05-04"}'
    """
    reading_to_row(reading)
    try:
        return msgspec.json.encode(reading).decode()
    except UnicodeEncodeError as error:
        raise UsageError(BROKEN_TEXT) from error


def decode_reading(text: str) -> Reading:
    """The reading that ``encode_reading`` wrote; UsageError for anything else.

    >>> reading = Reading(quantity="iron", value=5.0, bound=">=", low=5.0, high=math.inf, on="2026-05-04")
    >>> decode_reading(encode_reading(reading)) == reading
    True
    """
    try:
        fields = msgspec.json.decode(text, type=dict[str, Any])
        if fields.get("low", 0) is None:
            fields["low"] = -math.inf
        if fields.get("high", 0) is None:
            fields["high"] = math.inf
        return msgspec.convert(fields, Reading)
    except msgspec.MsgspecError as error:
        raise UsageError(f"not a reading: {error}") from error
