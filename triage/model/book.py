"""The whole book in memory: what every engine is given."""

from collections.abc import Mapping
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
    sources: Mapping[str, Source]
    findings: Mapping[str, Finding]
    questions: Mapping[str, Question]
    causes: Mapping[str, Cause]
    rules: Mapping[str, Rule]
    quantities: Mapping[str, Quantity]
    crops: Mapping[str, Crop]
    animals: Mapping[str, Animal]
    substances: Mapping[str, Substance]
    treatments: Mapping[str, Treatment]
    synonyms: Mapping[str, Synonyms] = {}
    cover_shares: Mapping[str, CoverShare] = {}
    margins: Mapping[str, Margin] = {}
    substance_groups: Mapping[str, SubstanceGroup] = {}
    advice: Mapping[str, Advice] = {}
    aftermath: Mapping[str, Aftermath] = {}
    roles: Mapping[str, Role] = {}
    schedule: Schedule = Schedule()  # of the rules, ready for the engine
    pictures: Mapping[str, Picture] = {}
    here: Here = Here()  # empty until a garden's journal is laid beside the book
    language: str = ""  # of the texts; '' is English
    screens: dict[str, dict[str, Any]] = {}  # texts of the screens in that language, by module and name
    speech: Speech = Speech()  # the phrases of the findings and the synonyms, ready for the reader of words
