"""What is taken for granted when an exposure is reckoned: how much of a spray reaches the water, and safety margins."""

from .record import Read, Record


class CoverShare(Record, frozen=True, kw_only=True):
    """Share of what is sprayed that reaches the water, by how the water is covered.

    ``share`` is what is reckoned with; ``low`` and ``high`` say how far it may be off. ``at_worst``: what reaches the
    water when all goes wrong; the whole filling, unless somebody else holds the sprayer.
    """

    cover: str  # none | covered | moved | drench | returned | neighbour | perimeter
    share: float
    low: float
    high: float
    at_worst: float = 1.0
    source: str
    read: Read
    note: str = ""


class Margin(Record, frozen=True, kw_only=True):
    """A number that stands in for something nobody measured: a divisor, or a value assumed for this water."""

    margin: str
    value: float
    unit: str = ""
    source: str
    read: Read
    note: str = ""
