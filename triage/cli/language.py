"""In which language a person reads: as said, or as the locale has it. Imported only if that is not English."""

from __future__ import annotations

from pathlib import Path

from ..book.languages import list_languages
from ..book.places import built_in_knowledge
from ..errors import UsageError


def choose_language(said: str | None, locale: str, own: Path) -> str:
    """The code of the language to read in; '' for English.

    Args:
        said: as asked for; it has to be there.
        locale: such as ``de_AT.UTF-8``, or several with colons between, best first; taken only as far as it is there.
        own: the grower's own knowledge, which may bring further languages.

    Raises:
        UsageError: nobody has translated it into the language asked for.
    """
    known = list_languages([built_in_knowledge(), own])
    for name in (said or locale).split(":"):
        code = name.split(".")[0].split("@")[0].replace("_", "-").lower()
        short = code.split("-")[0]
        if short == "en":
            return ""
        if found := next((one for one in (code, short) if one in known), ""):
            return found
    if said:
        raise UsageError(f"no translation into '{said}' (allowed: {', '.join(['en', *known])})")
    return ""
