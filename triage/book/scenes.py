"""The scenes of the demo: a line of story and a written case, or a spray somebody asks about."""

from __future__ import annotations

from pathlib import Path

from ..errors import KnowledgeError
from ..model.record import Record
from .records import build_record
from .strict_yaml import parse_yaml


class Scene(Record, frozen=True, kw_only=True):
    """One scene; ``case`` is a file beside the scenes."""

    scene: str
    says: str
    case: str = ""
    spray: str = ""


def load_scenes(path: Path) -> list[Scene]:
    """The scenes in order. Errors: KnowledgeError with every fault."""
    document = parse_yaml(path.read_text(encoding="utf-8"), path.name)
    scenes = [build_record(Scene, data, document, (n,), path.name) for n, data in enumerate(document.data or [])]
    if document.faults:
        raise KnowledgeError(document.faults)
    return scenes
