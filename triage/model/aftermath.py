"""What a later look at a plant says: of the causes that something was done about, and of the garden."""

from typing import Literal

from .odds import Strength
from .record import Record

RoleName = Literal[
    "looked-before", "nothing-done", "better", "same", "worse", "new-leaves-better", "new-leaves-as-before",
    "more-plants", "no-more-plants", "several-crops", "one-crop", "one-plant",
]  # fmt: skip
Works = Literal["well", "partly", "little"]


class Role(Record, frozen=True, kw_only=True):
    """Which finding says this in the book."""

    role: RoleName
    finding: str


class Aftermath(Record, frozen=True, kw_only=True):
    """What a later look says of a cause, by how well what was done works against it.

    It holds when one of the findings ``when`` is seen. ``waited``: only once it was done as often as it takes and had
    its time. ``spreading``: only for causes that spread. ``set_aside``: what was done is not offered again unchanged.
    ``because`` may name {treatment}, {cause}, {day}, {days} (since then) and {expected} (days until it is better).
    """

    aftermath: str
    when: list[str]
    works: list[Works]
    waited: bool = False
    spreading: bool = False
    favour: Strength | None = None
    against: Strength | None = None
    set_aside: bool = False
    because: str
    sources: list[str]
