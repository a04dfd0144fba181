"""What a slip element changes in the arguments of a blow."""

import math

import numpy as np
import pytest

from torqcheck.assessment.torque.slip_element import SlipElement, blow_arguments

GROUND = SlipElement(driving_torque=300.0, braking_torque=250.0, inertia_before=0.3)
DRIVEN = np.array([0.2, 2.4, math.inf, 2.4])
BRAKING = np.array([False, False, False, True])


def arguments(element: SlipElement | None, start_torque: float) -> dict[str, np.ndarray]:
    return blow_arguments(element, BRAKING, np.full(4, 0.5), DRIVEN, np.full(4, start_torque))


def test_without_an_element_only_the_start_is_passed_on() -> None:
    assert list(arguments(None, -900.0)) == ["start_torque"]
    assert np.all(arguments(None, -900.0)["start_torque"] == -900.0)


def test_a_driven_side_with_nothing_behind_the_element_has_none() -> None:
    found = arguments(GROUND, 0.0)
    assert found["slip_torque"].tolist() == [math.inf, 300.0, 300.0, 250.0]
    assert found["inertia_before_slip"][1:].tolist() == [0.3, 0.3, 0.3]


def test_no_start_is_settled_under_more_than_the_element_holds() -> None:
    # lets go at Ts J2/(J2 - Ja) in the path, which is J2/(J1 + J2) of the motor torque
    onset = [math.inf, 300.0 / (1 - 0.3 / 2.4) * (2.9 / 2.4), 300.0, 250.0 / (1 - 0.3 / 2.4) * (2.9 / 2.4)]
    assert arguments(GROUND, -900.0)["start_torque"] == pytest.approx(-np.minimum(900.0, onset))
    assert arguments(GROUND, -20.0)["start_torque"].tolist() == [-20.0] * 4
