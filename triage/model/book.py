"""The whole book in memory: what every engine is given."""

from typing import Any

import msgspec

from .advice import Advice
from .aftermath import Aftermath, Role
from .cause import Cause
from .crop import Animal, Crop
from .exposure import CoverShare, Margin
from .finding import Finding, Question
from .garden import Here
from .picture import Picture
from .quantity import Quantity
from .record import Record, Source
from .rule import Rule
from .speech import Speech
from .substance import Substance, SubstanceGroup
from .treatment import Treatment
from .way import Schedule


class Synonyms(Record, frozen=True, kw_only=True):
    """Words that mean the same to the reader of a grower's description: one word and what also stands for it."""

    word: str
    also: list[str]  # with plural and verb forms; "..": up to two other words may stand there
    exactly: list[str] = []  # only in this form: coppery, but not copper


class Book(msgspec.Struct, frozen=True, kw_only=True):
    """All knowledge, by id, in file order (sorted paths, then place in the file)."""

    version: str
    hash: str
    sources: dict[str, Source]
    findings: dict[str, Finding]
    questions: dict[str, Question]
    causes: dict[str, Cause]
    rules: dict[str, Rule]
    quantities: dict[str, Quantity]
    crops: dict[str, Crop]
    animals: dict[str, Animal]
    substances: dict[str, Substance]
    treatments: dict[str, Treatment]
    synonyms: dict[str, Synonyms] = {}
    cover_shares: dict[str, CoverShare] = {}
    margins: dict[str, Margin] = {}
    substance_groups: dict[str, SubstanceGroup] = {}
    advice: dict[str, Advice] = {}
    aftermath: dict[str, Aftermath] = {}
    roles: dict[str, Role] = {}
    schedule: Schedule = Schedule()  # of the rules, ready for the engine
    pictures: dict[str, Picture] = {}
    here: Here = Here()  # empty until a garden's journal is laid beside the book
    language: str = ""  # of the texts; '' is English
    screens: dict[str, dict[str, Any]] = {}  # texts of the screens in that language, by module and name
    speech: Speech = Speech()  # the phrases of the findings and the synonyms, ready for the reader of words
