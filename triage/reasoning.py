"""The engines of one book in their order: words, water, rules, ranking, rules again with suspects, responses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import NamedTuple

import msgspec

from .hearing import Hearing
from .model.book import Book
from .model.case import Case, System
from .model.crop import Animal
from .model.facts import CaseFacts, RulesOutcome
from .model.finding import Place
from .model.outcome import AlarmRaised, Avoided, Favoured, Heard, NextQuestion, Ranking, Response, Verdict
from .model.quantity import Reading
from .model.substance import Substance
from .ranking.alike import Alike, find_alike, with_alike
from .ranking.evidence import Contradiction, Evidence, close_evidence
from .ranking.network import Network, plain_network
from .ranking.posterior import belief, infer
from .ranking.question import choose_question, why_none
from .ranking.rank import rank_causes
from .report.build import Look
from .report.here_lines import say_alike, say_own_cases
from .responses.grade import grade_substance
from .responses.respond import respond_to
from .responses.setting import Assumptions, Plan, Water
from .rules.run import RuleRunner
from .water.derive import Derived, as_reading, derive_values, derived_readings
from .water.inflow import top_up_readings
from .water.latest import Current, current_readings
from .water.limits import least

#: Suspects less likely than this do not stir up responses.
WORTH_TREATING = 0.10


class Standing(NamedTuple):
    """How it stands between two answers: the next question or why there is none, and how likely every cause is."""

    question: NextQuestion | None
    why_none: str  # '' where there is one; else "settled", "nothing", "test" or "time"
    chances: Mapping[str, float]


class Engines:
    """Built once for a book, used for many looks; each engine is made when it is first needed."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.rules = RuleRunner(book.rules, book.schedule)
        self.hearing = Hearing(book)
        self._plain: dict[str, Network] = {}  # by crop

    def facts(self, case: Case) -> tuple[CaseFacts, tuple[Current, ...]]:
        """The case as the rules see it, and the readings that speak for the water now."""
        current = current_readings(case.readings, case.on)
        animals = self._animals(case.system)
        measured = [item.reading for item in current] + top_up_readings(case.readings, self.book.quantities, case.on)
        derived = derived_readings(measured, self.derive(case.system, measured))
        facts = CaseFacts(
            case=case,
            readings=(*measured, *derived, *self._balance(case, {r.quantity for r in (*measured, *derived)})),
            trends=self._trends(case),
            crop=self.book.crops.get(case.crop),
            animals=animals,
        )
        return facts, current

    def derive(self, system: System, measured: Sequence[Reading]) -> tuple[Derived, ...]:
        """What follows from readings (one of each quantity) for the animals, the height and the litres of a system."""
        animals = self._animals(system)
        return derive_values(
            measured, salmonids=any(animal.salmonid for animal in animals), altitude_m=system.altitude_m,
            volume_l=system.volume_l, least_oxygen_mg_l=least(animals, "oxygen"),
        )  # fmt: skip

    def _animals(self, system: System) -> tuple[Animal, ...]:
        return tuple(self.book.animals[id_] for id_ in system.animals if id_ in self.book.animals)

    def _trends(self, case: Case) -> dict[str, str]:
        """Which way each quantity has gone, where enough readings say so."""
        counts = Counter(reading.quantity for reading in case.readings)
        often = [self.book.quantities[id_] for id_ in sorted(counts) if counts[id_] > 2 and id_ in self.book.quantities]
        if not often or not case.on:
            return {}
        from .water.trend import find_trends

        return find_trends(case.readings, often, case.on)

    def _balance(self, case: Case, known: set[str]) -> tuple[Reading, ...]:
        """The terms of the alkalinity balance as readings, where the volume and dated readings allow them."""
        dates = {reading.on for reading in case.readings if reading.on}
        if case.system.volume_l is None or len(dates) < 2 or not case.on:
            return ()
        from .water.balance import work_out_balance

        terms = work_out_balance(case.readings, self.book.quantities, on=case.on, volume_l=case.system.volume_l)
        return tuple(as_reading(term) for term in terms if term.quantity not in known)

    def network(self, case: Case, outcome: RulesOutcome, current: Sequence[Current]) -> Network:
        """Causes with odds moved by crop, rules and all that was told.

        A rule that rests on a stale reading moves them half as far.
        """
        stale = {item.reading.quantity for item in current if item.stale}
        favoured = [self._aged(item, outcome, stale) for item in outcome.favoured]
        favoured += self.book.here.favoured
        crop = self.book.crops.get(case.crop)
        name = crop.crop if crop else ""
        if name not in self._plain:
            self._plain[name] = plain_network(self.book.causes, self.book.findings, crop=crop)
        return self._plain[name].sounding(self.hearing.gist(case)).moved(favoured)

    def _aged(self, item: Favoured, outcome: RulesOutcome, stale: set[str]) -> Favoured:
        rests_on = {
            fact.split()[1]
            for f in outcome.firings
            if f.rule == item.rule
            for fact in f.facts
            if fact.startswith("reading ")
        }
        return msgspec.structs.replace(item, factor=item.factor**0.5) if rests_on & stale else item

    def alarms(self, case: Case) -> tuple[AlarmRaised, ...]:
        """What cannot wait."""
        return self.rules.run_case(self.facts(closed(case, self.book)[0])[0]).alarms

    def standing(self, case: Case, *, here: str = "") -> Standing:
        """The question most worth asking now, and how it stands before its answer."""
        facts, current = self.facts(closed(case, self.book)[0])
        network = self.network(case, self.rules.run_case(facts), current)
        evidence = Evidence.of_case(facts.case)
        chances = infer(network, evidence).probabilities
        question = self._question(facts.case, network, here, chances)
        if question is not None:
            return Standing(question, "", chances)
        crop = self.book.crops.get(case.crop)
        ended = why_none(network, evidence, self.book.questions, crop=crop, probabilities=chances)
        return Standing(None, ended, chances)

    def _question(self, case: Case, network: Network, here: str, chances: Mapping[str, float]) -> NextQuestion | None:
        place: Place | None = here or None  # type: ignore[assignment]
        return choose_question(
            network, Evidence.of_case(case), self.book.questions, asked=case.asked,
            crop=self.book.crops.get(case.crop), here=place, probabilities=chances,
            responses=self._responses,
        )  # fmt: skip

    @cached_property
    def _responses(self) -> dict[str, list[str]]:
        return {id_: cause.respond for id_, cause in self.book.causes.items()}

    def look(
        self, case: Case, heard: tuple[Heard, ...], unread: tuple[str, ...], *, here: str = "",
        with_question: bool = True, with_responses: bool = True,
    ) -> Look:  # fmt: skip
        """One pass: rules, ranking, rules with suspects, the next question, responses."""
        full, contradictions = closed(case, self.book)
        alike = alike_elsewhere(case, self.book)
        facts, current = self.facts(full)
        outcome = self.rules.run_case(facts)
        network = self.network(full, outcome, current)
        evidence = Evidence.of_case(full)
        known = belief(network, evidence)
        ranking = rank_causes(network, evidence, known=known)
        responses: tuple[Response, ...] = ()
        avoided: tuple[Avoided, ...] = ()
        if with_responses:
            suspects = {s.cause: s.probability for s in ranking.suspects if s.probability >= WORTH_TREATING}
            outcome = self.rules.run_case(msgspec.structs.replace(facts, suspects=suspects), responding=True)
            responses, avoided = self.respond(facts, outcome, ranking)
        return Look(
            case=case, heard=heard, unread=unread, contradictions=contradictions,
            readings=tuple(msgspec.structs.replace(item.reading, note=item.note) for item in current), outcome=outcome,
            ranking=ranking, responses=responses, avoided=avoided,
            question=self._question(full, network, here, known[0].probabilities) if with_question else None,
            from_journal=(*say_alike(self.book, alike), *say_own_cases(self.book, ranking)),
        )  # fmt: skip

    def respond(
        self, facts: CaseFacts, outcome: RulesOutcome, ranking: Ranking
    ) -> tuple[tuple[Response, ...], tuple[Avoided, ...]]:
        """Treatments for the leading suspects, graded for these animals and this water."""
        return respond_to(
            ranking.suspects, self.book, self.water(facts), self.rules.run_guard, crop=facts.crop,
            offered=outcome.offered, set_aside=outcome.set_aside, shelf=facts.case.system.shelf,
        )  # fmt: skip

    def water(self, facts: CaseFacts) -> Water:
        """The water as exposure needs it; oxygen as measured, or else what water holds at this temperature."""
        known = {reading.quantity: reading for reading in facts.readings}
        oxygen = known.get("oxygen") or known.get("oxygen-saturation")
        return Water(
            volume_l=facts.case.system.volume_l, animals=facts.animals, readings=facts.readings,
            oxygen_mg_l=oxygen.low if oxygen else None,
        )  # fmt: skip

    def grade(self, substance: Substance, plan: Plan, water: Water) -> Verdict:
        """How a substance may be used like this in this water."""
        return grade_substance(substance, plan, water, Assumptions.from_book(self.book), self.rules.run_guard)


def closed(case: Case, book: Book) -> tuple[Case, tuple[str, ...]]:
    """The case with what its findings imply and exclude, and where they contradict each other.

    What other looks in this garden tell is added where nobody answered it (see ``alike_elsewhere``).
    """
    evidence, clashes = close_evidence(Evidence.of_case(case), book.findings)
    alike = find_alike(book, case, evidence) if book.here.looks else None
    if alike is not None:
        evidence, clashes = close_evidence(with_alike(evidence, alike, book), book.findings)
    full = msgspec.structs.replace(
        case, seen=evidence.seen, absent=evidence.absent, unsure=evidence.unsure, set_aside=evidence.set_aside
    )
    return full, tuple(_say_clash(book, clash) for clash in clashes)


def alike_elsewhere(case: Case, book: Book) -> Alike | None:
    """What other looks in this garden tell of which plants have it; None where they tell nothing."""
    if not book.here.looks:
        return None
    return find_alike(book, case, close_evidence(Evidence.of_case(case), book.findings)[0])


def _say_clash(book: Book, clash: Contradiction) -> str:
    names = book.findings[clash.finding].name, book.findings[clash.other].name
    return f"'{names[0]}' does not go with '{names[1]}'{' being absent' if clash.implies else ''}"
