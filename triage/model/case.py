"""What a grower told: the system, the answers, the readings."""

import msgspec

from .quantity import Reading


class System(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """The water and who lives in it."""

    name: str = "main"
    volume_l: float | None = None
    animals: tuple[str, ...] = ()
    crops: tuple[str, ...] = ()
    beds: str = ""  # media | raft | channel | wicking | mixed
    filter: str = ""
    top_up: str = ""  # mains | rain | well | mixed
    place: str = ""  # greenhouse | outdoors | indoors
    altitude_m: float | None = None
    shelf: tuple[str, ...] = ()  # substances at hand


class Case(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One look at one plant. ``set_aside`` are options of a pick-one question that were not chosen."""

    on: str  # ISO date of the look
    crop: str = ""
    system: System = System()
    seen: frozenset[str] = frozenset()
    absent: frozenset[str] = frozenset()
    unsure: frozenset[str] = frozenset()
    set_aside: frozenset[str] = frozenset()
    asked: frozenset[str] = frozenset()  # question ids already answered, "can't tell" included
    words: tuple[str, ...] = ()
    readings: tuple[Reading, ...] = ()
    plant: str = ""
