"""The one door to experta: imports it whole, leaves nothing behind, and gives its classes types.

experta 1.9.4 pins frozendict 1.2, which wants ``collections.Mapping`` (gone since Python 3.10). The name is lent for
the import only. experta also sets up the root logger on import; that is undone. An experta that is only half
installed imports without a word; here it is refused.
"""

from __future__ import annotations

import collections
import collections.abc
import importlib
import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from ..errors import TriageError

_NEEDED = ("KnowledgeEngine", "Fact", "InitialFact", "Rule", "NOT", "P")


@contextmanager
def _lent_names() -> Iterator[None]:
    """Lend ``collections`` the name that frozendict 1.2 asks for, and take it back."""
    if hasattr(collections, "Mapping"):
        yield
        return
    setattr(collections, "Mapping", collections.abc.Mapping)  # noqa: B010 (mypy knows that the name is gone)
    try:
        yield
    finally:
        delattr(collections, "Mapping")


@contextmanager
def _kept_logging() -> Iterator[None]:
    """Leave the root logger as it was, so that the program's own set-up still works."""
    root = logging.getLogger()
    handlers, level = list(root.handlers), root.level
    try:
        yield
    finally:
        for handler in [handler for handler in root.handlers if handler not in handlers]:
            root.removeHandler(handler)
            handler.close()
        root.setLevel(level)


def _import_experta() -> Any:
    with _lent_names(), _kept_logging():
        experta = importlib.import_module("experta")
    missing = [name for name in _NEEDED if not hasattr(experta, name)]
    if missing:
        raise TriageError(
            f"the rule engine is only half installed (experta has no {', '.join(missing)}): "
            "install it with its dependencies, pip install experta==1.9.4"
        )
    return experta


if TYPE_CHECKING:

    class Fact(dict[Any, Any]):
        """A declared fact: fields by name, frozen once it is declared."""

        __factid__: int | None

        def __init__(self, *values: object, **fields: object) -> None: ...
        def __rlshift__(self, name: str) -> Fact: ...

    class InitialFact(Fact): ...

    class P(tuple[Any, ...]):
        """A predicate on one field of a pattern."""

        match: Callable[[Any], bool]

        def __new__(cls, match: Callable[[Any], bool]) -> P: ...

    class NOT(tuple[Any, ...]):
        """Holds while no fact matches the pattern."""

        def __new__(cls, pattern: Fact) -> NOT: ...

    class Rule(tuple[Any, ...]):
        """Conditions and what to do; also called to fire."""

        salience: int

        def __new__(cls, *conditions: object, salience: int = 0) -> Rule: ...

    class Activation:
        """A rule with facts that it matches, by the names they are bound to."""

        rule: Any
        facts: set[Fact]
        context: dict[str, Any]
        key: Any

        def __init__(self, rule: object, facts: object, context: dict[str, Any] | None = None) -> None: ...

    class Agenda:
        """Activations waiting to fire; the last one is next."""

        activations: list[Activation]

    class Strategy:
        """The order of firing."""

    class Matcher:
        """Which rules match which facts."""

        engine: Any

        def __init__(self, engine: object) -> None: ...

    class KnowledgeEngine:
        """Facts, rules and an agenda."""

        facts: dict[int, Fact]
        agenda: Agenda
        running: bool
        matcher: Matcher

        def declare(self, *facts: Fact) -> Fact | None: ...
        def retract(self, fact: Fact) -> None: ...
        def reset(self) -> None: ...
        def run(self) -> None: ...

else:
    _experta = _import_experta()
    Fact, InitialFact, P, NOT, Rule = (_experta.Fact, _experta.InitialFact, _experta.P, _experta.NOT, _experta.Rule)
    KnowledgeEngine = _experta.KnowledgeEngine
    Activation = importlib.import_module("experta.activation").Activation
    Agenda = importlib.import_module("experta.agenda").Agenda
    Strategy = importlib.import_module("experta.abstract").Strategy
    Matcher = importlib.import_module("experta.abstract").Matcher
