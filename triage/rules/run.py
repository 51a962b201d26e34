"""Run the rules over a case, or over a substance in this water, and keep what fired on which facts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from ..errors import Fault, KnowledgeError
from ..model.facts import CaseFacts, Graded, GuardFacts, RulesOutcome
from ..model.outcome import Firing
from ..model.rule import Rule, Stage
from ..model.way import Schedule
from .check import rule_faults
from .compile import build_rule
from .engine import BookRule, Engine
from .outcomes import Fired, as_graded, as_outcome, merge_fired
from .plan import Plan, PlannedWay
from .tell import Told, tell_case, tell_guard
from .texts import Said
from .ways import Key

_BEFORE_RANKING: frozenset[Stage] = frozenset({"alarm", "conclude", "favour"})
_WITH_SUSPECTS: frozenset[Stage] = _BEFORE_RANKING | {"respond"}
_GUARD: frozenset[Stage] = frozenset({"guard"})


class GuardOutcome(msgspec.Struct, frozen=True, kw_only=True):
    """The grades asked for, and the firings behind them."""

    graded: tuple[Graded, ...] = ()
    firings: tuple[Firing, ...] = ()


class RuleRunner:
    """The rules of one book. Engines are kept by the set of rules they hold and run afresh on every change.

    One runner serves one thread.
    """

    def __init__(self, rules: Mapping[str, Rule], schedule: Schedule | None = None, *, keep: int = 16) -> None:
        """``schedule``: from a compiled book. ``keep``: how many engines to keep.

        Raises KnowledgeError for rules that no engine can hold.
        """
        try:
            self._plan = Plan(rules, schedule)
        except ValueError:
            faults = [Fault(f"rule {id_}", 0, "error", "KB216", message) for id_, message in rule_faults(rules)]
            raise KnowledgeError(faults) from None
        self._guards = [way for way in self._plan.ways if way.rule.stage == "guard"]
        self._keep = keep
        self._built: dict[int, BookRule] = {}
        #: By the places of its ways: an engine, and the keys that any of them looks for.
        self._kept: dict[tuple[int, ...], tuple[Engine, frozenset[Key]]] = {}

    def run_case(self, facts: CaseFacts, *, responding: bool = False) -> RulesOutcome:
        """Alarms, conclusions and moved odds of a case; with suspects, or ``responding``, what to offer and set aside.

        Raises ValueError for facts that contradict themselves.
        """
        told = tell_case(facts, self._plan.unmeasured)
        stages = _WITH_SUSPECTS if responding or facts.suspects else _BEFORE_RANKING
        ways = self._plan.list_possible((key for fact in told for key in fact.keys), stages)
        names = {"crop": Said(facts.crop.name if facts.crop else "this crop")}
        return as_outcome(merge_fired(self._fire(ways, told), facts.readings, names))

    def run_guard(self, facts: GuardFacts) -> tuple[Graded, ...]:
        """The grades that safety rules ask for; they can only make a verdict stricter."""
        return self.trace_guard(facts).graded

    def trace_guard(self, facts: GuardFacts) -> GuardOutcome:
        """The same with the firings."""
        told = tell_guard(facts, self._plan.unmeasured)
        names = {"substance": Said(facts.substance)}
        fired = merge_fired(self._fire(self._guards, told), facts.readings, names)
        return GuardOutcome(graded=as_graded(fired), firings=tuple(record.firing for record in fired))

    def _fire(self, ways: list[PlannedWay], told: Iterable[Told]) -> list[Fired]:
        """Run the engine of these ways. It is put back only when it came through: an error leaves no trace."""
        place = tuple(way.place for way in ways)
        engine, wanted = self._kept.pop(place) if place in self._kept else self._build(ways)
        facts = [fact.make() for fact in told if not wanted.isdisjoint(fact.keys)]
        fired = [Fired(way, found) for way, found in engine.run_afresh(facts)]
        self._kept[place] = engine, wanted
        while len(self._kept) > self._keep:
            del self._kept[next(iter(self._kept))]
        return fired

    def _build(self, ways: list[PlannedWay]) -> tuple[Engine, frozenset[Key]]:
        """A rule holds nothing of an engine, so that engines share it."""
        for way in ways:
            if way.place not in self._built:
                self._built[way.place] = build_rule(way)
        wanted = frozenset(key for way in ways for gate in way.gates for key in gate)
        return Engine([self._built[way.place] for way in ways]), wanted
