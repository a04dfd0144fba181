"""Thermal expansion: one value is taken for each material, the others are shown beside it."""

import pytest

from torqcheck.errors import DomainError
from torqcheck.materials import expansion_materials, table, thermal_expansion


@pytest.mark.parametrize("material", expansion_materials())
def test_one_value_is_taken_and_lies_among_all(material: str) -> None:
    rows = [row for row in table("expansion") if row["material"] == material]
    assert [row["use"] for row in rows].count("taken") == 1
    found = thermal_expansion(material)
    assert found.least <= found.coefficient <= found.most
    assert len(found.others) == len(rows) - 1


def test_works_disagree_on_steel_by_eight_percent() -> None:
    steel = thermal_expansion("Steel")
    assert steel.coefficient == pytest.approx(11.3e-6)
    assert steel.source.mark == "published"
    assert (steel.most - steel.least) / steel.coefficient == pytest.approx(0.08, abs=0.001)
    assert sorted(value for value, _ in steel.others) == pytest.approx([10.8e-6, 11.7e-6])


def test_aluminium_grows_twice_as_much_as_steel() -> None:
    assert thermal_expansion("aluminium").coefficient / thermal_expansion(
        "steel"
    ).coefficient == pytest.approx(2.0, rel=0.05)


def test_cold_steel_shrinks_less_than_warm_steel_grows() -> None:
    assert thermal_expansion("steel, cooled").coefficient < thermal_expansion("steel").least


def test_unknown_material_is_refused_with_the_names_of_all() -> None:
    with pytest.raises(DomainError, match="'brass' is not in the table; it has steel; steel, cooled;"):
        thermal_expansion("brass")
