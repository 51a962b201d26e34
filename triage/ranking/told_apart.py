"""Which causes a question tells apart, and the words for it."""

from __future__ import annotations

from collections.abc import Sequence

from .hypotheses import Hypotheses
from .information import Answers, information
from .network import OTHER, Network

#: A third cause is named when the answer tells at least this share of what it tells about the second.
_THIRD_FROM = 0.5


def told_apart(sets: Hypotheses, answers: Answers) -> tuple[str, ...]:
    """The cause the answer tells most about, then one or two that the answers move the other way."""
    whole = answers.expected(range(len(sets.weights)))
    joint = {cause: answers.expected(places) for cause, places in sets.having.items() if places and cause != OTHER}
    told = {cause: information([row, [a - b for a, b in zip(whole, row, strict=True)]]) for cause, row in joint.items()}
    order = sorted(told, key=lambda cause: (-round(told[cause], 12), cause))
    if not order:
        return ()
    first = order[0]
    against = {cause: -_moved_together(whole, joint[first], joint[cause]) for cause in order[1:]}
    rivals = sorted((cause for cause in against if against[cause] > 1e-9), key=lambda cause: (-against[cause], cause))
    if len(rivals) > 1 and against[rivals[1]] < _THIRD_FROM * against[rivals[0]]:
        rivals = rivals[:1]
    return (first, *rivals[:2])


def _moved_together(whole: Sequence[float], one: Sequence[float], other: Sequence[float]) -> float:
    """Covariance, over the answers, of the probabilities of two causes."""
    means = sum(one), sum(other)
    return sum(
        (a - means[0] * share) * (b - means[1] * share) / share
        for share, a, b in zip(whole, one, other, strict=True)
        if share > 0
    )


def why(network: Network, about: Sequence[str]) -> str:
    """Why a question is asked, in the causes' own names."""
    names = [in_sentence(network.nodes[cause].name or cause) for cause in about]
    if not names:
        return ""
    if len(names) == 1:
        return f"shows whether it is {names[0]}"
    return f"tells {names[0]} from {' and '.join(names[1:])}"


def in_sentence(name: str) -> str:
    """A name inside a sentence: its first letter small, unless the first word is an abbreviation.

    >>> in_sentence("Iron shortage"), in_sentence("EC too high"), in_sentence("pH too low")
    ('iron shortage', 'EC too high', 'pH too low')
    """
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]
