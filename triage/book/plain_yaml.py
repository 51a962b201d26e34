"""The plain shape most cases are written in, read line by line; whatever is not plain is left to the yaml library.

Loading that library costs more than reading a case. Here only what cannot be misunderstood is read: one mapping of
plain keys; nested mappings and ``- `` lists; ``[a, b]`` and ``{a: 1, b: 2}``; plain and simply quoted words; comments.
"""

from __future__ import annotations

import re
from typing import Any

from .yaml_tree import MAX_CHARACTERS, MAX_DEPTH, Document, Tree

_KEY = r"([A-Za-z][\w-]{0,60}):(?= |$)"


class _NotPlainError(Exception):
    """Something the library has to look at."""


def read_plain(text: str, name: str) -> Document | None:
    """The document, exactly as ``strict_yaml.parse_yaml`` reads it; None if it is not plain or has any fault.

    >>> read_plain("crop: basil\\nseen: [webbing]", "case.yaml").data
    {'crop': 'basil', 'seen': ['webbing']}
    >>> read_plain("crop: &x basil", "case.yaml") is None
    True
    """
    if len(text) > MAX_CHARACTERS:
        return None
    tree = Tree(name)
    try:
        _Reader(text, tree).read()
    except _NotPlainError:
        return None
    return None if tree.faults else tree.document


class _Reader:
    """One pass over the lines that say something: their number, indent and words."""

    def __init__(self, text: str, tree: Tree) -> None:
        self.tree = tree
        self.at = 0
        self.lines: list[tuple[int, int, str]] = []
        for number, line in enumerate(text.split("\n"), start=1):
            words = line.strip(" ")
            if not words.isprintable():
                raise _NotPlainError
            if words and not words.startswith("#"):
                if "#" in words:
                    raise _NotPlainError
                self.lines.append((number, len(line) - len(line.lstrip(" ")), words))

    def read(self) -> None:
        if not self.lines:
            raise _NotPlainError
        self.mapping(self.lines[0][1])
        if self.at < len(self.lines):
            raise _NotPlainError

    def mapping(self, indent: int) -> None:
        """``key: value`` lines at one indent."""
        self.open({})
        while self.at < len(self.lines) and self.lines[self.at][1] == indent:
            number, _, words = self.lines[self.at]
            found = re.match(_KEY, words)
            if found is None:
                raise _NotPlainError
            self.tree.scalar(found[1], number, quoted=False)
            self.after(words[found.end() :].strip(" "), number, indent, list_indent=indent)
        self.tree.close()

    def sequence(self, indent: int) -> None:
        """``- item`` lines at one indent."""
        self.open([])
        while self.at < len(self.lines) and self.lines[self.at][1] == indent:
            number, _, words = self.lines[self.at]
            if not words.startswith("- "):
                break
            rest = words[2:].lstrip(" ")
            if re.match(_KEY, rest):  # a mapping that begins behind its dash
                inner = indent + len(words) - len(rest)
                self.lines[self.at] = (number, inner, rest)
                self.mapping(inner)
            else:
                self.after(rest, number, indent, list_indent=indent + 1)
        self.tree.close()

    def after(self, words: str, number: int, indent: int, *, list_indent: int) -> None:
        """What stands behind a key or a dash: words on its line, or a block below it."""
        self.at += 1
        if words[:1] in ("[", "{"):
            self.flow(words, number, indent)
        elif words:
            self.word(words, number)
        elif self.at == len(self.lines):
            raise _NotPlainError
        else:
            _, inner, below = self.lines[self.at]
            if below.startswith("- ") and inner >= list_indent:
                self.sequence(inner)
            elif inner > indent:
                self.mapping(inner)
            else:
                raise _NotPlainError
        if self.at < len(self.lines) and self.lines[self.at][1] > indent:
            raise _NotPlainError  # a text that goes on, or a crooked indent

    def flow(self, words: str, number: int, indent: int) -> None:
        """``[a, b]`` or ``{a: 1}``, over one line or more."""
        pieces = [(number, words)]
        while self.at < len(self.lines) and self.lines[self.at][1] > indent:
            pieces.append((self.lines[self.at][0], self.lines[self.at][2]))
            self.at += 1
        tokens = [(token, line) for line, piece in pieces for token in _tokens(piece)]
        if self.collection(tokens, 0) != len(tokens):
            raise _NotPlainError

    def collection(self, tokens: list[tuple[str, int]], at: int) -> int:
        """One bracketed collection from its opening bracket on; where it ends."""
        opened, line = tokens[at]
        closing = "]" if opened == "[" else "}"
        self.open([] if opened == "[" else {}, line)
        at += 1
        while _token(tokens, at) != closing:
            if opened == "{":
                key = re.fullmatch(_KEY, _token(tokens, at))
                if key is None:
                    raise _NotPlainError
                self.tree.scalar(key[1], tokens[at][1], quoted=False)
                at += 1
            if _token(tokens, at) in ("[", "{"):
                at = self.collection(tokens, at)
            else:
                self.word(_token(tokens, at), tokens[at][1], flow=True)
                at += 1
            if _token(tokens, at) == "," and _token(tokens, at + 1) not in ("]", "}", ","):
                at += 1
            elif _token(tokens, at) != closing:
                raise _NotPlainError
        self.tree.close()
        return at + 1

    def word(self, words: str, line: int, *, flow: bool = False) -> None:
        quote = words[0]
        if quote in "\"'":
            inner = words[1:-1]
            if len(words) < 2 or words[-1] != quote or quote in inner or "\\" in inner:
                raise _NotPlainError
            self.tree.scalar(inner, line, quoted=True)
            return
        plain = quote.isalnum() or quote == "<" or not quote.isascii() or (quote in "-+." and words[1:2].isdigit())
        if not plain or (":" in words if flow else ": " in words or words[-1] == ":"):
            raise _NotPlainError
        self.tree.scalar(words, line, quoted=False)

    def open(self, items: Any, line: int = 0) -> None:
        if len(self.tree.stack) >= MAX_DEPTH:
            raise _NotPlainError
        self.tree.open(items, line or self.lines[self.at][0])


def _token(tokens: list[tuple[str, int]], at: int) -> str:
    if at >= len(tokens):
        raise _NotPlainError
    return tokens[at][0]


def _tokens(piece: str) -> list[str]:
    """Brackets, commas, ``key:`` and words of one line of a collection."""
    found = re.findall(r"""[][{},]|"[^"]*"|'[^']*'|[A-Za-z][\w-]{0,60}:(?= |$)|[^][{},"'\s][^][{},]*""", piece)
    tokens = [token.strip(" ") for token in found]
    if "".join(tokens).replace(" ", "") != piece.replace(" ", ""):
        raise _NotPlainError
    return tokens
