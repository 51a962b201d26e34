"""The ranking of one case: suspects with what speaks for and against them, pairs, and what nothing explains."""

from __future__ import annotations

from heapq import nsmallest

from triage.model.outcome import Ranking, Suspect

from .evidence import Evidence
from .network import Network
from .posterior import Posterior, belief, together
from .quickscore import Sums
from .support import support_of

#: Causes less likely than this are not listed, and never more than so many.
SUSPECT_FROM, MOST_SUSPECTS = 0.001, 60
#: A seen finding is unexplained when it is likelier than this that its leak made it and no present cause did.
UNEXPLAINED_FROM = 0.5


def rank_causes(
    network: Network, evidence: Evidence, *, explain: int = 8, known: tuple[Posterior, Sums] | None = None
) -> Ranking:
    """Rank the causes by their posterior probability, the likeliest first, ties by id.

    The first ``explain`` suspects carry the support of every finding, rule and the crop; the others carry none.
    ``none_in_book`` is the probability that no cause linked to anything seen or unsure is present (with nothing
    seen: no cause at all). ``known`` is the case's ``belief``, where somebody worked it out already. Evidence that
    names an unknown finding is a ValueError.
    """
    posterior, sums = known or belief(network, evidence)
    chances = posterior.probabilities
    order = nsmallest(MOST_SUSPECTS, chances, key=lambda cause: (-round(chances[cause], 12), cause))
    listed = [cause for cause in order if chances[cause] >= SUSPECT_FROM]
    support = support_of(network, evidence, sums, listed[:explain])
    return Ranking(
        suspects=tuple(
            Suspect(cause=cause, probability=chances[cause], support=support.get(cause, ())) for cause in listed
        ),
        none_in_book=posterior.none_behind,
        together=together(sums, chances),
        unexplained=tuple(one for one, alone in posterior.by_itself.items() if alone > UNEXPLAINED_FROM),
    )
