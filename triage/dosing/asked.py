"""What was asked: the quantity, where it is to go, and which products of the book move it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import msgspec

from ..errors import UsageError, nearest
from ..model.book import Book
from ..model.quantity import Quantity
from ..model.treatment import DoseOf, Treatment
from ..water.readings import find_quantity, make_reading
from ..water.values import parse_number

PH, ALKALINITY = "ph", "alkalinity"


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """A question about a dose, as typed; None where nothing was said."""

    what: str
    to: str | None = None
    come_from: str | None = None
    using: str | None = None
    volume: str | None = None
    days: int | None = None
    grade: str | None = None
    animals: str | None = None
    readings: tuple[str, ...] = ()


class Product(msgspec.Struct, frozen=True):
    """A treatment and one way of dosing it; None where the book gives no dose (it is graded and refused)."""

    treatment: Treatment
    dose: DoseOf | None


class Wish(msgspec.Struct, frozen=True, kw_only=True):
    """The quantity that is to move, the target in its own unit (None: each product's usual one), the products.

    ``ratio_of``: the target is so many times this reading.
    """

    quantity: Quantity
    target: float | None
    products: tuple[Product, ...]
    ratio_of: str = ""


def understand(book: Book, asked: Asked) -> Wish:
    """The wish behind the words.

    Raises:
        UsageError: nothing in the book moves what was named, or the target cannot be read.
    """
    every = list(_products(book))
    own = [product for product in every if product.treatment.treatment == asked.what.casefold()]
    if own:
        quantity = book.quantities[_dose(own[0]).quantity]
        return Wish(quantity=quantity, target=_target(book, quantity, asked), products=tuple(own))
    ratio = [product for product in every if asked.what.casefold() in _spellings(book, _dose(product).ratio)]
    if ratio:
        dose = _dose(ratio[0])
        return Wish(
            quantity=book.quantities[dose.quantity], target=_times(asked, dose), ratio_of=dose.ratio_of,
            products=_chosen(book, ratio, asked),
        )  # fmt: skip
    quantity = find_quantity(asked.what, book.quantities)
    kept = book.quantities.get(quantity.same_as, quantity)
    moved = ALKALINITY if kept.quantity == PH else kept.quantity
    fit = [product for product in every if _dose(product).quantity == moved]
    if not fit:
        can = sorted({_dose(product).quantity for product in every} | {PH})
        raise UsageError(f"nothing in the book is dosed for '{asked.what}' (allowed: {', '.join(can)})")
    return Wish(quantity=kept, target=_target(book, quantity, asked), products=_chosen(book, fit, asked))


def _products(book: Book) -> Iterator[Product]:
    for treatment in book.treatments.values():
        for dose in ([treatment.dose] if treatment.dose else []) + treatment.doses:
            yield Product(treatment, dose)


def _dose(product: Product) -> DoseOf:
    assert product.dose is not None  # those of the book's doses have one
    return product.dose


def _chosen(book: Book, products: list[Product], asked: Asked) -> tuple[Product, ...]:
    """Those that the grower named; all of them where he named none.

    What has no dose is answered for as well: it is graded, and the reason is told.
    """
    if asked.using is None:
        return tuple(products)
    wanted = asked.using.casefold().strip()
    undosed = [
        Product(t, None)
        for t in book.treatments.values()
        if t.kind == "water" and not t.dose and not t.doses and t.substances
    ]
    found = _called(book, products, wanted)
    if all(product.dose and product.dose.apart for product in found):  # none, or only in a barrel: say why not here
        found += _called(book, undosed, wanted)
    if found:
        return tuple(found)
    allowed = ", ".join(dict.fromkeys(product.treatment.treatment for product in products))
    every = {name for product in products for name in _names(book, product)}
    raise UsageError(f"'{asked.using}' does not move it (allowed: {allowed}{nearest(wanted, every)})")


def _called(book: Book, products: list[Product], wanted: str) -> list[Product]:
    """Those that bear the name; where none does, those whose name holds it as whole words."""
    for called in (lambda name: name == wanted, lambda name: f" {wanted} " in f" {re.sub('[-,]', ' ', name)} "):
        found = [product for product in products if any(called(name) for name in _names(book, product))]
        if found:
            return found
    return []


def _names(book: Book, product: Product) -> list[str]:
    substances = [book.substances[id_] for id_ in product.treatment.substances if id_ in book.substances]
    called = [name for s in substances for name in (s.substance, s.name, *s.also)]
    dosed = [product.dose.product] if product.dose else []
    return [name.casefold() for name in (product.treatment.treatment, product.treatment.name, *dosed, *called)]


def _spellings(book: Book, quantity: str) -> list[str]:
    found = book.quantities.get(quantity)
    return [found.quantity, *found.also, *found.short] if found else []


def _target(book: Book, quantity: Quantity, asked: Asked) -> float | None:
    if asked.to is None:
        if quantity.quantity == PH:
            raise UsageError("where is pH to go? (say --to, for example --to 6.8)")
        return None
    read = make_reading(quantity.quantity, asked.to, book.quantities)
    if read.low != read.high:
        units = " or ".join(quantity.unit_needed or [quantity.unit])
        raise UsageError(f"--to {asked.to}: {read.note or 'write one number'} (write the unit: {units})")
    return read.value


def _times(asked: Asked, dose: DoseOf) -> float:
    if asked.to is None:
        return dose.ratio_to
    return _positive(asked.to, math.inf, f"--to {asked.to}: write how many times as much, for example 10")


def grade_percent(text: str | None) -> float | None:
    """Strength of the product in the grower's hand, per cent by mass.

    Raises:
        UsageError: it is not a percentage up to 100.

    >>> grade_percent("11%"), grade_percent("7"), grade_percent(None)
    (11.0, 7.0, None)
    """
    if text is None:
        return None
    return _positive(text.strip().removesuffix("%"), 100.0, f"--grade {text}: write per cent, for example 11%")


def _positive(text: str, most: float, wrong: str) -> float:
    """A number above 0 and at most so much. UsageError with the words given if it is none."""
    try:
        value = parse_number(text.strip())
    except UsageError:
        raise UsageError(wrong) from None
    if not 0 < value <= most or math.isinf(value):
        raise UsageError(wrong)
    return value


def grams_per_unit(dose: DoseOf, grade: float | None) -> float:
    """Grams of the product in hand for one unit of the quantity in 1000 L."""
    pure = dose.grams_per_unit_per_1000_l.value
    return pure if grade is None else pure * (dose.percent or 100.0) / grade
