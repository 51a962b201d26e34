"""What is in the sprayer: hazard data of one active ingredient or additive."""

from typing import Literal

from .record import Read, Record, Sourced, Status

Basis = Literal["active", "product", "metal", "element", "plant-material"]
Chemistry = Literal["hardness", "alkalinity", "ph", "temperature"]
Trait = Literal[
    "film", "oxygen-eater", "raises-ph", "lowers-ph", "salt", "surfactant", "oxidiser", "metal", "clouds-water",
    "stops-filter", "slows-filter", "persistent", "chlorine", "ammonia-releasing", "banned-for-food", "antibiotic",
    "not-for-water", "meant-for-water", "living-organism", "endocrine-or-anaesthetic", "burns-people", "dust",
    "dissolves-slowly",
]  # fmt: skip


class Toxicity(Record, frozen=True, kw_only=True):
    """One published value. ``bound`` '>' means no effect up to it; the unit says mg of what (``basis``) per litre."""

    organism: str
    group: Literal["fish", "crustacean", "insect", "amphibian", "alga", "bacterium", "worm", "mollusc"]
    test: str  # LC50, EC50, NOEC, LC0, tolerated …
    hours: float | None = None
    value: float
    high: float | None = None  # upper end where the source gives a range
    bound: Literal["=", "<", ">", "<=", ">="] = "="
    unit: str = "mg/L"
    basis: Basis = "active"
    conditions: dict[str, float] = {}  # e.g. alkalinity: 16, hardness: 50, temperature: 12
    source: str
    read: Read
    note: str = ""


class AsSold(Record, frozen=True, kw_only=True):
    """What a usual product or home mix holds: active in g per litre of ready spray, or in concentrate."""

    form: str
    active: float
    unit: Literal["g/L", "g/kg", "%"]
    source: str
    read: Read


class FilterEffect(Record, frozen=True, kw_only=True):
    """What is known of nitrifying bacteria."""

    effect: Literal["none-seen", "slowed", "stopped", "unknown"]
    at: float | None = None
    unit: str = "mg/L"
    basis: Basis = "active"
    source: str = ""
    read: Read = "seen"
    note: str = ""


class Spares(Record, frozen=True, kw_only=True):
    """A published statement that a kind of animal bears it, without a level that could be compared."""

    group: Literal["fish", "crustacean"]
    says: str
    source: str
    read: Read = "seen"


class Substance(Record, frozen=True, kw_only=True):
    """Hazards of one active ingredient to fish, crustaceans, filter, water and people."""

    substance: str
    name: str
    what: str
    also: list[str] = []
    family: str = ""
    traits: list[Trait] = []
    toxicity: list[Toxicity] = []
    no_data: str = ""  # why there are no toxicity rows, where that is so
    spares: list[Spares] = []
    as_sold: list[AsSold] = []
    spray_strength: Sourced | None = None  # usual strength of active in the ready spray, g/L
    density: Sourced | None = None  # g/mL of the liquid as bought
    half_life_days: Sourced | None = None
    oxygen_demand: Sourced | None = None  # g O2 per g
    alkalinity_per_g: Sourced | None = None  # g CaCO3 per g (bases positive, acids negative)
    element_share: Sourced | None = None  # g per g: the metal or element that values of that basis count
    depends_on: list[Chemistry] = []
    filter: list[FilterEffect] = []
    people: list[str] = []
    harvest_wait_days: Sourced | None = None
    sources: list[str]
    status: Status


class SubstanceGroup(Record, frozen=True, kw_only=True):
    """A word on a label that may mean any of several substances; the strictest of them counts."""

    group: str
    name: str
    also: list[str] = []
    members: list[str]
    note: str = ""
    sources: list[str]
