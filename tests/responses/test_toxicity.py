"""Which published value counts."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.crop import Animal
from triage.model.record import Sourced
from triage.model.substance import Spares
from triage.responses.setting import Assumptions, Water
from triage.responses.toxicity import CHRONIC, Lookup, choose_value, data_on, lowest_known, step_to

TROUT = "Oncorhynchus mykiss"


def _lookup(substance: Any, water: Water, assumed: Assumptions) -> Lookup:
    return Lookup(substance=substance, water=water, assumed=assumed)


def test_the_animal_itself_counts_before_others(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(100, "Oreochromis niloticus"), kit.row(8, "Oreochromis aureus"), kit.row(1))
    found = choose_value(_lookup(stuff, kit.water(), assumed), "fish")
    assert found is not None
    assert (found.effective_mg_l, found.step) == (100, "species")


def test_each_step_away_costs_a_margin(kit: SimpleNamespace, assumed: Assumptions) -> None:
    near = choose_value(_lookup(kit.substance(kit.row(8, "Oreochromis aureus")), kit.water(), assumed), "fish")
    far = choose_value(_lookup(kit.substance(kit.row(8)), kit.water(), assumed), "fish")
    assert near is not None
    assert far is not None
    assert (near.effective_mg_l, near.step) == (8 / assumed.margin("group"), "group")
    assert (far.effective_mg_l, far.step) == (8 / assumed.margin("any"), "any")
    assert 1 == assumed.margin("species") < assumed.margin("group") < assumed.margin("any")


def test_the_most_sensitive_of_several_animals_counts(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(100, "Oreochromis niloticus"), kit.row(6, "Oncorhynchus mykiss"))
    both = kit.water(animals=(kit.tilapia, kit.trout))
    found = choose_value(_lookup(stuff, both, assumed), "fish")
    assert found is not None
    assert (found.effective_mg_l, found.row.organism) == (6, "Oncorhynchus mykiss")


def test_where_nobody_said_who_lives_there_any_fish_counts(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(100, "Oreochromis niloticus"), kit.row(50))
    found = choose_value(_lookup(stuff, kit.water(animals=()), assumed), "fish")
    assert found is not None
    assert found.effective_mg_l == 50 / assumed.margin("any")


@pytest.mark.parametrize("weak", ["memory", "computed"])
def test_a_recalled_value_only_makes_it_stricter(kit: SimpleNamespace, assumed: Assumptions, weak: str) -> None:
    def effective(*rows: Any) -> float:
        found = choose_value(_lookup(kit.substance(*rows), kit.water(), assumed), "fish")
        assert found is not None
        return found.effective_mg_l

    read = kit.row(10)
    assert effective(read, kit.row(1, read=weak)) < effective(read)
    assert effective(read, kit.row(1000, "Oreochromis niloticus", read=weak)) == effective(read)


def test_a_recalled_value_never_hides_another(kit: SimpleNamespace, assumed: Assumptions) -> None:
    near = kit.row(1000, "Oreochromis niloticus", read="memory")
    for far in (kit.row(10), kit.row(10, read="memory")):
        found = choose_value(_lookup(kit.substance(near, far), kit.water(), assumed), "fish")
        assert found is not None
        assert found.effective_mg_l == 10 / assumed.margin("any")
    harmless = kit.row(3, test="tolerated")
    found = choose_value(_lookup(kit.substance(kit.row(400, read="memory"), harmless), kit.water(), assumed), "fish")
    assert found is not None
    assert found.published_mg_l == 3


def test_what_is_known_is_told_apart(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def data(*rows: Any, **others: Any) -> str:
        return data_on(_lookup(kit.substance(*rows, **others), kit.water(), assumed), "fish")

    assert data(kit.row(1)) == "read"
    assert data(kit.row(1, read="memory")) == "recalled"
    assert data(kit.row(1, group="crustacean")) == "none"
    assert data(kit.row(1, unit="pH")) == "none"
    assert data() == "none"
    assert data(no_data="nobody tested milk") == "explained"
    assert data(kit.row(1, group="alga"), no_data="only algae") == "none"


def test_a_text_that_says_it_is_borne_and_what_harms_as_ammonia(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def data(kind: Any = "fish", *rows: Any, **others: Any) -> str:
        return data_on(_lookup(kit.substance(*rows, **others), kit.water(), assumed), kind)

    def borne(read: Any = "seen") -> list[Spares]:
        return [Spares(group="fish", says="harmless to fish", source="a-label", read=read)]

    assert data(spares=borne()) == "spared"
    assert data("crustacean", spares=borne()) == "none"
    assert data("fish", spares=borne("memory")) == "none"
    assert data("fish", kit.row(1, read="memory"), spares=borne()) == "spared"
    assert data("fish", kit.row(1), spares=borne()) == "read"
    share = Sourced(value=0.2, unit="g per g", source="molar-mass")
    urea = {"traits": ["ammonia-releasing"], "element_share": share}
    assert data(no_data="it harms as ammonia", **urea) == "by-ammonia"
    assert data(**urea) == "none"
    assert data(no_data="nobody tested it", traits=["ammonia-releasing"]) == "explained"


def test_levels_that_did_no_harm_are_left_out_where_only_harm_counts(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    rows = [kit.row(3, test="tolerated"), kit.row(5, bound=">"), kit.row(0.5, test="NOEC")]
    lookup = _lookup(kit.substance(*rows), kit.water(), assumed)
    assert choose_value(lookup, "fish", floors=False) is None
    assert choose_value(lookup, "fish") is not None
    harmful = _lookup(kit.substance(*rows, kit.row(40)), kit.water(), assumed)
    found = choose_value(harmful, "fish", margins=False, floors=False)
    assert found is not None
    assert (found.effective_mg_l, found.floor) == (40, False)


def test_of_two_levels_borne_by_one_animal_the_higher_counts(kit: SimpleNamespace, assumed: Assumptions) -> None:
    rows = kit.row(10, TROUT, test="tolerated"), kit.row(1000, TROUT, test="tolerated")
    found = choose_value(_lookup(kit.substance(*rows), kit.water(), assumed), "fish")
    assert found is not None
    assert found.published_mg_l == 1000


def test_only_the_nearest_group_makes_relatives(kit: SimpleNamespace) -> None:
    def fish(name: str, species: str, *groups: str) -> Animal:
        return Animal(animal=name, name=name, kind="fish", species=[species], groups=list(groups), sources=[])

    kept = fish("one", "Aus bus", "cichlid", "perch-like")
    assert step_to("Cus dus", kept, [fish("two", "Cus dus", "cichlid")]) == "group"
    assert step_to("Cus dus", kept, [fish("two", "Cus dus", "perch-like", "cichlid")]) == "any"
    assert step_to("Cus dus", kept, [fish("two", "Cus dus", "perch-like")]) == "any"


def test_what_was_borne_counts_only_where_no_harm_is_known(kit: SimpleNamespace, assumed: Assumptions) -> None:
    borne = kit.row(3, test="tolerated")
    alone = choose_value(_lookup(kit.substance(borne), kit.water(), assumed), "fish")
    assert alone is not None
    assert alone.floor
    harmed = choose_value(_lookup(kit.substance(borne, kit.row(40)), kit.water(), assumed), "fish")
    assert harmed is not None
    assert (harmed.published_mg_l, harmed.floor) == (40, False)


def test_an_upper_bound_is_halved(kit: SimpleNamespace, assumed: Assumptions) -> None:
    for row in (kit.row(10, bound="<"), kit.row(10, test="LC100"), kit.row(10, hours=2.0)):
        found = choose_value(_lookup(kit.substance(row), kit.water(), assumed), "fish")
        assert found is not None
        assert found.effective_mg_l == 10 / assumed.margin("any") / assumed.margin("upper-bound")


def test_long_exposures_have_their_own_values(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(40), kit.row(0.5, test="NOEC", hours=720.0), kit.row(2, test="tolerated"))
    found = choose_value(_lookup(stuff, kit.water(), assumed), "fish", CHRONIC)
    assert found is not None
    assert found.published_mg_l == 0.5
    assert choose_value(_lookup(kit.substance(kit.row(40)), kit.water(), assumed), "fish", CHRONIC) is None


def test_the_lowest_known_is_the_lowest_of_all_that_did_harm(kit: SimpleNamespace) -> None:
    rows = [kit.row(9, "Oreochromis niloticus"), kit.row(0.4, test="NOEC"), kit.row(0.01, test="tolerated")]
    known = lowest_known(kit.substance(*rows), "fish")
    assert known is not None
    assert known[0] == 0.4
    assert lowest_known(kit.substance(*rows), "crustacean") is None


def test_what_cannot_be_compared_is_not_the_lowest(kit: SimpleNamespace) -> None:
    rows = [kit.row(0.001, unit="%"), kit.row(0.2, hours=2.0, test="tolerated"), kit.row(5)]
    known = lowest_known(kit.substance(*rows), "fish")
    assert known is not None
    assert known == (5, rows[2])
    assert lowest_known(kit.substance(*rows[:2]), "fish") is None


def test_the_lowest_known_of_a_product_is_not_made_milder(kit: SimpleNamespace) -> None:
    known = lowest_known(kit.substance(kit.row(0.05, basis="product"), kit.row(3)), "fish")
    assert known is not None
    assert known[0] == 0.05


def test_near_relatives_share_genus_name_or_group(kit: SimpleNamespace) -> None:
    zillii = Animal(
        animal="redbelly", name="Redbelly", kind="fish", species=["Coptodon zillii"], groups=["cichlid"], sources=[]
    )
    known = [kit.tilapia, zillii, kit.trout]
    steps = {
        "Oreochromis niloticus juvenile": "species", "Oreochromis mossambicus": "group", "red tilapia hybrid": "group",
        "Coptodon zillii": "group", "Oncorhynchus mykiss": "any", "Oreochromistoides": "any", "fish": "any",
    }  # fmt: skip
    assert {name: step_to(name, kit.tilapia, known) for name in steps} == steps
    assert step_to("Oreochromis niloticus", None, known) == "any"


def test_a_recalled_limit_test_gives_way_to_a_higher_one_that_was_read(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    # as for white clay: nothing happened up to 100 mg/L (recalled), nothing up to 10,000 mg/L (read)
    recalled, read = kit.row(100, bound=">", read="memory"), kit.row(10000, bound=">")
    both = choose_value(_lookup(kit.substance(recalled, read), kit.water(), assumed), "fish")
    alone = choose_value(_lookup(kit.substance(recalled), kit.water(), assumed), "fish")
    assert both is not None
    assert alone is not None
    assert (both.published_mg_l, alone.published_mg_l) == (10000, 100)


def test_a_recalled_harm_still_counts(kit: SimpleNamespace, assumed: Assumptions) -> None:
    harm, read = kit.row(100, read="memory"), kit.row(10000, bound=">")
    found = choose_value(_lookup(kit.substance(harm, read), kit.water(), assumed), "fish")
    assert found is not None
    assert found.published_mg_l == 100


def test_what_was_borne_follows_from_more_borne_by_the_same_animal_only(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    high = kit.row(1000, TROUT, bound=">")

    def counts(*rows: Any) -> float:
        found = choose_value(_lookup(kit.substance(*rows), kit.water(), assumed), "fish")
        assert found is not None
        return found.published_mg_l

    assert counts(kit.row(10, TROUT, bound=">"), high) == 1000
    assert counts(kit.row(10, TROUT, bound=">", read="memory"), high) == 1000
    assert counts(kit.row(10, "Cyprinus carpio", bound=">"), high) == 10
    assert counts(kit.row(10, TROUT, bound=">", hours=240), high) == 10
    unsaid = kit.row(1000, TROUT, bound=">", hours=None)  # how long is not known: as long as one that is not, either
    assert counts(kit.row(10, TROUT, bound=">", hours=None), unsaid) == 1000
    assert counts(kit.row(10, TROUT, bound=">", hours=0.5), unsaid) == 10


def test_a_level_without_effect_is_not_overtaken(kit: SimpleNamespace, assumed: Assumptions) -> None:
    # at the next level tested there was an effect, so the lower one says more than 'nothing happened'
    for read in ("seen", "memory"):
        rows = kit.row(1, TROUT, test="NOEC", read=read), kit.row(10, TROUT, test="NOEC")
        found = choose_value(_lookup(kit.substance(*rows), kit.water(), assumed), "fish")
        assert found is not None
        assert found.published_mg_l == 1
