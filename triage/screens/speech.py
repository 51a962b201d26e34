"""In which language the screens speak: the texts stand in modules, and a translation takes their place.

Texts are read where they are used (``wording.SETTLE``), never copied at import, so that this is enough.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from types import ModuleType
from typing import Any

#: The modules that hold texts, by the name a translation gives them.
CATALOGUE: dict[str, str] = {
    "wording": ".wording",
    "setup": ".setup_words",
    "spray": ".spray_words",
    "later": ".later_words",
    "pictures": ".pictures.words",
    "garden": ".garden_words",
    "sheet": ".sheet_words",
    "water": ".water_words",
    "report": "..report.words",
    "responses": "..responses.words",
    "spraying": "..spraying.words",
    "facts": "..rules.texts",
    "units": "..water.spoken",
}
_english: dict[str, dict[str, Any]] = {}


def english_texts() -> dict[str, dict[str, Any]]:
    """Every text in English, by module and name."""
    for module in CATALOGUE:
        _english.setdefault(module, _texts_of(_module(module)))
    return _english


def speak(texts: Mapping[str, Mapping[str, Any]]) -> None:
    """Speak with these texts from now on; what they leave out is said in English. Without any: in English."""
    for module, english in english_texts().items():
        said = texts.get(module, {})
        vars(_module(module)).update({name: fitted(text, said.get(name)) for name, text in english.items()})


def _module(name: str) -> ModuleType:
    return import_module(CATALOGUE[name], __package__)


def _texts_of(module: ModuleType) -> dict[str, Any]:
    known = vars(module).items()
    return {name: value for name, value in known if name.isupper() and name[0] != "_" and is_text(value)}


def is_text(value: Any) -> bool:
    """Whether a value is text, or a collection of texts."""
    if isinstance(value, Mapping):
        return bool(value) and all(is_text(part) for part in value.values())
    return isinstance(value, str) or (isinstance(value, tuple) and bool(value) and all(map(is_text, value)))


def fitted(english: Any, said: Any) -> Any:
    """A translated text in the shape of the English one; the English one where it has another shape.

    >>> fitted({"day": "{} days", "hour": "{} hours"}, {"day": "{} Tage"}), fitted(("a", "b"), ["x"])
    ({'day': '{} Tage', 'hour': '{} hours'}, ('x',))
    """
    if isinstance(english, Mapping):
        inner = said if isinstance(said, Mapping) else {}
        return {key: fitted(part, inner.get(str(key))) for key, part in english.items()}
    if isinstance(english, tuple):
        return tuple(map(str, said)) if isinstance(said, list) and said else english
    return said if isinstance(said, str) else english
