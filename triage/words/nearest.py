"""Names that a typed name may have meant."""

from __future__ import annotations

from collections.abc import Iterable


def nearest_names(typed: str, names: Iterable[str], most: int = 6) -> tuple[str, ...]:
    """Names like the typed one, most alike first; none if nothing is alike.

    >>> nearest_names("permetrin", ["permethrin", "milk"])
    ('permethrin',)
    """
    from rapidfuzz import process

    found = process.extract(typed.lower(), [name.lower() for name in names], limit=most, score_cutoff=70)
    return tuple(name for name, _, _ in found)
