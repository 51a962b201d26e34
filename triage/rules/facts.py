"""What the engine is told: one fact class for each kind of thing known.

Absence is a fact of its own (a finding 'absent', a reading not measured, an exposure not computed); what nobody asked
about is no fact at all. Ids are values of fields, never field names.
"""

from __future__ import annotations

from .door import Fact
from .texts import Said


class KnownFact(Fact):
    """Base of all facts here."""

    def readable(self) -> str:
        """The fact as the why-tree shows it."""
        raise NotImplementedError

    def said(self) -> dict[str, Said]:
        """What it fills into a reason."""
        return {}


class FindingFact(KnownFact):
    """id, state (seen or absent)."""

    def readable(self) -> str:
        return f"finding {self['id']} {self['state']}"


class ReadingFact(KnownFact):
    """quantity, low, high, text (value with the sign of its bound), unit."""

    def readable(self) -> str:
        said = self.said()[self["quantity"]]
        equals = "= " if said.text[0].isdigit() or said.text[0] == "-" else ""
        return f"reading {self['quantity']} {equals}{said}"

    def said(self) -> dict[str, Said]:
        return {self["quantity"]: Said(self["text"], self["unit"])}


class UnknownReading(KnownFact):
    """quantity: nobody measured it."""

    def readable(self) -> str:
        return f"reading {self['quantity']} not measured"


class TrendFact(KnownFact):
    """quantity, direction (rising, falling or steady)."""

    def readable(self) -> str:
        return f"trend {self['quantity']} {self['direction']}"


class CropFact(KnownFact):
    """id, words (id and kind)."""

    def readable(self) -> str:
        return f"crop {self['id']}"


class AnimalFact(KnownFact):
    """id, name, words (id, kind and groups): one of the animals kept."""

    def readable(self) -> str:
        return f"animal {self['id']}"


class AnimalsFact(KnownFact):
    """ids, words: all animals kept, where they are known."""

    def readable(self) -> str:
        return f"animals kept {', '.join(self['ids'])}"


class ConclusionFact(KnownFact):
    """id: a rule drew it."""

    def readable(self) -> str:
        return f"conclusion {self['id']}"


class SuspectFact(KnownFact):
    """id, low and high (both its probability)."""

    def readable(self) -> str:
        return f"suspect {self['id']} {self['low']:.0%}"

    def said(self) -> dict[str, Said]:
        return {"probability": Said(f"{self['low']:.0%}")}


class SystemFact(KnownFact):
    """key, value."""

    def readable(self) -> str:
        return f"system {self['key']} {self['value']}"


class ExposureFact(KnownFact):
    """name, low, high, text."""

    def readable(self) -> str:
        return f"exposure {self['name']} {self['text']}"

    def said(self) -> dict[str, Said]:
        return {self["name"]: Said(self["text"])}


class MissingFact(KnownFact):
    """name: a measure that could not be computed."""

    def readable(self) -> str:
        return f"exposure {self['name']} could not be computed"


class TraitFact(KnownFact):
    """id: a trait of the substance."""

    def readable(self) -> str:
        return f"trait {self['id']}"


class TraitsFact(KnownFact):
    """words: all traits of the substance."""

    def readable(self) -> str:
        return f"traits {', '.join(sorted(self['words'])) or 'none'}"
