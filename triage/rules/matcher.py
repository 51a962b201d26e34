"""Which rules match which facts, for rules whose conditions stand apart (no variable is shared between them).

experta's own matcher asks every rule after every fact; this one asks only the rules that a fact concerns, and builds
its network without rewriting the rules. Reset leaves nothing of an earlier case, also after an error.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from typing import Any

from .door import NOT, Activation, Fact, Matcher, P, Rule

MatchId = tuple[int, ...]


class _Memory:
    """The facts that match one pattern, and the rules that use it."""

    def __init__(self, pattern: Fact) -> None:
        tests = [(name, value) for name, value in pattern.items() if name != "__bind__"]
        self.equal = [(name, value) for name, value in tests if not isinstance(value, P)]
        self.predicates = [(name, value.match) for name, value in tests if isinstance(value, P)]
        self.facts: dict[int, Fact] = {}
        self.users: list[_Matches] = []

    def accepts(self, fact: Fact) -> bool:
        return all(name in fact and fact[name] == value for name, value in self.equal) and all(
            name in fact and match(fact[name]) for name, match in self.predicates
        )


class _Matches:
    """One rule: all ways to pick one fact for each of its patterns, unless an exception is there."""

    def __init__(self, rule: Rule, names: list[str], wanted: list[_Memory], barred: list[_Memory]) -> None:
        self.rule, self.names, self.wanted, self.barred = rule, names, wanted, barred
        self.current: dict[MatchId, Activation] = {}

    def refresh(self, added: list[Activation], removed: list[Activation]) -> None:
        """Bring ``current`` up to date and say what came and what went."""
        found = self._find()
        removed.extend(self.current.pop(id_) for id_ in [id_ for id_ in self.current if id_ not in found])
        for id_, facts in found.items():
            if id_ not in self.current:
                self.current[id_] = Activation(self.rule, facts, dict(zip(self.names, facts, strict=True)))
                added.append(self.current[id_])

    def _find(self) -> dict[MatchId, tuple[Fact, ...]]:
        if any(memory.facts for memory in self.barred) or not all(memory.facts for memory in self.wanted):
            return {}
        picks = product(*(memory.facts.items() for memory in self.wanted))
        return {tuple(id_ for id_, _ in pick): tuple(fact for _, fact in pick) for pick in picks}


class ApartMatcher(Matcher):
    """A matcher for patterns of literals and predicates, and NOT of such a pattern; TypeError for anything else."""

    def __init__(self, engine: Any) -> None:
        super().__init__(engine)
        self._memories: dict[tuple[object, ...], _Memory] = {}
        self._index: dict[type, dict[str, dict[object, list[_Memory]]]] = {}
        self._rules = [self._read_rule(rule) for rule in engine.get_rules()]

    def _read_rule(self, rule: Rule) -> _Matches:
        wanted = [part for part in rule if not isinstance(part, NOT)]
        memories = [self._remember(pattern) for pattern in wanted]
        barred = [self._remember(part[0]) for part in rule if isinstance(part, NOT)]
        matches = _Matches(rule, [pattern["__bind__"] for pattern in wanted], memories, barred)
        for memory in [*memories, *barred]:
            memory.users.append(matches)
        return matches

    def _remember(self, pattern: object) -> _Memory:
        if not isinstance(pattern, Fact):
            raise TypeError(f"a condition is a fact pattern or NOT of one, not {pattern!r}")
        tests = {name: value for name, value in pattern.items() if name != "__bind__"}
        key = (type(pattern), *sorted(tests.items(), key=lambda test: test[0]))
        if key not in self._memories:
            self._memories[key] = memory = _Memory(pattern)
            name, value = memory.equal[0] if memory.equal else ("", None)
            self._index.setdefault(type(pattern), {}).setdefault(name, {}).setdefault(value, []).append(memory)
        return self._memories[key]

    def _concerned(self, fact: Fact) -> Iterable[_Memory]:
        for name, by_value in self._index.get(type(fact), {}).items():
            yield from by_value.get(fact.get(name) if name else None, ())

    def changes(
        self, adding: Iterable[Fact] | None = None, deleting: Iterable[Fact] | None = None
    ) -> tuple[list[Activation], list[Activation]]:
        """Take facts away and in; give the activations that came and those that went."""
        touched: dict[_Matches, None] = {}
        for fact in deleting or ():
            for memory in self._concerned(fact):
                if memory.facts.pop(fact["__factid__"], None) is not None:
                    touched.update(dict.fromkeys(memory.users))
        for fact in adding or ():
            for memory in self._concerned(fact):
                if memory.accepts(fact):
                    memory.facts[fact["__factid__"]] = fact
                    touched.update(dict.fromkeys(memory.users))
        added: list[Activation] = []
        removed: list[Activation] = []
        for matches in touched:
            matches.refresh(added, removed)
        return added, removed

    def reset(self) -> None:
        """Forget all facts and matches."""
        for memory in self._memories.values():
            memory.facts.clear()
        for matches in self._rules:
            matches.current.clear()
