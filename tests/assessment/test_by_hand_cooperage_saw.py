"""The cooperage saw by bare arithmetic: offset, tilt, what warm feet make of them, and the weakest link."""

import math
from functools import cache
from pathlib import Path

import pytest
from builder import EXAMPLES

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.bench.alignment_result import AlignmentResult

PATH = next(path for path in EXAMPLES if path.stem == "cooperage_saw")
MM = 1e-3

# readings, mm, as they stand in the file
RIM_TOP, RIM_RIGHT, RIM_BOTTOM, RIM_LEFT = 0.0, -0.005, -0.04, -0.03
FACE_TOP, FACE_RIGHT, FACE_BOTTOM, FACE_LEFT = 0.0, 0.01, 0.015, 0.005
FACE_CIRCLE, TO_MIDDLE, SAG, SPAN = 110.0, -25.0, 0.03, 70.0

# by hand: up (0 + 0.04 - 0.03)/2 = 0.005, right (-0.005 + 0.03)/2 = 0.0125 in the plane of the rim;
# slopes (0 - 0.015)/110 = -0.13636 and (0.01 - 0.005)/110 = 0.04545 mrad; 25 mm back towards the motor
UP = (RIM_TOP - RIM_BOTTOM - SAG) / 2 + TO_MIDDLE * (FACE_TOP - FACE_BOTTOM) / FACE_CIRCLE
RIGHT = (RIM_RIGHT - RIM_LEFT) / 2 + TO_MIDDLE * (FACE_RIGHT - FACE_LEFT) / FACE_CIRCLE
SLOPES = (FACE_TOP - FACE_BOTTOM) / FACE_CIRCLE, (FACE_RIGHT - FACE_LEFT) / FACE_CIRCLE
# cast iron feet: 10.6e-6 x 200 mm x 48 K
RISE = 10.6e-6 * 200.0 * 48.0


@cache
def result() -> Assessment:
    return assess(PATH)


def alignment() -> AlignmentResult:
    found = result().joints[0].alignment
    assert found is not None
    return found


def test_the_numbers_of_the_comment_above() -> None:
    assert pytest.approx(0.008409, abs=1e-6) == UP
    assert pytest.approx(0.011364, abs=1e-6) == RIGHT
    assert pytest.approx(0.10176, abs=1e-6) == RISE


def test_offset_cold_and_warm() -> None:
    reading = alignment().reading
    assert reading.cold_offset is not None
    assert reading.offset is not None
    assert reading.cold_offset.vertical == pytest.approx(0.008409 * MM, rel=1e-3)
    assert reading.cold_offset.horizontal == pytest.approx(0.011364 * MM, rel=1e-3)
    assert reading.cold_offset.total == pytest.approx(0.014137 * MM, rel=1e-3)
    # the motor rises, so the driven axis lies lower against it: 0.008409 - 0.10176
    assert reading.offset.vertical == pytest.approx(-0.093351 * MM, rel=1e-3)
    assert reading.offset.horizontal == pytest.approx(0.011364 * MM, rel=1e-3)
    assert reading.offset.total == pytest.approx(0.094040 * MM, rel=1e-3)


def test_tolerance_of_the_warm_offset() -> None:
    reading = alignment().reading
    assert reading.offset is not None
    # rim: two readings and the sag of 0.005 mm, halved; face: two over 110 mm, 25 mm away; the usual
    # 1 mm of way and face circle, on slopes of 0.14 mrad; 2 mm of 200 and 4 K of 48 of the rise
    rim = 0.005 * math.sqrt(3.0) / 2.0
    face = 25.0 * 0.005 * math.sqrt(2.0) / 110.0
    small = math.hypot(0.13636e-3, 25.0 * 0.13636e-3 / 110.0)
    rise = RISE * math.hypot(2.0 / 200.0, 4.0 / 48.0)
    by_hand = math.sqrt(rim**2 + face**2 + small**2 + rise**2)
    assert reading.offset.vertical_tolerance == pytest.approx(by_hand * MM, rel=1e-4)
    assert by_hand == pytest.approx(0.00971, abs=1e-5)


def test_tilt_of_the_axes_and_of_the_mesh() -> None:
    reading = alignment().reading
    assert reading.tilt is not None
    assert reading.tilt.total == pytest.approx(math.hypot(0.13636, 0.04545) * 1e-3, rel=1e-4)
    # over the 70 mm of the sleeve, the harder way: -0.13636 - 1.33358 and 0.04545 + 0.16234 mrad
    up, right = -0.093351 / 70.0, 0.011364 / 70.0
    harder = max(math.hypot(SLOPES[0] + s * up, SLOPES[1] + s * right) for s in (1.0, -1.0))
    assert harder == pytest.approx(1.48455e-3, rel=1e-4)
    assert math.tan(alignment().tilt) == pytest.approx(harder, rel=1e-4)
    assert result().joints[0].tilt == alignment().tilt


def test_slip_speed_and_wear_of_each_state() -> None:
    # pitch radius 24 x 1.5/2 = 18 mm at 2900 rev/min
    slip = 18.0 * 1.48455e-3 * 2900.0 * math.pi / 30.0
    assert slip == pytest.approx(8.115, abs=0.001)
    present = alignment().rows[0]
    assert present.slip_speed == pytest.approx(slip * MM, rel=1e-4)
    assert [row.state for row in alignment().rows] == [
        "as read", "feet cold", "without offset", "without tilt", "aligned"
    ]  # fmt: skip
    # wear goes with the tangent of the tilt; cold the slip is too small for the law
    other = alignment().row("without tilt")
    assert other is not None
    assert present.wear_rate
    assert other.wear_rate == pytest.approx(
        present.wear_rate * math.hypot(0.093351, 0.011364) / 70.0 / 1.48455e-3, rel=1e-3
    )
    assert [row.wear_rate for row in alignment().rows][1:3] == [None, None]
    assert alignment().rows[4].wear_rate == 0.0


def test_wear_rate_by_hand() -> None:
    # grease as it works: 5e-7 mm3/(N m) at 697 HV; flanks of 58 HRC, 653 HV, wear 697/653 times as much
    coefficient = 5.0e-10 * 697.0 / 653.0  # mm3/(N mm)
    path = 4.0 * 18.0 * 1.48455e-3  # mm at each turn
    by_hand = 0.0
    for torque, turns in ((0.35 * 70.0e3, 0.98 * 2900.0 * 60.0), (0.9 * 70.0e3, 0.02 * 900.0 * 60.0)):
        # T over radius, teeth, length and height; the slant of the flank drops out
        pressure = torque / (18.0 * 24.0 * 36.0 * 1.5)
        by_hand += 2.0 * coefficient * pressure * path * turns
    assert by_hand == pytest.approx(2.076e-5, rel=1e-3)  # mm in an hour, both flanks
    rate = alignment().rows[0].wear_rate
    assert rate is not None
    assert rate * 1e3 == pytest.approx(by_hand, rel=1e-4)


def test_weakest_link_is_the_flank_pressure_of_the_guide() -> None:
    weakest = result().weakest
    assert weakest is not None
    assert (weakest.check, weakest.method) == ("flank pressure", "guide, tabulated")
    (check,) = (c for c in result().joints[0].checks if (c.name, c.method) == (weakest.check, weakest.method))
    # S = 2 T Ka Km/(D N L h) with 70 N m, D 36 mm, 24 teeth, 36 mm, h = 1.5 mm; Ka = 1
    bare = 2.0 * 70.0e3 / (36.0 * 24.0 * 36.0 * 1.5)
    assert bare == pytest.approx(3.0007, abs=1e-4)
    assert check.value / 1e6 == pytest.approx(bare * check.factors["Ka"] * check.factors["Km"], rel=1e-3)
    assert check.factors["Ka"] == 1.0
    # end gap 36 x 1.48455e-3 = 0.053444 mm; Km = 1 + 0.5 log2(0.053444/0.0508)
    by_hand = 1.0 + 0.5 * math.log2(0.053444 / 0.0508)
    assert by_hand == pytest.approx(1.0366, abs=1e-4)
    assert check.factors["Km"] == pytest.approx(by_hand, rel=1e-4)
    assert alignment().rows[0].load_factor == pytest.approx(by_hand, rel=1e-4)
    assert check.safety_factor == pytest.approx(check.allowable / check.value, rel=1e-12)


def test_it_fails_warm_and_passes_as_it_was_read(tmp_path: Path) -> None:
    assert result().verdict == "fail"
    text = PATH.read_text()
    start = text.rindex("[joint.tilt.feet]")
    cold = tmp_path / "cold.toml"
    cold.write_text(text[:start] + text[text.index("[joint.external]") :])
    found = assess(cold)
    assert found.verdict == "pass"
    assert found.joints[0].alignment is not None
    assert found.joints[0].alignment.reading.cold_offset is None
