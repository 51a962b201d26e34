"""Checks of translations: every text says something that the book has, none is forgotten, placeholders are kept."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path as FilePath
from typing import Any

import msgspec

from ..errors import Fault, nearest
from .languages import (
    ADDED,
    FOLDER,
    REQUIRED,
    SCREENS,
    SENTENCES,
    Translation,
    keys_of,
    list_languages,
    load_translation,
    same_shape,
    walk_texts,
)
from .load import Loaded
from .yaml_tree import Path

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
Texts = Mapping[str, Mapping[str, Any]]


def check_languages(loaded: Loaded, folders: list[FilePath], screens: Texts) -> None:
    """Add the faults of every translation that a folder holds. ``screens`` are the English texts of the screens."""
    for language in list_languages(folders):
        translation = load_translation(folders, language)
        loaded.faults.extend(translation.faults)
        holders = {folder.name for folder in folders if (folder / FOLDER / language).is_dir()}
        for shelf in SENTENCES:
            _shelf(loaded, translation, shelf, holders)
        if screens and SCREENS in translation.texts:
            _screens(loaded, translation, screens)


def _fault(loaded: Loaded, translation: Translation, shelf: str, id_: str, path: Path, code: str, message: str) -> None:
    place = translation.places[(shelf, id_)]
    loaded.faults.append(Fault(place.file, place.line(*path), "error", code, message))


def _shelf(loaded: Loaded, translation: Translation, shelf: str, holders: set[str]) -> None:
    entries = loaded.entries[shelf]
    for id_, texts in translation.texts.get(shelf, {}).items():
        if id_ not in entries:
            kind = shelf.removesuffix("s")
            _fault(
                loaded, translation, shelf, id_, (), "KB301", f"no {kind} '{id_}' in the book{nearest(id_, entries)}"
            )
            continue
        for path, code, message in _entry(msgspec.to_builtins(entries[id_]), texts, keys_of(shelf)):
            _fault(loaded, translation, shelf, id_, path, code, message)
    for id_, entry in entries.items():
        if loaded.places[(shelf, id_)].file.split("/")[0] in holders:
            said = translation.texts.get(shelf, {}).get(id_, {})
            for key in REQUIRED.get(shelf, ()):
                if getattr(entry, key) and key not in (said if isinstance(said, dict) else ()):
                    message = f"'{id_}' has no {key} in {translation.name} (languages/{translation.language})"
                    loaded.fault(shelf, id_, (key,), "KB302", message, "warning")


def _entry(entry: Any, texts: Any, keys: tuple[str, ...]) -> Iterator[tuple[Path, str, str]]:
    """The faults of the texts of one entry, as (path, code, message)."""
    if not isinstance(texts, dict):
        yield (), "KB103", "expected a mapping from keys to texts"
        return
    english = {_plain(path): text for path, text in walk_texts(entry, keys)}
    for path, text in _leaves(texts, english):
        known = english.get(_plain(path))
        if known is None and path[-1] not in ADDED:
            allowed = ", ".join(dict.fromkeys(".".join(path) for path in english))
            yield path, "KB301", f"the entry has no text '{'.'.join(_plain(path))}' (allowed: {allowed})"
        elif known is not None and path[-1] not in ADDED:
            yield from ((path, code, message) for code, message in text_faults(known, text))


def _plain(path: Path) -> tuple[str, ...]:
    return tuple(map(str, path))


def _leaves(texts: Any, english: Mapping[tuple[str, ...], Any], path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every text of a translation with its path; a list of texts as one."""
    for name, part in texts.items() if isinstance(texts, dict) else enumerate(texts):
        deeper = (*path, name)
        if isinstance(part, dict | list) and _plain(deeper) not in english and name not in ADDED:
            yield from _leaves(part, english, deeper)
        else:
            yield deeper, part


def text_faults(english: Any, text: Any) -> Iterator[tuple[str, str]]:
    """What is wrong with one text, beside the English one, as (code, message).

    >>> list(text_faults("pH {ph} is high", "Der pH ist hoch"))
    [('KB303', 'the English text names {ph}, this one nothing')]
    """
    if not same_shape(english, text):
        wanted = f"{len(english)} texts" if isinstance(english, list) else "a text"
        yield "KB103", f"expected {wanted}, as in English"
    elif placeholders(english) != placeholders(text):
        said = [" ".join(placeholders(one)) or "nothing" for one in (english, text)]
        yield "KB303", f"the English text names {said[0]}, this one {said[1]}"


def placeholders(text: Any) -> list[str]:
    """The names in braces of a text or a list of texts, sorted."""
    return sorted(_PLACEHOLDER.findall(text if isinstance(text, str) else " ".join(map(str, text))))


# -- the screens ---------------------------------------------------------------------------------------------------


def _screens(loaded: Loaded, translation: Translation, screens: Texts) -> None:
    for module, texts in translation.texts[SCREENS].items():
        known = screens.get(module)
        if known is None:
            _fault(
                loaded, translation, SCREENS, module, (), "KB301", f"no screens '{module}'{nearest(module, screens)}"
            )
            continue
        for path, code, message in _screen(known, texts, ()):
            _fault(loaded, translation, SCREENS, module, path, code, message)
    for module, known in screens.items():
        texts = translation.texts[SCREENS].get(module, {})
        for name in known:
            if name not in texts:
                file = f"{translation.language}/{SCREENS}/{module}.yaml"
                message = f"'{name}' of the screens is not said in {translation.name}"
                loaded.faults.append(Fault(f"knowledge/{FOLDER}/{file}", 1, "warning", "KB302", message))


def _screen(english: Any, text: Any, path: Path) -> Iterator[tuple[Path, str, str]]:
    """A list of texts may be longer or shorter than the English one: a language may need more words or fewer."""
    if isinstance(english, Mapping) and isinstance(text, dict):
        keys = {str(key): part for key, part in english.items()}
        for name, part in text.items():
            if name not in keys:
                yield (*path, name), "KB301", f"the screens have no text '{name}'{nearest(name, keys)}"
            else:
                yield from _screen(keys[name], part, (*path, name))
        for name in keys:
            if path and name not in text:
                yield path, "KB302", f"'{name}' is not said"
    elif isinstance(english, tuple) and isinstance(text, list):
        if set(placeholders(english)) != set(placeholders(text)):
            yield from ((path, code, message) for code, message in text_faults(" ".join(english), " ".join(text)))
    else:
        yield from ((path, code, message) for code, message in text_faults(english, text))
