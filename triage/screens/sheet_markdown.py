"""Text as Markdown shows it: nothing typed can become a heading, a link, a table, a tag or code."""

from __future__ import annotations

import re

_SPECIAL = re.compile(r"[\\`*_\[\]<>&#|~$@]")
_LINK = re.compile(r"(?i)(?<=[a-z]):(?=//)|(?<=www)\.")
_FIRST_SIGN = re.compile(r"^\s*(?=[-+=])")
_FIRST_NUMBER = re.compile(r"^(\s*\d+)(?=[.)](?:\s|$))")


def escape_markdown(text: str) -> str:
    """Text on one line, with a backslash before every sign that Markdown would read as its own.

    >>> print(escape_markdown("<b>*big*</b> | www.x.example, see http://x.example"))
    \\<b\\>\\*big\\*\\</b\\> \\| www\\.x.example, see http\\://x.example
    >>> print(escape_markdown("- 2 leaves"), escape_markdown("7.4"), escape_markdown("3. row"))
    \\- 2 leaves 7.4 3\\. row
    """
    text = _SPECIAL.sub(r"\\\g<0>", " ".join(text.split()))
    text = _LINK.sub(r"\\\g<0>", text)
    return _FIRST_NUMBER.sub(r"\1\\", _FIRST_SIGN.sub(r"\\", text))
