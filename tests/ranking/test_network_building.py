"""From causes, crop and rules to prior odds and links."""

from __future__ import annotations

from math import log, log2
from typing import Any

import pytest

from triage.model.book import Book
from triage.model.cause import Cause
from triage.model.crop import Crop
from triage.model.finding import Finding
from triage.model.odds import BASE, BY_ITSELF, BY_OTHER, CROP, FREQUENCY, ODDS_ENDS, OTHER_ODDS, STRENGTH
from triage.model.outcome import Favoured
from triage.ranking import Network, Node, build_network
from triage.ranking.network import OTHER, plain_network

BASIL = Crop(crop="basil", name="Basil", family="mint family", kind="herb", sources=["our-judgement"])


def finding(name: str, **more: Any) -> Finding:
    return Finding(finding=name, kind="symptom", name=name, place="leaf", sources=["our-judgement"], **more)


def cause(name: str, **more: Any) -> Cause:
    usual: dict[str, Any] = {"base": "common", "shows": {"pale": "usually"}, "status": "reviewed"}
    return Cause(
        cause=name, kind="deficiency", name=name, plain=name, settle=["look"], sources=["our-judgement"], **usual | more
    )


FINDINGS = {
    "pale": finding("pale", by_itself="often", phrases=["pale leaf"]),
    "spots": finding("spots", phrases=["spots"]),
}


def built(*causes: Cause, crop: Crop | None = BASIL, favoured: tuple[Favoured, ...] = ()) -> Network:
    return build_network({each.cause: each for each in causes}, FINDINGS, crop=crop, favoured=favoured)


def favour(name: str, factor: float, rule: str = "r") -> Favoured:
    return Favoured(cause=name, factor=factor, rule=rule, because="so")


def test_words_become_the_numbers_of_the_table() -> None:
    network = built(cause("iron", base="rare", shows={"pale": "nearly-always", "spots": "seldom"}))
    assert network.nodes["iron"].odds == BASE["rare"]
    assert network.nodes["iron"].shows == {"pale": FREQUENCY["nearly-always"], "spots": FREQUENCY["seldom"]}
    assert network.leaks == {"pale": BY_ITSELF["often"], "spots": BY_ITSELF["seldom"]}
    assert network.shown_by["spots"] == {"iron": FREQUENCY["seldom"], OTHER: BY_OTHER["seldom"]}
    assert network.nodes[OTHER].shows == {"pale": BY_OTHER["often"], "spots": BY_OTHER["seldom"]}
    assert network.nodes[OTHER].odds == OTHER_ODDS


def test_what_is_not_in_the_book_shows_a_finding_oftener_than_nothing_does() -> None:
    for word, leak in BY_ITSELF.items():
        assert leak < BY_OTHER[word] < FREQUENCY["usually"]


def test_what_only_a_later_look_asks_for_is_no_sign_of_what_is_not_in_the_book() -> None:
    """How a plant compares with the last look, say: nobody says it of a plant seen for the first time."""
    findings = {**FINDINGS, "better": finding("better")}
    network = build_network({}, findings, crop=None, favoured=())
    assert network.nodes[OTHER].shows.keys() == {"pale", "spots"}


def test_the_crop_beats_its_kind_and_not_leaves_out() -> None:
    network = built(
        cause("a", crops={"basil": "more", "herb": "less"}),
        cause("b", crops={"herb": "less"}),
        cause("c", crops={"herb": "not", "basil": "more"}),
        cause("d", crops={"basil": "not"}),
        cause("e", crops={"chard": "not"}),
    )
    factors = {name: node.odds / BASE["common"] for name, node in network.nodes.items() if name != OTHER}
    assert factors == pytest.approx({"a": CROP["more"], "b": CROP["less"], "c": CROP["more"], "e": 1.0})
    assert network.nodes["b"].crop_bits == pytest.approx(log2(CROP["less"]))
    assert "d" in built(cause("d", crops={"basil": "not"}), crop=None).nodes


def test_a_family_stands_between_crop_and_kind() -> None:
    network = built(
        cause("a", crops={"mint family": "more", "herb": "not"}),
        cause("b", crops={"basil": "less", "mint family": "more"}),
        cause("c", crops={"daisy family": "more"}),
    )
    factors = {name: node.odds / BASE["common"] for name, node in network.nodes.items() if name != OTHER}
    assert factors == pytest.approx({"a": CROP["more"], "b": CROP["less"], "c": 1.0})


def test_retired_causes_are_left_out() -> None:
    assert list(built(cause("b", status="draft"), cause("a"), cause("c", status="retired")).nodes) == ["a", "b", OTHER]


def test_rules_multiply_the_odds() -> None:
    moved = (favour("a", STRENGTH["somewhat"], "r1"), favour("a", 1 / STRENGTH["slightly"], "r2"), favour("zz", 9.0))
    node = built(cause("a"), favoured=moved).nodes["a"]
    assert node.odds == pytest.approx(BASE["common"] * STRENGTH["somewhat"] / STRENGTH["slightly"])
    assert dict(node.rule_bits) == pytest.approx({"r1": log2(STRENGTH["somewhat"]), "r2": -log2(STRENGTH["slightly"])})


@pytest.mark.parametrize(
    ("factor", "end"), [(STRENGTH["strongly"], ODDS_ENDS[1]), (1 / STRENGTH["strongly"], ODDS_ENDS[0])]
)
def test_rules_alone_neither_prove_nor_rule_out(factor: float, end: float) -> None:
    node = built(cause("a"), favoured=tuple(favour("a", factor, f"r{number}") for number in range(6))).nodes["a"]
    assert node.odds == end
    assert sum(bits for _, bits in node.rule_bits) == pytest.approx(log2(end / BASE["common"]))
    assert len({round(bits, 9) for _, bits in node.rule_bits}) == 1


def test_implied_findings_are_followed_in_steps() -> None:
    findings = {each.finding: each for each in (finding("a", implies=["b"]), finding("b", implies=["c"]), finding("c"))}
    network = build_network({}, findings, crop=None, favoured=())
    assert network.implied_by == {"b": {"a"}, "c": {"a", "b"}}


def test_a_link_to_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="cause a shows pail, which is not a finding"):
        Network.of([Node(cause="a", odds=0.1, shows={"pail": 0.5})], {"pale": 0.03})


def test_what_a_case_sounds_like_moves_every_cause_and_keeps_to_the_ends(book: Book) -> None:
    plain = plain_network(book.causes, book.findings, crop=None)
    mites, other = "two-spotted-spider-mite", "thrips"
    heard = plain.sounding({mites: 4.0, other: 0.25, "not-in-the-book": 3.0})
    assert heard.nodes[mites].odds == pytest.approx(4 * plain.nodes[mites].odds)
    assert heard.nodes[other].odds == pytest.approx(plain.nodes[other].odds / 4)
    assert heard.nodes[mites].rule_bits == (("words", pytest.approx(2.0)),)
    assert heard.nodes.keys() == plain.nodes.keys() == heard.priors.keys()
    assert heard.priors[mites] == pytest.approx(heard.nodes[mites].odds / (1 + heard.nodes[mites].odds))
    assert heard.log_nothing == pytest.approx(sum(log(1 - chance) for chance in heard.priors.values()))
    assert plain.sounding({mites: 1e9}).nodes[mites].odds == ODDS_ENDS[1]


def test_rules_come_on_top_of_what_it_sounds_like(book: Book) -> None:
    plain = plain_network(book.causes, book.findings, crop=None)
    mites = "two-spotted-spider-mite"
    rule = Favoured(cause=mites, factor=4.0, rule="dry-air", because="")
    both = plain.sounding({mites: 0.5}).moved([rule])
    assert both.nodes[mites].odds == pytest.approx(2 * plain.nodes[mites].odds)
    assert dict(both.nodes[mites].rule_bits) == {"words": pytest.approx(-1.0), "dry-air": pytest.approx(2.0)}
