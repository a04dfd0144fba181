"""A sleeve between two shafts: what each mesh sees of their offset and angle."""

from math import atan, cos, nan, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.wear import tilt_where_offset_was_read, tilts_of_floating_sleeve

OFFSET = st.floats(min_value=0.0, max_value=2e-3)
SPAN = st.floats(min_value=20e-3, max_value=1.0)
ANGLE = st.floats(min_value=0.0, max_value=0.03)


@given(OFFSET, SPAN)
def test_an_offset_tilts_both_meshes_alike(offset: float, span: float) -> None:
    here, there = tilts_of_floating_sleeve(offset, span)
    assert float(here) == float(there) == pytest.approx(atan(offset / span), rel=1e-15)


@given(OFFSET, SPAN)
def test_half_the_span_doubles_the_tilt(offset: float, span: float) -> None:
    here, there = tilts_of_floating_sleeve(offset, span)
    near, far = tilts_of_floating_sleeve(offset, 0.5 * span)
    assert np.tan(near) == pytest.approx(2.0 * np.tan(here), rel=1e-12, abs=1e-300)
    assert np.tan(far) == pytest.approx(2.0 * np.tan(there), rel=1e-12, abs=1e-300)


@given(OFFSET, SPAN, ANGLE)
def test_the_angle_adds_at_one_mesh_alone(offset: float, span: float, angle: float) -> None:
    here, there = tilts_of_floating_sleeve(offset, span, angle)
    assert float(here) == pytest.approx(float(there) + angle, rel=1e-12)
    assert float(there) == float(tilts_of_floating_sleeve(offset, span)[1])


@given(OFFSET, SPAN, ANGLE, st.floats(min_value=0.0, max_value=2.0 * pi))
def test_no_position_of_the_two_shafts_in_space_tilts_more(
    offset: float, span: float, angle: float, direction: float
) -> None:
    # the first shaft lies along x; the second passes the plane of its mesh beside it by the offset
    first = np.array([1.0, 0.0, 0.0])
    second = np.array([cos(angle), sin(angle) * cos(direction), sin(angle) * sin(direction)])
    sleeve = np.array([span, offset, 0.0])
    here, there = tilts_of_floating_sleeve(offset, span, angle)
    assert float(_between(sleeve, second)) <= float(here) + 1e-7
    assert float(_between(sleeve, first)) == pytest.approx(float(there), abs=1e-7)


@given(OFFSET, SPAN, ANGLE)
def test_the_worst_position_is_reached(offset: float, span: float, angle: float) -> None:
    second = np.array([cos(angle), -sin(angle), 0.0])
    here, _ = tilts_of_floating_sleeve(offset, span, angle)
    assert float(_between(np.array([span, offset, 0.0]), second)) == pytest.approx(float(here), abs=1e-7)


def _between(one: np.ndarray, other: np.ndarray) -> float:
    """Angle between two directions, rad."""
    return float(np.arctan2(np.linalg.norm(np.cross(one, other)), np.dot(one, other)))


def test_arrays_nan_and_signs() -> None:
    several = tilt_where_offset_was_read(np.array([1e-4, -1e-4, nan]), 0.06, np.array([1e-3, -1e-3, 0.0]))
    assert several[0] == several[1] == pytest.approx(atan(1e-4 / 0.06) + 1e-3)
    assert np.isnan(several[2])


@pytest.mark.parametrize(("span", "angle"), [(0.0, 0.0), (-0.06, 0.0), (0.06, 2.0)])
def test_out_of_range_is_refused(span: float, angle: float) -> None:
    with pytest.raises(DomainError, match=r"must"):
        tilts_of_floating_sleeve(1e-4, span, angle)
