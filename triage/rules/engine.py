"""experta's engine with rules that are cheap to build, an order of firing that is the book's, and exact removal."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from .door import NOT, Activation, Agenda, Fact, InitialFact, KnowledgeEngine, Rule, Strategy
from .matcher import ApartMatcher

Act = Callable[["Engine", dict[str, Fact]], None]


class BookRule(Rule):
    """A rule with a place in the book and a plain function that it calls with the facts it fired on, by name.

    experta's own constructor inspects the function's signature nine times a rule; this one does not.
    """

    order: int
    act: Act

    def __new__(cls, *conditions: Fact | NOT, salience: int, order: int, act: Act) -> BookRule:
        rule: BookRule = super().__new__(cls, *conditions, salience=salience)  # type: ignore[assignment]
        rule.order, rule.act = order, act
        rule.__dict__["__name__"] = f"way {order}"
        return rule

    def new_conditions(self, *conditions: Fact | NOT) -> BookRule:
        """The same rule with conditions rewritten, as experta's own matcher asks for."""
        return BookRule(*conditions, salience=self.salience, order=self.order, act=self.act)

    def __hash__(self) -> int:
        return hash(self.order)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, BookRule) and self.order == other.order and tuple.__eq__(self, other)

    def __call__(self, engine: Engine, **facts: Fact) -> None:
        self.act(engine, facts)


def activation_key(activation: Activation) -> tuple[int, int, tuple[int, ...]]:
    """Salience, place in the book, and the facts by the names they are bound to: no two activations share it."""
    named = sorted((name, fact) for name, fact in activation.context.items() if not name.startswith("__"))
    return (-activation.rule.salience, activation.rule.order, tuple(fact["__factid__"] for _, fact in named))


class BookOrder(Strategy):
    """Highest salience first, then the book's order, then the older facts; what is taken back never fires.

    experta's own strategy looks for a removed activation among three neighbours only, and may leave it to fire.
    """

    def _update_agenda(self, agenda: Agenda, added: Sequence[Activation], removed: Sequence[Activation]) -> None:
        if not added and not removed:
            return
        gone = {activation_key(activation) for activation in removed}
        waiting = [activation for activation in agenda.activations if activation.key not in gone]
        for activation in added:
            activation.key = activation_key(activation)
            waiting.append(activation)
        agenda.activations = sorted(waiting, key=lambda activation: activation.key, reverse=True)


def _initial_facts() -> Iterator[Fact]:
    yield InitialFact()


class Engine(KnowledgeEngine):
    """An engine over given rules; ``fired`` is what they recorded since the last reset."""

    __strategy__ = BookOrder
    __matcher__: Any = ApartMatcher

    def __init__(self, rules: Sequence[BookRule]) -> None:
        self.rules = list(rules)
        self.fired: list[tuple[Any, tuple[Fact, ...]]] = []
        super().__init__()

    def get_rules(self) -> list[BookRule]:
        """The rules in the order given (experta would look through every attribute of the engine)."""
        return self.rules

    def get_deffacts(self) -> list[Callable[[], Iterator[Fact]]]:
        """The one fact that is always there."""
        return [_initial_facts]

    def run_afresh(self, facts: Sequence[Fact]) -> list[tuple[Any, tuple[Fact, ...]]]:
        """Forget the last case, declare these facts at once and fire what they set off."""
        self.fired = []
        self.reset()
        self.declare(*facts)
        self.run()
        return self.fired
