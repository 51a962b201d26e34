"""Readings as they come → one record with the interval that the true value lies in. Forms are never guessed."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Mapping

from ..errors import UsageError, nearest
from ..model.interval import Interval
from ..model.quantity import Bound, Quantity, Reading
from .kits import EXACT, check_kit, kit_span, points_of
from .units import to_own_unit, units_meant
from .values import Value, parse_value

POINTS = ("fish-tank", "sump", "bed", "top-up")
BOUNDS: tuple[Bound, ...] = ("=", "<=", ">=", "<", ">")
_ASSIGNMENT = r"(?s)\s*(?P<name>[^\W\d][\w\s.-]*?)\s*(?P<rest>[<>≤≥=:].*)$"
_SIGN = r"^:|^=(?!\s*[<>][^=])"  # an equals sign, unless it belongs to a bound written =<


def find_quantity(name: str, quantities: Mapping[str, Quantity]) -> Quantity:
    """The quantity that a word names: its id, another name of it, or its symbol; case does not matter.

    Raises:
        UsageError: nothing is called so, or it is worked out and cannot be typed in.
    """
    word = re.sub(r"[\s_]+", "-", name.strip().casefold())
    if word in quantities and not quantities[word].derived:
        return quantities[word]
    names = {
        spelling.casefold().replace(" ", "-"): quantity
        for quantity in quantities.values()
        for spelling in (*quantity.short, *quantity.also, quantity.quantity)
    }
    found = names.get(word)
    if found is None:
        allowed = [id_ for id_, quantity in quantities.items() if not quantity.derived]
        raise UsageError(f"no reading '{name}'{nearest(word, names)} (allowed: {', '.join(allowed)})")
    if found.derived:
        raise UsageError(f"'{found.quantity}' is worked out from other readings and cannot be entered")
    return found


def parse_assignment(
    text: str, quantities: Mapping[str, Quantity], *, on: str = "", kit: str = "", time: str = "", point: str = ""
) -> Reading:
    """A reading from one word of a command line.

    Args:
        text: such as ``ph=7.2``, ``tan<=0.25``, ``temperature=77F``, ``kh=4dKH``, ``nitrate=9mg/L N``, or with the
            sampling point before it ``top-up chlorine=0.5``.
        quantities: quantities of the book by id.
        on, kit, time, point: see :func:`make_reading`.

    Raises:
        UsageError: one line on what is wrong and what is allowed.
    """
    match = re.match(_ASSIGNMENT, text)
    if match is None:
        raise UsageError(f"'{text}' is not a reading (write name=value, for example ph=7.2 or tan<=0.25)")
    value = re.sub(_SIGN, "", match["rest"])
    said, name = _split_point(match["name"], quantities)
    return make_reading(name, value, quantities, on=on, kit=kit, time=time, point=said or point)


def _split_point(name: str, quantities: Mapping[str, Quantity]) -> tuple[str, str]:
    """The sampling point before a name ('top-up chlorine'), and the name without it."""
    plain = re.sub(r"[\s_]+", "-", name.strip().casefold())
    if plain in quantities and not quantities[plain].derived:
        return "", name
    point = next((point for point in POINTS if plain.startswith(f"{point}-")), "")
    return point, plain.removeprefix(f"{point}-")


def make_reading(
    quantity: str, value: float | str, quantities: Mapping[str, Quantity], *, unit: str = "",
    bound: Bound | None = None, kit: str = "", step: float | None = None, on: str = "", time: str = "",
    point: str = "",
) -> Reading:  # fmt: skip
    """A reading in its quantity's own unit, as the interval that the true value lies in.

    Args:
        quantity: id, other name or symbol.
        value: number or text; a text may bring a bound, a range and a unit.
        quantities: quantities of the book by id.
        unit: unit as typed. Where it leaves the form open, the interval spans every form that is possible.
        bound: ``<=``, ``>=``, ``<`` or ``>`` for a value that is only a limit.
        kit: kind of kit (card, drops, strip, meter, lab, or one that the quantity lists); a plain value is exact.
        step: step of the kit in the unit typed, where it is known better.
        on: ISO date. time: HH:MM. point: one of ``POINTS``.

    Returns:
        The reading. An open end (a bound, the last colour of a card) reaches to what is likely in such a system, or
        to what is possible where the value lies beyond the likely already.

    Raises:
        UsageError: one line on what is wrong and what is allowed.
    """
    named = find_quantity(quantity, quantities)
    kept = quantities.get(named.same_as, named)
    check_kit(kit, quantities.values())
    written = _written(named, value, unit, bound)
    units = _possible_units(named, written, units_meant(named, written.unit))
    spans = [_span(named, written, name, kit, step) for name in units]
    low, high = min(span.low for span in spans), max(span.high for span in spans)
    centre = [to_own_unit(named, (written.low + written.high) / 2, name) for name in units]
    return Reading(
        quantity=kept.quantity, value=_value(written.bound, centre), unit=kept.unit, bound=written.bound,
        step=_step(named, kit, step, units[0]), low=low, high=high, on=_date(on), time=_time(time), kit=kit,
        point=_point(point), note="; ".join(_notes(named, written, units, kit, centre)),
    )  # fmt: skip


def _written(quantity: Quantity, value: float | str, unit: str, bound: Bound | None) -> Value:
    try:
        written = parse_value(value)
    except UsageError as error:
        raise UsageError(f"{quantity.quantity}: {error}") from None
    if bound is not None and bound not in BOUNDS:
        raise UsageError(f"{quantity.quantity}: no bound '{bound}' (allowed: {', '.join(BOUNDS)})")
    if bound not in (None, "=") and written.bound not in ("=", bound):
        raise UsageError(f"{quantity.quantity}: '{value}' has two bounds, {written.bound} and {bound}")
    if unit and written.unit and units_meant(quantity, unit) != units_meant(quantity, written.unit):
        raise UsageError(f"{quantity.quantity}: '{value}' has two units, {written.unit} and {unit}")
    limit = written.bound if bound in (None, "=") else bound
    return Value(limit, written.low, written.high, written.unit or unit)


def _possible_units(quantity: Quantity, written: Value, units: tuple[str, ...]) -> tuple[str, ...]:
    """Those units in which the value can be true at all."""
    least, most = quantity.possible

    def fits(name: str) -> bool:
        return all(least <= to_own_unit(quantity, number, name) <= most for number in (written.low, written.high))

    found = tuple(name for name in units if fits(name))
    if found:
        return found
    number = f"{written.low:g}" if written.low == written.high else f"{written.low:g} to {written.high:g}"
    said = written.unit or quantity.unit
    hints = [f"in {name} it could be" for name in quantity.units if name not in units and fits(name)][:1]
    allowed = "; ".join([f"possible: {least:g} to {most:g} {quantity.unit}", *hints])
    raise UsageError(f"{quantity.quantity}: {number} {said} is not possible ({allowed})")


def _span(quantity: Quantity, written: Value, unit: str, kit: str, step: float | None) -> Interval:
    times = quantity.units[unit].times if unit in quantity.units else 1.0
    if written.bound in ("<=", "<"):
        printed = Interval(-math.inf, written.high)
    elif written.bound in (">=", ">"):
        printed = Interval(written.low, math.inf)
    elif step is not None:
        printed = Interval(written.low - abs(step) / 2, written.high + abs(step) / 2)
    else:
        below, above = (kit_span(quantity, kit, number, times) for number in (written.low, written.high))
        printed = Interval(below.low, above.high)
    return _close(quantity, Interval(*(to_own_unit(quantity, end, unit) for end in (printed.low, printed.high))))


def _close(quantity: Quantity, span: Interval) -> Interval:
    """Open ends closed at what is likely (or possible, beyond it); nothing outside the possible."""
    least, most = quantity.possible
    usual_low, usual_high = quantity.likely or quantity.possible
    low, high = span.low, span.high
    if math.isinf(low):
        low = usual_low if usual_low < high else least
    if math.isinf(high):
        high = usual_high if usual_high > low else most
    return Interval(min(max(low, least), most), max(min(high, most), least))


def _value(bound: Bound, centre: list[float]) -> float:
    """The limit itself for a bound; else the middle of what the open forms give, to three digits."""
    if bound in ("<=", "<"):
        return max(centre)
    if bound in (">=", ">") or len(centre) == 1:
        return min(centre)
    return float(f"{(min(centre) + max(centre)) / 2:.3g}")


def _step(quantity: Quantity, kit: str, step: float | None, unit: str) -> float:
    if step is not None:
        return abs(step) * (quantity.units[unit].times if unit in quantity.units else 1.0)
    return quantity.kit_step if kit and kit not in EXACT else 0.0


def _notes(quantity: Quantity, written: Value, units: tuple[str, ...], kit: str, centre: list[float]) -> list[str]:
    found = []
    if len(units) > 1 and min(centre) < max(centre):  # nothing is nothing in every form
        found.append(f"form not said: read as {' or '.join(units)}")
    if quantity.likely and not any(quantity.likely[0] <= value <= quantity.likely[1] for value in centre):
        found.append(f"unlikely: usually {quantity.likely[0]:g} to {quantity.likely[1]:g} {quantity.unit}, look again")
    points = points_of(quantity, kit)
    if points and written.bound == "=" and (written.high >= max(points) or written.low <= min(points) != 0):
        found.append("end of the card: at or beyond")
    if kit and kit not in EXACT and quantity.effort == "test-kit" and not points and not quantity.kit_step:
        found.append("steps of this kit not known: taken as exact")
    return found


def _date(on: str) -> str:
    try:
        return datetime.date.fromisoformat(on).isoformat() if on else ""
    except ValueError:
        raise UsageError(f"'{on}' is not a date (write it like 2026-05-03)") from None


def _time(time: str) -> str:
    if time and not re.fullmatch(r"([01]\d|2[0-3]):[0-5]\d", time):
        raise UsageError(f"'{time}' is not a time of day (write it like 08:30)")
    return time


def _point(point: str) -> str:
    if point and point not in POINTS:
        raise UsageError(f"no sampling point '{point}' (allowed: {', '.join(POINTS)}{nearest(point, POINTS)})")
    return point
