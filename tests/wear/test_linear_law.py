"""Slip, depth and volume of a tilted spline: worked numbers by hand, and from first principles."""

from math import cos, pi, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published._case import Case
from scipy.integrate import quad

from torqcheck.capacity import flank_pressure
from torqcheck.errors import DomainError
from torqcheck.wear import (
    CUBIC_MILLIMETRE_PER_NEWTON_METRE,
    SLIP_SPEED_LIMIT,
    clearance_growth,
    depth_at_thickness_loss,
    depth_per_revolution,
    depth_sum_at_lash_limit,
    flank_height,
    hardness_scale,
    implied_wear_coefficient,
    lash_growth,
    peak_slip_speed,
    slip_amplitude,
    slip_path_per_revolution,
    slip_regime,
    tilt_from_face_reading,
    tilt_from_offset,
    wear_flank_pressure,
    worn_volume_per_revolution,
)

GEOMETRY = {
    "pitch_radius": 0.020,
    "teeth": 20.0,
    "length": 0.030,
    "contact_height": 0.002,
    "pressure_angle": radians(30),
}
WEAR = {"wear_coefficient": 1e-6 * CUBIC_MILLIMETRE_PER_NEWTON_METRE, "torque": 200.0, "tilt": radians(0.1)}
VOLUME = WEAR | {"pressure_angle": radians(30)}


def check(where: str, printed: str, ours: float, unit: float = 1.0) -> None:
    Case("Tilted spline of 20 mm radius, reckoned by hand", where, "derived", {}, printed, unit).check(ours)


def test_slip_of_a_tenth_of_a_degree() -> None:
    amplitude = float(slip_amplitude(0.020, radians(0.1)))
    path = float(slip_path_per_revolution(0.020, radians(0.1)))
    check("amplitude", "34.91", amplitude, 1e-6)
    check("stroke", "69.81", 2 * amplitude, 1e-6)
    check("path", "139.63", path, 1e-6)
    check("path per hour at 3000 rev/min", "25.13", path * 3000 * 60)


def test_tilt_of_an_adapter_with_two_meshes() -> None:
    tilt = float(tilt_from_offset(0.1e-3, 60e-3))
    check("tilt in degrees", "0.0955", np.degrees(tilt))
    check("tilt in mrad", "1.67", tilt, 1e-3)


def test_depth_and_volume() -> None:
    pressure = float(wear_flank_pressure(torque=200.0, **GEOMETRY))
    check("pressure", "9.6225", pressure, 1e6)
    check("path", "0.139626", float(slip_path_per_revolution(0.020, radians(0.1))), 1e-3)
    depth = float(depth_per_revolution(**WEAR, **GEOMETRY))
    check("depth per revolution", "1.34356e-9", depth, 1e-3)
    check("volume per revolution", "1.61227e-6", float(worn_volume_per_revolution(**VOLUME)), 1e-9)
    check("depth per hour at 3000 rev/min", "0.2418", depth * 3000 * 60, 1e-6)
    revolutions = 0.25e-3 / depth
    check("revolutions to 0.25 mm", "1.8607e8", revolutions)
    check("hours to 0.25 mm at 3000 rev/min", "1033.7", revolutions / 3000 / 60)


def test_twice_the_teeth() -> None:
    single = float(depth_per_revolution(**WEAR, **GEOMETRY))
    double = float(depth_per_revolution(**WEAR, **GEOMETRY | {"teeth": 40.0}))
    assert double == pytest.approx(single / 2, rel=1e-14)
    # depth times the area of all flanks is the volume, whatever the number of teeth
    for teeth, depth in ((20, single), (40, double)):
        volume = depth * teeth * GEOMETRY["length"] * GEOMETRY["contact_height"]
        assert volume == pytest.approx(float(worn_volume_per_revolution(**VOLUME)), rel=1e-12)


def test_path_from_the_turning_of_two_tilted_axes() -> None:
    # a tooth of the shaft at radius r, its axis tilted by ga against the hub's: height over the
    # hub's middle plane along the hub's axis; its variation over one turn, by quadrature
    r, tilt = 0.020, radians(2.0)

    def axial_speed(angle: float) -> float:
        step = 1e-6
        point = lambda t: np.array([r * cos(t), r * sin(t), 0.0])  # noqa: E731
        lean = np.array([[cos(tilt), 0, -sin(tilt)], [0, 1, 0], [sin(tilt), 0, cos(tilt)]])
        return abs((lean @ point(angle + step) - lean @ point(angle - step))[2]) / (2 * step)

    path, _ = quad(axial_speed, 0.0, 2 * pi, points=[pi], limit=200)
    # sine against tangent: the two rings of teeth share one radius only to second order
    assert float(slip_path_per_revolution(r, tilt)) == pytest.approx(path, rel=tilt**2)
    assert float(slip_path_per_revolution(r, tilt)) == pytest.approx(path / cos(tilt), rel=1e-6)


def test_pressure_on_a_true_involute() -> None:
    # moment of the pressure on the curve itself: arm of the normal rb, element of arc rb u du
    angle, pitch, height, pressure = radians(30), 0.018, 0.0018, 10e6
    base = pitch * cos(angle)
    inner, outer = pitch - height / 2, pitch + height / 2
    roll = [sqrt((radius / base) ** 2 - 1) for radius in (inner, outer)]
    arc, _ = quad(lambda u: base * u, *roll)
    moment, _ = quad(lambda u: pressure * base * base * u, *roll)
    teeth, length = 18.0, 0.03
    along = float(flank_height(height, angle))
    assert along == pytest.approx(arc, rel=1e-9)
    torque = teeth * length * moment
    ours = float(wear_flank_pressure(torque, pitch, teeth, length, along, angle))
    assert ours == pytest.approx(pressure, rel=1e-9)
    # with the radial height the strength formula gives the same: no cosine is lost in it
    guide = float(flank_pressure(torque, 2 * pitch, teeth, length, height))
    assert guide == pytest.approx(ours, rel=1e-12)


def test_height_taken_radially_would_be_15_percent_off() -> None:
    angle, radial = radians(30), 0.002
    wrong, right = (
        float(wear_flank_pressure(200.0, 0.02, 20.0, 0.03, height, angle))
        for height in (radial, flank_height(radial, angle))
    )
    check("ratio", "1.155", wrong / right)


@given(scale=st.floats(0.1, 10.0))
def test_volume_knows_no_size(scale: float) -> None:
    bigger = GEOMETRY | {
        name: GEOMETRY[name] * scale for name in ("pitch_radius", "length", "contact_height")
    }
    depth = float(depth_per_revolution(**WEAR, **bigger))
    volume = depth * bigger["teeth"] * bigger["length"] * bigger["contact_height"]
    assert volume == pytest.approx(float(worn_volume_per_revolution(**VOLUME)), rel=1e-9)


@given(factor=st.floats(0.1, 10.0), name=st.sampled_from(["wear_coefficient", "torque"]))
def test_depth_is_linear(factor: float, name: str) -> None:
    once = float(depth_per_revolution(**WEAR, **GEOMETRY))
    more = float(depth_per_revolution(**WEAR | {name: WEAR[name] * factor}, **GEOMETRY))
    assert more == pytest.approx(factor * once, rel=1e-12)


def test_a_band_on_half_of_the_flank_doubles_the_pressure() -> None:
    whole = float(wear_flank_pressure(torque=200.0, **GEOMETRY))
    half = float(wear_flank_pressure(torque=200.0, **GEOMETRY, loaded_share=0.5))
    assert half == pytest.approx(2 * whole, rel=1e-14)


def test_no_tilt_no_wear() -> None:
    assert float(depth_per_revolution(**WEAR | {"tilt": 0.0}, **GEOMETRY)) == 0.0
    assert float(worn_volume_per_revolution(**VOLUME | {"tilt": 0.0})) == 0.0


@given(coefficient=st.floats(1e-17, 1e-12))
def test_coefficient_comes_back_from_the_depth(coefficient: float) -> None:
    depth = float(depth_per_revolution(**WEAR | {"wear_coefficient": coefficient}, **GEOMETRY)) * 1e6
    pressure = wear_flank_pressure(torque=200.0, **GEOMETRY)
    path = slip_path_per_revolution(0.020, radians(0.1))
    ours = float(implied_wear_coefficient(depth, pressure, path, 1e6))
    assert ours == pytest.approx(coefficient, rel=1e-12)


def test_tilt_at_the_limit_of_slip_speed() -> None:
    # 12 mm/s at 3000 rev/min on 20 mm; the limit is published, the tilt reckoned
    speed = 3000 * 2 * pi / 60
    tilt = SLIP_SPEED_LIMIT / (speed * 0.020)
    check("tilt in mrad", "1.91", tilt, 1e-3)
    check("tilt in degrees", "0.109", np.degrees(tilt))
    assert float(peak_slip_speed(0.020, np.arctan(tilt), speed)) == pytest.approx(SLIP_SPEED_LIMIT, rel=1e-12)
    # the alignment table's 0.4 mrad at 3000 rev/min
    check("speed at 0.4 mrad", "2.5", float(peak_slip_speed(0.020, 0.4e-3, speed)), 1e-3)
    # gap per 100 mm of diameter, times ten, is mrad
    assert float(tilt_from_face_reading(0.04e-3, 0.100)) == pytest.approx(0.4e-3, rel=1e-6)


def test_slip_regimes() -> None:
    # limits of 20 and 300 um (Vingsbo and Soderberg 1988, in a later abstract; published)
    amplitudes = (0.0, 19.9e-6, 20e-6, 34.9e-6, 300e-6, 301e-6)
    assert [slip_regime(a) for a in amplitudes] == [
        "partial slip",
        "partial slip",
        "gross slip",
        "gross slip",
        "gross slip",
        "sliding",
    ]
    assert slip_regime(float(slip_amplitude(0.020, 0.99e-3))) == "partial slip"  # below 1 mrad at 20 mm
    for wrong in (float("nan"), -1e-6):
        with pytest.raises(DomainError, match="amplitude must be a number"):
            slip_regime(wrong)


def test_hard_flanks_get_no_credit_and_soft_ones_pay() -> None:
    np.testing.assert_allclose(hardness_scale(np.array([800.0, 697.0, 348.5])), [1.0, 1.0, 2.0])


def test_lash_of_a_tenth_on_each_part() -> None:
    growth = float(lash_growth(1e-4, 1e-4, 0.020, radians(30)))
    check("lash in degrees", "0.66", np.degrees(growth))
    both_flanks = float(lash_growth(1e-4, 1e-4, 0.020, radians(30), 2.0))
    assert both_flanks == pytest.approx(2 * growth, rel=1e-14)
    assert float(clearance_growth(1e-4, 1e-4, radians(30))) == pytest.approx(growth * 0.020, rel=1e-14)


def test_clearance_of_a_true_involute() -> None:
    # a flank moved in by h along its normal is the same involute turned by h over the base radius
    pitch, angle, depth = 0.020, radians(30), 1e-4
    turned = depth / (pitch * cos(angle))
    assert float(lash_growth(depth, 0.0, pitch, angle)) == pytest.approx(turned, rel=1e-12)


@given(
    depths=st.tuples(st.floats(0.0, 1e-3), st.floats(0.0, 1e-3)),
    angle=st.floats(0.0, 0.8),
    flanks=st.sampled_from([1.0, 2.0]),
)
def test_lash_limit_undoes_growth(depths: tuple[float, float], angle: float, flanks: float) -> None:
    new = 0.05e-3
    worn = new + float(clearance_growth(*depths, angle, flanks))
    depth = float(depth_sum_at_lash_limit(new, worn, angle, flanks))
    assert depth == pytest.approx(sum(depths), rel=1e-9, abs=1e-18)


def test_a_joint_beyond_its_lash_limit_has_no_depth_left() -> None:
    assert float(depth_sum_at_lash_limit(0.5e-3, 0.4e-3, 0.5)) == 0.0


def test_thickness_loss() -> None:
    # a tenth of the thickness, by one flank or half by each of two
    thickness, angle = 3.1416e-3, radians(30)
    one = float(depth_at_thickness_loss(thickness, angle))
    assert one / cos(angle) == pytest.approx(0.1 * thickness, rel=1e-14)
    assert float(depth_at_thickness_loss(thickness, angle, wearing_flanks=2.0)) == pytest.approx(one / 2)
