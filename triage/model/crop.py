"""Crops grown and animals kept."""

from typing import Literal

from .record import Read, Record

LeafShape = Literal[
    "oval", "toothed", "lance", "spoon", "cut", "strap", "heart", "lobed", "three", "compound", "feathery"
]
Habit = Literal["upright", "rosette", "clump"]


class CropLimit(Record, frozen=True, kw_only=True):
    """A published limit of one quantity for a crop, in the quantity's own unit; above it the crop suffers."""

    quantity: str
    high: float
    source: str
    read: Read = "seen"
    note: str = ""


class Crop(Record, frozen=True, kw_only=True):
    """A crop: its names, family, kind and what it takes badly."""

    crop: str
    name: str
    also: list[str] = []
    family: str = ""
    kind: Literal["leafy", "fruiting", "root", "herb", "legume", "other"]
    sensitive: list[str] = []  # substance ids that burn this crop
    salt_threshold_ds_m: float | None = None
    salt_slope_percent: float | None = None  # yield lost for each dS/m above the threshold
    limits: list[CropLimit] = []  # of single salts
    leaf: LeafShape = "oval"  # for pictures: three and compound are made of leaflets, cut has lobes along its ribs
    habit: Habit = "upright"  # for pictures: stem with leaves, leaves from one heart, or a tuft
    sources: list[str]


class AnimalLimit(Record, frozen=True, kw_only=True):
    """A published limit of one quantity for an animal."""

    quantity: str
    low: float | None = None
    high: float | None = None
    what: Literal["best", "tolerated", "deadly"]
    source: str
    read: Read = "seen"
    note: str = ""


class Animal(Record, frozen=True, kw_only=True):
    """An animal kept in the water: its names, species and groups, from near to far."""

    animal: str
    name: str
    kind: Literal["fish", "crustacean"]
    also: list[str] = []
    species: list[str]  # scientific names whose data are this animal's own
    groups: list[str]  # e.g. cichlid, warm-water-fish; nearest first
    salmonid: bool = False
    limits: list[AnimalLimit] = []
    sources: list[str]
