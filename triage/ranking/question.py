"""The next question: the one with the most expected information per unit of effort, and why it is asked."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Literal

import msgspec

from triage.model.crop import Crop
from triage.model.finding import Place, Question
from triage.model.odds import EFFORT
from triage.model.outcome import NextQuestion

from .evidence import Evidence
from .hypotheses import Hypotheses, likely_sets
from .information import TICKS, Answers, tick_bits
from .network import Network
from .posterior import infer
from .told_apart import told_apart, why

#: Settled: one cause or several at least this likely, and this far ahead of every other.
SETTLED_AT, SETTLED_LEAD = 0.90, 0.60
#: A question must be expected to tell this many bits, and this many per glance of effort.
WORTH_BITS, WORTH_BITS_PER_EFFORT = 0.03, 0.01
#: While a cause is this likely, nobody is asked about one less likely than the other number: what else may live in the
#: bed is not what the grower came for.
AS_GOOD_AS_SURE, WORTH_ASKING_ABOUT = 0.85, 0.10
#: What only a test can tell.
TESTS = ("test-kit", "laboratory")
#: A question at the place one is looking at counts this much more.
STAY_HERE = 1.15
#: How much of a question's worth lies in telling what to do, where causes' responses are known; the rest in the cause.
DO_SHARE = 0.6
#: Causes with the same first responses, this many of them, call for the same.
FIRST_RESPONSES = 2


class _Scored(msgspec.Struct, frozen=True):
    worth: float  # per unit of effort, the preference for staying counted in
    bits: float
    question: Question
    answers: Answers

    @property
    def rank(self) -> tuple[float, str]:
        return (-round(self.worth, 12), self.question.question)


def choose_question(
    network: Network,
    evidence: Evidence,
    questions: Mapping[str, Question],
    *,
    asked: Collection[str] = frozenset(),
    crop: Crop | None = None,
    effort_cost: Mapping[str, float] = EFFORT,
    here: Place | None = None,
    responses: Mapping[str, Sequence[str]] | None = None,
    probabilities: Mapping[str, float] | None = None,
) -> NextQuestion | None:
    """The question worth asking next; None when the case is settled or no question is worth its effort.

    ``responses`` (cause → treatments, best first) makes what to do count beside the cause itself; ``probabilities``
    is the posterior, where it is known already.
    ``bits`` of the answer is what it is expected to tell about the causes.
    Ties go to the first question by id.
    """
    chances = infer(network, evidence).probabilities if probabilities is None else probabilities
    if settled(chances):
        return None
    sets = likely_sets(network, evidence, chances)
    open_ = [each for each in _telling(questions, network, sets) if can_ask(each, evidence, asked, crop)]
    scored = [_score(network, evidence, sets, each, effort_cost[each.effort], here) for each in open_]
    hopeful = sorted((each for each in scored if each.bits >= WORTH_BITS), key=lambda each: each.rank)
    best = _best(hopeful, _to_do(sets, responses) if responses is not None else None)
    if best is None or best.worth < WORTH_BITS_PER_EFFORT:
        return None
    about = told_apart(sets, best.answers)
    if _is_beside(chances, about):
        return None
    return NextQuestion(id=best.question.question, why=why(network, about), bits=best.bits, about=about)


def why_none(
    network: Network, evidence: Evidence, questions: Mapping[str, Question], *, crop: Crop | None = None,
    probabilities: Mapping[str, float],
) -> Literal["settled", "nothing", "test", "time"]:  # fmt: skip
    """Why no question is put any more: settled; none worth its effort; only a test would tell; or not even that.

    What was asked before and could not be told counts as open.
    """
    if settled(probabilities):
        return "settled"
    sets = likely_sets(network, evidence, probabilities)
    open_ = [each for each in _telling(questions, network, sets) if can_ask(each, evidence, (), crop)]
    telling = [each for each in open_ if answers_to(network, evidence, sets, each).bits() >= WORTH_BITS]
    if any(each.effort in TESTS for each in telling):
        return "test"
    return "nothing" if telling else "time"


def _telling(questions: Mapping[str, Question], network: Network, sets: Hypotheses) -> Iterator[Question]:
    """The questions with an option that some cause of the sets shows; no other can tell any of them apart."""
    shown = {finding for cause in sets.having for finding in network.nodes[cause].shows}
    return (each for each in questions.values() if not shown.isdisjoint(each.options))


def _is_beside(chances: Mapping[str, float], about: Sequence[str]) -> bool:
    """Whether a cause is as good as sure, and the question is about one that nobody would name."""
    sure = any(chance >= AS_GOOD_AS_SURE for chance in chances.values())
    return sure and bool(about) and chances.get(about[0], 0.0) < WORTH_ASKING_ABOUT


def settled(chances: Mapping[str, float]) -> bool:
    """Whether at least one cause is likely enough, and every other is that likely too or far behind.

    >>> settled({"a": 0.95, "b": 0.1}), settled({"a": 0.95, "b": 0.5}), settled({})
    (True, False, False)
    >>> settled({"a": 0.95, "b": 0.93, "c": 0.1})  # two at once
    True
    """
    sure = [chance for chance in chances.values() if chance >= SETTLED_AT]
    others = max((chance for chance in chances.values() if chance < SETTLED_AT), default=0.0)
    return bool(sure) and min(sure) - others >= SETTLED_LEAD


def can_ask(question: Question, evidence: Evidence, asked: Collection[str], crop: Crop | None) -> bool:
    """Whether the question makes sense now and its answer is not known yet."""
    if question.question in asked or (question.after and not evidence.seen.intersection(question.after)):
        return False
    words = {crop.crop, crop.family, crop.kind} if crop else set()
    if question.for_crops and not words.intersection(question.for_crops):
        return False
    answered = question.pick == "one" and evidence.seen.intersection(question.options)
    return not answered and not evidence.known.issuperset(question.options)


def _to_do(sets: Hypotheses, responses: Mapping[str, Sequence[str]]) -> list[int]:
    """A number for what each set of causes calls for: the first responses of all its causes."""
    numbers: dict[frozenset[str], int] = {}
    first = {cause: responses.get(cause, ())[:FIRST_RESPONSES] for cause in sets.having}
    wanted = [frozenset(do for cause in each for do in first[cause]) for each in sets.sets]
    return [numbers.setdefault(each, len(numbers)) for each in wanted]


def _score(
    network: Network, evidence: Evidence, sets: Hypotheses, question: Question, cost: float, here: Place | None
) -> _Scored:
    """What the question is worth as far as the causes go."""
    answers = answers_to(network, evidence, sets, question)
    bits = answers.bits()
    return _Scored(bits * (STAY_HERE if here == question.place else 1.0) / cost, bits, question, answers)


def _best(hopeful: Sequence[_Scored], labels: Sequence[int] | None) -> _Scored | None:
    """The question worth most once telling what to do counts.

    That can only lower what a question is worth, so the search ends when the next one cannot be better.
    """
    best: _Scored | None = None
    for each in hopeful:
        if best is not None and each.rank >= best.rank:
            break
        scored = each if labels is None else msgspec.structs.replace(each, worth=each.worth * _do_factor(each, labels))
        best = scored if best is None else min(best, scored, key=lambda one: one.rank)
    return best


def _do_factor(scored: _Scored, labels: Sequence[int]) -> float:
    return 1.0 - DO_SHARE + DO_SHARE * min(scored.answers.bits_about(labels) / scored.bits, 1.0)


def answers_to(network: Network, evidence: Evidence, sets: Hypotheses, question: Question) -> Answers:
    """How the question would be answered: one of the open options or none, or the most telling few of a tick-list."""
    options = [option for option in question.options if option not in evidence.known]
    if question.pick == "any" and len(options) > TICKS:
        telling = [round(tick_bits(sets.missing_weights(network, option)), 12) for option in options]
        order = sorted(range(len(options)), key=lambda place: (-telling[place], place))
        options = [options[place] for place in order[:TICKS]]
    missing = [sets.missing(network, option) for option in options]
    return Answers(sets.weights, missing, one=question.pick == "one")
