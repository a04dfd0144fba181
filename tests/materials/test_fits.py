"""Tables of fits: friction, limits of heating, materials of hubs."""

import pytest

from torqcheck.errors import DomainError
from torqcheck.materials import (
    heating_limit,
    heating_limit_of,
    hub_material,
    hub_materials,
    seat_friction,
    steel,
    table,
    ways_of_joining,
)


def test_each_pair_has_one_value_that_is_taken_within_its_band() -> None:
    pairs = {(row["joining"], row["hub"]) for row in table("fit_friction")}
    for joining, hub in pairs:
        found = seat_friction(joining, hub)
        assert found.least <= found.friction <= found.most
        assert found.friction <= 0.2


def test_what_other_works_print_is_shown_and_not_taken() -> None:
    found = seat_friction("shrunk")
    assert found.friction == 0.14
    assert found.source.mark == "from memory"
    assert sorted(value for value, _ in found.others) == [0.15, 0.25]
    assert {source.mark for _, source in found.others} == {"published"}
    assert seat_friction("clamped dry").others[0][0] == 0.3


@pytest.mark.parametrize("hub", ["steel", "aluminium", "cast iron", "bronze"])
def test_dry_holds_more_than_oil_and_every_hub_has_every_way(hub: str) -> None:
    for joining in ways_of_joining():
        if not joining.startswith("clamped"):
            assert seat_friction(joining, hub).friction <= seat_friction(joining).friction
    assert seat_friction("pressed oiled", hub).friction < seat_friction("pressed dry", hub).friction
    assert seat_friction("hydraulic", hub).friction < seat_friction("hydraulic degreased", hub).friction


def test_unknown_way_is_refused_with_the_names_of_all() -> None:
    with pytest.raises(DomainError, match="'glued' with a hub of steel; it has pressed oiled;"):
        seat_friction("glued")


@pytest.mark.parametrize(
    ("name", "celsius", "condition"),
    [
        ("1020_HR", 350, "mild or cast steel"),
        ("4140_QT425", 300, "quenched and tempered"),
        ("4140_QT205", 205, "tempered at 205 C"),
        ("4140_ind", 250, "surface hardened"),
        ("8620_carb_63", 200, "case-hardened"),
        ("4140_nit", 300, "quenched and tempered"),
    ],
)
def test_limit_of_heating_follows_the_condition(name: str, celsius: float, condition: str) -> None:
    found = heating_limit_of(steel(name))
    assert found.temperature - 273.15 == pytest.approx(celsius)
    assert found.condition == condition


def test_hubs_that_are_not_of_steel() -> None:
    assert list(hub_materials()) == ["aluminium", "cast iron", "bronze"]
    for name, found in hub_materials().items():
        assert found.strength_least <= found.strength <= found.strength_most
        assert found.cracks is (name == "cast iron")
        assert heating_limit(name).temperature > 373.15
    assert hub_material("aluminium").elastic_modulus == 70e9
    with pytest.raises(DomainError, match="hub material must be one of aluminium, cast iron, bronze"):
        hub_material("wood")
    with pytest.raises(DomainError, match="no limit of heating is tabled for 'wood'"):
        heating_limit("wood")
