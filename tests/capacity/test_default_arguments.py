"""What a formula takes where an argument is not given: the neutral value, or the usual one of its source."""

import inspect
from importlib import import_module
from math import inf

import pytest

from torqcheck.formulas import FORMULAS

PSI = 6894.757

# without effect on the result
NEUTRAL = {
    "bore": 0.0,
    "inner_diameter": 0.0,
    "speed": 0.0,
    "chamfer": 0.0,
    "edge_chamfer": 0.0,
    "leaving_share": 0.0,
    "force_angle": 0.0,
    "preload_loss": 0.0,
    "round_ends": 0.0,
    "shaft_angle": 0.0,
    "sag": 0.0,
    "offset": 0.0,
    "radial_play": 0.0,
    "crossings": 0.0,
    "damping_ratio": 0.0,
    "lash": 0.0,
    "start_torque": 0.0,
    "closing_time": 0.0,
    "load_factor": 1.0,
    "keyway_share": 1.0,
    "torsion_shock": 1.0,
    "carrying": 1.0,
    "safety_factor": 1.0,
    "width_share": 1.0,
    "screws": 1.0,
    "point_factor": 1.0,
    "wearing_flanks": 1.0,
    "inflation": 1.0,
    "other_side_stiffness": inf,
    "slip_torque": inf,
    "external_cut": inf,
    "internal_cut": inf,
    "inertia_before_slip": None,
    "closing_torque": None,
}
USUAL = {
    "density": 7850.0,  # kg/m3, steel
    "poisson_ratio": 0.3,
    "elastic_modulus": 30e6 * PSI,  # as the guide takes it
    "shear_modulus": 79.3e9,
    "tooth_stiffness": 15e9,  # 15 N per mm and micrometre
    "form_factor": 1.5,  # Lewis, in diametral-pitch form, 30 degree internal teeth
    "bending_shock": 1.5,
    "shear_share": 0.75,
    "roughness_share": 0.8,
    "most_diameters": 1.5,
    "seated_share": 0.5,
    "counted_share": 0.75,
    "taper": 50.0,
    "loss": 0.1,  # a tenth of the tooth
}
# half the teeth for shear and stiffness, all where the pressure of the guide is spread over all
SHARES = {
    "pitch_line_shear_stress": 0.5,
    "equal_strength_length": 0.5,
    "spline_mesh_stiffness": 0.5,
    "straight_flank_pressure": 1.0,
    "wear_flank_pressure": 1.0,
}
PARTS = ("capacity", "wear", "shock", "geometry")
for part in PARTS:  # each files its formulas when it is loaded
    import_module(f"torqcheck.{part}")
DEFAULTS = [
    (function, name, parameter.default)
    for function in FORMULAS
    if function.__module__.split(".")[1] in PARTS
    for name, parameter in inspect.signature(function).parameters.items()
    if parameter.default is not inspect.Parameter.empty
]


@pytest.mark.parametrize(
    ("function", "name", "default"),
    DEFAULTS,
    ids=[f"{function.__name__}-{name}" for function, name, _ in DEFAULTS],
)
def test_what_is_not_given_is_neutral_or_usual(function: object, name: str, default: float | None) -> None:
    if name == "loaded_share":
        assert default == SHARES[function.__name__]  # type: ignore[attr-defined]
    elif name in USUAL:
        assert default == pytest.approx(USUAL[name], rel=1e-6)
    else:
        assert default == NEUTRAL[name]
