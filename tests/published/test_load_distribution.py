"""Distribution of the load along a spline and around a tilted one.

Nothing here was read in a publication: shear lag, tilt and root chord were derived by a separate
program (boundary problems, root searches) and printed; the numbers are held digit for digit.
"""

import numpy as np
import pytest
from published._case import Case

from torqcheck.capacity import (
    lag_parameter,
    leaving_end_factor,
    opposite_side_factor,
    polar_second_moment,
    rack_root_chord,
    same_side_factor,
    shared_load,
    spline_mesh_stiffness,
    tilt_contact_share,
    tilt_load_factor,
    tilt_parameter,
)

LAG = "Two twisting rods on a bed of springs"
WEDGE = "Rigid hub tilted about the middle of the engagement"
ENGAGED = {"pitch_diameter": 0.030, "root": 0.02775, "length": 0.040, "teeth": 20.0, "stiffness": 10e9}

ETA = (1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 25.0, 50.0)
PEAK = ("2.487", "2.946", "3.804", "4.607", "6.088", "7.381", "9.599", "11.53", "15.27", "23.48")
CONTACT = (".934", ".865", ".756", ".673", ".528", ".395", ".290", ".237", ".175", ".111")


def worked_lag() -> tuple[float, float]:
    """Lag parameter and share of the shaft of the worked engagement."""
    shaft, hub = (79.3e9 * polar_second_moment(*d) for d in ((0.02775,), (0.045, 0.03225)))
    mesh = spline_mesh_stiffness(0.030, 20, ENGAGED["length"], 1.0, ENGAGED["stiffness"])
    lag = lag_parameter(mesh, shaft / ENGAGED["length"], hub / ENGAGED["length"])
    return float(lag), float(shaft / (shaft + hub))


def test_load_at_the_ends_of_an_engagement() -> None:
    lag, share = worked_lag()
    for where, printed, ours in (
        ("same side", "4.32116", same_side_factor(lag)),
        ("through, entering end", "3.63060", opposite_side_factor(lag, share)),
        ("through, entering end", "3.63060", leaving_end_factor(lag, 1.0 - share)),
        ("through, leaving end", "0.80553", leaving_end_factor(lag, share)),
    ):
        Case(LAG, where, "derived", ENGAGED, printed).check(float(ours))


@pytest.mark.parametrize(("eta", "peak", "contact"), list(zip(ETA, PEAK, CONTACT, strict=True)))
def test_tilted_joint(eta: float, peak: str, contact: str) -> None:
    Case(WEDGE, f"eta {eta:g}, peak over mean", "derived", {"eta": eta}, peak).check(
        float(tilt_load_factor(eta))
    )
    Case(
        WEDGE,
        f"eta {eta:g}, contact",
        "derived",
        {"eta": eta},
        contact,
        slack=5e-4,
        because="the printed share was counted on a grid: at eta 6 it is .5275, printed .528",
    ).check(float(tilt_contact_share(eta)))


@pytest.mark.parametrize("eta", [0.0, 0.25, 0.5, 1.0])
def test_tilt_that_leaves_all_flanks_in_contact(eta: float) -> None:
    assert float(tilt_load_factor(eta)) == 1.0 + eta
    assert float(tilt_contact_share(eta)) == 1.0


def test_example_against_the_guide() -> None:
    inputs = {"tilt": 0.004, "length": 0.0254, "line_load": 62e3, "tooth_stiffness": 10e9}
    eta = float(tilt_parameter(**inputs, pressure_angle=0.0))
    Case(WEDGE, "eta of the example", "derived", inputs, "8.2").check(eta)
    Case(WEDGE, "peak of the example", "derived", inputs, "7.5").check(float(tilt_load_factor(eta)))


def test_root_chord_of_a_flat_root() -> None:
    inputs = {"module": 1.0, "dedendum": 0.75}
    case = Case("Rack of 30 deg", "root chord in modules", "derived", inputs, "2.437")
    case.check(float(rack_root_chord(0.5 * np.pi, 0.75, np.pi / 6.0)))


def test_limits() -> None:
    assert float(same_side_factor(0.0)) == pytest.approx(1.0, abs=1e-12)
    assert float(leaving_end_factor(0.0, 0.3)) == pytest.approx(1.0, abs=1e-12)
    even = shared_load(4e-6, np.zeros(20), np.zeros(20), 0.0)
    assert float(even.peak) == pytest.approx(1.0, abs=5e-5)
    assert 1.0 / float(even.first) == pytest.approx(20.0, rel=1e-8)
    assert float(even.contact) == pytest.approx(1.0, abs=1e-12)
