"""Belief over sets of causes, the support of each finding, the next question.

network = build_network(book.causes, book.findings, crop=crop, favoured=outcome.favoured)
evidence, contradictions = close_evidence(Evidence.of_case(case), book.findings)
ranking = rank_causes(network, evidence)
question = choose_question(network, evidence, book.questions, asked=case.asked, crop=crop)
"""

from .evidence import Contradiction, Evidence, close_evidence
from .network import Network, Node, build_network
from .posterior import Posterior, infer
from .question import choose_question
from .rank import rank_causes

__all__ = [
    "Contradiction",
    "Evidence",
    "Network",
    "Node",
    "Posterior",
    "build_network",
    "choose_question",
    "close_evidence",
    "infer",
    "rank_causes",
]
