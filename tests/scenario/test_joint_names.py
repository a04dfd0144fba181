"""A joint is found by its name, whatever the case, or by its place."""

from dataclasses import dataclass

import pytest

from torqcheck.scenario.joint_names import joint_name, joints_called


@dataclass(frozen=True)
class Named:
    name: str | None


PATH = (Named("Motor shaft"), Named(None), Named("2"), Named("hub"), Named("HUB"))


def test_a_joint_without_a_name_is_called_by_its_place() -> None:
    assert [joint_name(joint, index) for index, joint in enumerate(PATH[:2])] == ["Motor shaft", "joint 2"]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("motor SHAFT ", [0]),
        ("joint 2", [1]),
        ("Hub", [3, 4]),
        ("2", [2]),  # a name before a place
        ("4", [3]),
        ("6", []),
        ("0", []),
        ("-1", []),
        ("1" * 5000, []),
        ("\u0661", []),  # a digit, and not one of ours
        ("axle", []),
        ("", []),
    ],
)
def test_which_joints_a_text_can_mean(text: str, places: list[int]) -> None:
    assert joints_called(PATH, text) == places
