"""YAML without its traps. The one door to the ``yaml`` library, and to the lines most cases are written in."""

from __future__ import annotations

from typing import Any

import yaml

from .yaml_tree import MAX_CHARACTERS, MAX_DEPTH, Document, Tree

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def parse_yaml(text: str, name: str) -> Document:
    """Read one YAML document strictly.

    ``name`` is the path shown in faults. The data hold only dict, list, str, int, float and bool. Dates and other
    plain words stay text.

    >>> doc = parse_yaml("a: 7.4\\nb: [x, yes]", "case.yaml")
    >>> doc.data, [(fault.line, fault.code) for fault in doc.faults]
    ({'a': 7.4, 'b': ['x', 'yes']}, [(2, 'KB003')])
    """
    tree = Tree(name)
    if len(text) > MAX_CHARACTERS:
        tree.fault(1, "KB006", f"larger than {MAX_CHARACTERS:,} characters")
        return tree.document
    documents = 0
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            documents += isinstance(event, yaml.DocumentStartEvent)
            if documents > 1:
                tree.fault(_line(event), "KB001", "more than one document (---) in the file")
                break
            if not _feed(tree, event):
                break
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        problem = getattr(error, "problem", None) or "cannot be read"
        tree.fault(mark.line + 1 if mark else 1, "KB001", f"not valid YAML: {problem}")
    except ValueError as error:
        tree.fault(1, "KB001", f"not valid YAML: {error}")
    return tree.document


def _feed(tree: Tree, event: Any) -> bool:
    """Take one event; False stops reading."""
    line = _line(event)
    if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
        tree.fault(line, "KB005", "anchors and aliases (&, *) are not used here (write the value out)")
    if isinstance(event, yaml.AliasEvent):
        tree.scalar("", line, quoted=True)
        return True
    if getattr(event, "tag", None):
        tree.fault(line, "KB005", f"tags such as {event.tag} are not used here (write plain values)")
    if isinstance(event, yaml.ScalarEvent):
        tree.scalar(event.value, line, quoted=bool(event.style or event.tag))
    elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
        if len(tree.stack) >= MAX_DEPTH:
            tree.fault(line, "KB006", f"nested deeper than {MAX_DEPTH} levels")
            return False
        tree.open({} if isinstance(event, yaml.MappingStartEvent) else [], line)
    elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
        tree.close()
    return True


def _line(event: Any) -> int:
    return int(event.start_mark.line) + 1
