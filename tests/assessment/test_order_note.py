"""The words on the drawing about a steel."""

import dataclasses

import pytest

from torqcheck.assessment.order.note import order_note, surface_words
from torqcheck.materials import steels, unknown_steel


@pytest.mark.parametrize("key", list(steels()))
def test_every_steel_says_grade_and_hardness(key: str) -> None:
    steel = steels()[key]
    text = order_note(steel)
    assert text.startswith(steel.grade)
    assert "HB" in text
    assert ("Keep soft: " in text) is (steel.surface_treatment != "none")
    assert ": core" not in text
    if steel.surface_hardness_min is not None:
        assert f"{steel.surface_hardness_min:g} to {steel.surface_hardness_max:g} HRC" in text
        assert steel.case_depth_min is not None
        assert f"depth of {steel.case_depth_min * 1e3:g} to" in text


def test_a_carburised_steel_in_full() -> None:
    """235 HB lies between 226 (20 HRC) and 237 (22 HRC): 21.6; 320 HB between 319 (34) and 336: 34.1."""
    assert order_note(steels()["8620_carb_30"]) == (
        "AISI 8620, carburised, oil quenched 840 C; surface 58 to 62 HRC to a depth of 0.6 to 1.5 mm "
        "(CHD to 550 HV1 or 50 HRC: effective, not total); core 235 to 320 HB (22 to 34 HRC). "
        "Keep soft: threads, thin walls and sections below twice the case, keyway corners, the "
        "places of welds."
    )


def test_one_hardness_is_a_least_one_and_soft_steel_has_no_rockwell() -> None:
    assert order_note(steels()["1045_CD"]) == "AISI 1045, cold drawn; at least 179 HB."
    assert order_note(steels()["4140_QT540"]).endswith("at least 285 HB (30 HRC).")


def test_unknown_steel_must_be_chosen_first() -> None:
    assert order_note(unknown_steel()) == "Choose the steel first: an unknown steel cannot be ordered."


def test_a_layer_without_a_depth_says_that_it_is_to_be_agreed() -> None:
    steel = dataclasses.replace(
        steels()["4140_ind"], surface_hardness_max=None, case_depth_min=None, case_depth_max=None
    )
    assert surface_words(steel) == "surface 53 HRC at least, depth to be agreed"
    deep = dataclasses.replace(steel, case_depth_min=1.5e-3)
    assert surface_words(deep) == "surface 53 HRC at least to a depth of 1.5 mm at least"
