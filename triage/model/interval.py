"""A closed interval: what is known of a quantity when a kit gives a step, a bound or a range."""

import math

import msgspec


class Interval(msgspec.Struct, frozen=True, order=True):
    """Lowest and highest value that fit what was measured (either may be infinite).

    >>> Interval(6.5, 7.5).certainly_above(6.0), Interval(6.5, 7.5).certainly_below(7.0)
    (True, False)
    """

    low: float
    high: float

    def __post_init__(self) -> None:
        if math.isnan(self.low) or math.isnan(self.high) or self.low > self.high:
            raise ValueError(f"an interval needs low <= high, not {self.low} and {self.high}")

    @classmethod
    def exactly(cls, value: float) -> "Interval":
        """The interval of one point."""
        return cls(value, value)

    @property
    def middle(self) -> float:
        """The middle; the finite end if the other is infinite."""
        if math.isinf(self.low):
            return self.high
        return self.low if math.isinf(self.high) else (self.low + self.high) / 2

    def certainly_above(self, limit: float) -> bool:
        return self.low > limit

    def certainly_below(self, limit: float) -> bool:
        return self.high < limit
