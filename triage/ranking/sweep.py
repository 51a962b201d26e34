"""The same exact posterior by another way: sweep over the causes, keeping which seen findings are accounted for.

All sums have positive terms only, so floats keep their digits whatever the number of findings. Slower than Quickscore
in plain Python; it shares no step with it and is what Quickscore is checked against.
"""

from __future__ import annotations

from array import array
from operator import mul

from .problem import Part, Problem


def sweep(problem: Problem) -> tuple[dict[str, float], float]:
    """Posterior probability of every linked cause, and the sum itself (see ``Problem.log_scale``).

    ``reach[m]`` is the probability that the causes so far have made exactly the findings m; going back, ``finish[m]``
    is the probability that the causes still to come make all the rest.
    """
    parts = sorted(problem.parts, key=lambda part: (part.mask.bit_length(), part.mask, part.cause))
    reach, befores = [1.0], []
    for part in parts:
        reach = _leak_up(reach, problem.leaks, part.mask.bit_length())
        befores.append(array("d", reach))
        reach = _mixed(reach, _made(reach, part), part)
    reach = _leak_up(reach, problem.leaks, len(problem.leaks))
    total = reach[-1]
    if total <= 0:
        raise ValueError("this evidence cannot occur in this network")
    return dict(sorted(_back(problem, parts, befores, total))), total


def _back(problem: Problem, parts: list[Part], befores: list[array[float]], total: float) -> list[tuple[str, float]]:
    finish = [0.0] * (1 << len(problem.leaks))
    finish[-1] = 1.0
    found = []
    for part, before in zip(reversed(parts), reversed(befores), strict=True):
        finish = _leak_down(finish, problem.leaks, part.mask.bit_length())
        helped = _helped(finish, part)
        share = part.odds / (1.0 + part.odds)
        found.append((part.cause, share * sum(map(mul, before, helped)) / total))
        finish = _mixed(finish, helped, part)
    return found


def _mixed(without: list[float], with_it: list[float], part: Part) -> list[float]:
    """The cause is present with its share, and absent with the rest."""
    share = part.odds / (1.0 + part.odds)
    return [(1.0 - share) * a + share * b for a, b in zip(without, with_it, strict=True)]


def _made(reach: list[float], part: Part) -> list[float]:
    """What is made once the cause, being present, has made each of its findings or not."""
    made = list(reach)
    for bit, chance in part.links:
        for low in _lows(len(made), bit):
            high = low | 1 << bit
            made[high] += chance * made[low]
            made[low] *= 1.0 - chance
    return made


def _helped(finish: list[float], part: Part) -> list[float]:
    """The same step, seen from behind."""
    helped = list(finish)
    for bit, chance in part.links:
        for low in _lows(len(helped), bit):
            helped[low] = (1.0 - chance) * helped[low] + chance * helped[low | 1 << bit]
    return helped


def _lows(size: int, bit: int) -> list[int]:
    return [subset for subset in range(size) if not subset >> bit & 1]


def _leak_up(reach: list[float], leaks: tuple[float, ...], top: int) -> list[float]:
    """Bring in the findings up to ``top``, each made by its leak or not."""
    while len(reach) < 1 << top:
        leak = leaks[len(reach).bit_length() - 1]
        reach = [(1.0 - leak) * value for value in reach] + [leak * value for value in reach]
    return reach


def _leak_down(finish: list[float], leaks: tuple[float, ...], top: int) -> list[float]:
    while len(finish) > 1 << top:
        half = len(finish) // 2
        leak = leaks[half.bit_length() - 1]
        finish = [(1.0 - leak) * a + leak * b for a, b in zip(finish[:half], finish[half:], strict=True)]
    return finish
