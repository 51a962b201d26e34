"""What would make it acceptable: the same asked again with another cover, less of it, or what was left unsaid."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from ..model.rule import Grade
from ..report.spray_report import Better
from ..responses.grade import NOT_OFFERED
from ..responses.setting import Plan
from .asked import Asked
from .judge import Judge, Judged
from .planning import BY_OTHERS

#: How careful a cover is; a grade is met by a cover at least as careful as it asks for.
_CARE = {"moved": 2, "covered": 1}
_NEEDS: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2}
#: Shares of the amount that are tried, largest first.
_LESS = (1.0, 0.1, 0.01)
_MOST = 3


def suits(grade: Grade, plan: Plan) -> bool:
    """Whether a plan already is as careful as its grade asks for; what goes into the water must be ``ok``.

    >>> suits("keep-off-water", Plan(cover="covered")), suits("away-from-system", Plan(cover="covered"))
    (True, False)
    """
    if plan.way == "dosed":
        return grade == "ok"
    return grade in _NEEDS and _CARE.get(plan.cover, 0) >= _NEEDS[grade]


def find_better(judge: Judge, asked: Asked, judged: Judged) -> tuple[Better, ...]:
    """Ways to use it that its grade allows, the least change first; none if nothing makes it acceptable.

    Only what one can decide oneself: the cover, how much of it, and saying what was left unsaid.
    """
    only = msgspec.structs.replace(asked, words=judged.substance.substance)
    found: list[Better] = []
    if judged.planned.plan.cover in BY_OTHERS or _hopeless(judge, only, judged):
        return ()
    for better, variant in _variants(only, judged):
        answer = judge.judge(variant)
        leading = answer.leading
        good = leading is not None and suits(answer.verdict.grade, leading.planned.plan)
        if good and not any(_implied(better, known) for known in found):
            found.append(msgspec.structs.replace(better, grade=answer.verdict.grade))
        if len(found) == _MOST:
            break
    return tuple(found)


def _hopeless(judge: Judge, asked: Asked, judged: Judged) -> bool:
    """Whether even a trace on a plant carried away (or put into the water) is refused."""
    dosed = judged.planned.plan.way == "dosed"
    trace = {"amount": "1 mg"} if dosed else {"amount": "1 mL", "cover": "moved", "strength": _say_strength(judged)}
    least = judge.judge(msgspec.structs.replace(asked, times=1, every=None, **trace))
    return least.verdict.grade in NOT_OFFERED


def _variants(asked: Asked, judged: Judged) -> Iterator[tuple[Better, Asked]]:
    plan = judged.planned.plan
    if plan.way == "dosed":
        yield from _smaller_doses(asked, plan)
        return
    for cover in _covers(plan):
        for share in _LESS:
            amount = _say_amount(plan, share)
            better = Better(cover=cover, amount=amount, strength=_say_strength(judged) or "", share=share, grade="ok")
            changes = {"cover": cover, "amount": amount, "strength": _say_strength(judged)}
            yield better, msgspec.structs.replace(asked, **changes)


def _covers(plan: Plan) -> list[str]:
    """The stated cover, then the more careful ones."""
    here = _CARE.get(plan.cover, 0)
    start = [plan.cover] if plan.cover in ("none", "covered", "moved") else []
    return [*start, *(cover for cover, care in sorted(_CARE.items(), key=lambda item: item[1]) if care > here)]


def _smaller_doses(asked: Asked, plan: Plan) -> Iterator[tuple[Better, Asked]]:
    for share in (1.0, 0.5, 0.2, 0.1, 0.05, 0.01, 0.005, 0.002, 0.001):
        if plan.amount is not None:
            amount = _say_amount(plan, share)
            better = Better(cover="", amount=amount, strength="", share=share, grade="ok")
            yield better, msgspec.structs.replace(asked, amount=amount, times=1, every=None)


def _implied(better: Better, known: Better) -> bool:
    """Less of it, or more care, than a way found already says nothing new; more of it with more care does."""
    return better.share <= known.share


def _say_amount(plan: Plan, share: float) -> str:
    amount = plan.amount
    if amount is None:
        return ""
    if amount.grams is not None:
        grams = amount.grams * share
        return f"{_three(grams)} g" if grams >= 0.1 else f"{_three(grams * 1000)} mg"
    litres = (amount.litres or 0.0) * share
    return f"{_three(litres)} L" if litres >= 1 else f"{_three(litres * 1000)} mL"


def _three(number: float) -> str:
    """Three digits that count, as one can type them again: never with an exponent.

    >>> _three(1234.0), _three(0.0505)
    ('1230', '0.0505')
    """
    return f"{float(f'{number:.3g}'):.12g}"


def _say_strength(judged: Judged) -> str | None:
    strength = judged.planned.plan.strength
    if strength is None:
        return None
    return f"{strength.value:.12g} {strength.unit} {strength.of}"
