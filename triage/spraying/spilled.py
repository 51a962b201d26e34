"""It got into the water: first actions in order, how much water to change, what to test, when it is over."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..model.advice import Moment
from ..report.spray_report import Spill, WaterChange
from ..responses.advise import Occasion, choose_advice
from ..responses.exposure import Reckoned, reckon_exposure
from ..responses.measures import measure
from ..responses.setting import Plan, Water
from ..responses.spill import Aim, SpillMath, days_until, reckon_changes
from ..responses.toxicity import Lookup
from . import words
from .judge import Judge, Judged

#: More changes than this are no help in time: the animals have to be moved.
_TOO_MANY = 6


def tell_spill(judge: Judge, judged: Sequence[Judged], water: Water, occasion: Occasion) -> Spill:
    """What to do now. Without a substance of the book: what holds for whatever it was."""
    found = [(one, math) for one in judged if (math := _math(judge, one, water)) is not None]
    worst = max(found, key=lambda pair: pair[1].rest.factor, default=None)
    lead = worst[0] if worst else (judged[0] if judged else None)
    level = _once(judge, lead, water)[1].single_mg_l if lead else None
    changes = _changes(worst[1], level) if worst else ()

    def lines(moment: Moment) -> tuple[str, ...]:
        return choose_advice(judge.book.advice, moment, occasion)

    over = (*lines("over"), *(_fading(lead, worst[1]) if lead and worst else ()))
    return Spill(
        level_mg_l=level, of=lead.usual.exposure.of if lead else "", first=lines("first"), change=changes,
        change_note=_note(changes) if worst else words.NO_MEASURE, test=lines("test"), over=over, tell=lines("tell"),
    )  # fmt: skip


def _event(judged: Judged) -> str:
    return "dosed" if judged.planned.plan.way == "dosed" else "spilled"


def _math(judge: Judge, judged: Judged, water: Water) -> SpillMath | None:
    plan, reckoned = _once(judge, judged, water)
    measured = measure(Lookup(substance=judged.substance, water=water, assumed=judge.assumed), plan, reckoned)
    return reckon_changes(measured.exposures, _event(judged), water.volume_l, judge.assumed)


def _once(judge: Judge, judged: Judged, water: Water) -> tuple[Plan, Reckoned]:
    """One filling of it, and the level it gives."""
    plan = msgspec.structs.replace(judged.planned.plan, times=1)
    return plan, reckon_exposure(judged.substance, plan, water.volume_l, judge.assumed)


def _changes(math: SpillMath, level: float | None) -> tuple[WaterChange, ...]:
    """The two aims in words; the second only where it asks for more."""
    lines = [_as_line(name, aim, level) for name, aim in ((words.OUT, math.danger), (words.REST, math.rest))]
    kept = [line for line in lines if line is not None]
    return tuple(kept[:1] if len(kept) > 1 and kept[0].times == kept[1].times else kept)


def _as_line(name: str, aim: Aim, level: float | None) -> WaterChange | None:
    change = aim.change
    if change is None:
        return None
    return WaterChange(
        aim=name, decides=aim.decides, target_mg_l=None if level is None else level / change.factor,
        factor=change.factor, times=change.times, each=change.each, litres=change.litres, share=change.share,
    )  # fmt: skip


def _note(changes: Sequence[WaterChange]) -> str:
    """What the changes mean; the first aim decides whether changing water can do it at all."""
    if not changes:
        return words.NO_CHANGE
    if changes[0].aim == words.OUT and changes[0].times > _TOO_MANY:
        return words.TOO_SLOW
    return words.BETWEEN


def _fading(judged: Judged, math: SpillMath) -> tuple[str, ...]:
    """How long it would take by itself, where that is known."""
    half_life = judged.substance.half_life_days
    if half_life is None or math.rest.change is None:
        return ()
    recalled = words.DO_NOT_COUNT if half_life.read == "memory" else ""
    days = days_until(math.rest.factor, half_life.value)
    if days > 365:
        return (words.FADES_SLOWLY.format(days=f"{half_life.value:g}", recalled=recalled),)
    return (words.FADES.format(days=f"{half_life.value:g}", recalled=recalled, rest=f"{days:.0f}"),)
