"""Where things grow: beds, and plants or rows that a grower calls by a name."""

import msgspec


class Bed(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A bed as the grower names it. ``gone`` is the day on which it was taken away."""

    name: str
    kind: str = ""  # media | raft | channel | wicking | mixed
    crops: tuple[str, ...] = ()  # crop ids
    note: str = ""
    gone: str = ""


class Plant(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A plant, or a row of the same kind and age. ``gone`` is the day on which it was pulled or harvested."""

    name: str
    bed: str = ""
    crop: str = ""
    planted: str = ""
    note: str = ""
    gone: str = ""
