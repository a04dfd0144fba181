"""The whole check against numbers worked out step by step from the printed formulas."""

import json
import math

import pytest
from builder import BASE, EXAMPLES, assessed, edited, loaded

import torqcheck
from torqcheck.assessment import Assessment
from torqcheck.checks import Check
from torqcheck.shock import peak

PSI = 6894.757293168361
MM = 1e-3


def check_of(result: Assessment, name: str, method: str, joint: int = 0) -> Check:
    return next(c for c in result.joints[joint].checks if c.name == name and method in c.method)


BASE_RESULT = assessed()
TORQUE = 240 * 2.5 * 0.97  # N m at the joint
D = 26 * 25.4 / 20 * MM  # pitch diameter
DRE = (26 - 1.35) * 25.4 / 20 * MM  # root diameter, flat root
DRI = (26 + 1.35) * 25.4 / 20 * MM
L = 31.75 * MM
T = math.pi / 2 * 25.4 / 20 * MM  # tooth thickness
KA = 1.2  # uniform motor, light shock
E = math.radians(0.08)
KM = max(1.0, 1.0 + 0.5 * math.log2(math.tan(E) * L / (0.002 * 25.4 * MM)))
CYCLES = 400 * 20  # service hours x torque cycles per hour; the machine regenerates: reversed column
KF = 1.8 * (1.0 / 1.8) ** (math.log10(CYCLES) - 3)
REVOLUTIONS = 400 * 60 * (0.1 * 600 + 0.9 * 2000) / 2.5
KW = 2 ** ((8 - math.log10(REVOLUTIONS)) / 2)


def test_torque_reaching_the_joint() -> None:
    joint = BASE_RESULT.joints[0]
    assert joint.torque == pytest.approx(TORQUE, rel=1e-12)
    assert joint.regen_torque == pytest.approx(90 * 2.5 / 0.97, rel=1e-12)


def test_root_shear() -> None:
    check = check_of(BASE_RESULT, "root shear, external member", "tabulated")
    assert check.value == pytest.approx(16 * TORQUE * KA / (math.pi * DRE**3), rel=1e-9)
    assert check.allowable == pytest.approx(50_000 * PSI * KF, rel=1e-4)
    assert check.factors == pytest.approx({"Ka": KA, "life": KF}, rel=1e-4)


def test_pitch_line_shear() -> None:
    check = check_of(BASE_RESULT, "pitch-line tooth shear", "tabulated")
    assert check.value == pytest.approx(4 * TORQUE * KA * KM / (D * 26 * L * T), rel=1e-6)


def test_flank_pressure_with_what_the_worn_tip_leaves() -> None:
    height = 0.9 * 25.4 / 20 * MM - (27 / 20 - 1.345) * 25.4 / 2 * MM
    check = check_of(BASE_RESULT, "flank pressure", "tabulated")
    assert check.value == pytest.approx(2 * TORQUE * KA * KM / (D * 26 * L * height), rel=1e-6)
    assert check.allowable == pytest.approx(5_000 * PSI * KW, rel=1e-3)
    assert check.factors["Km"] == pytest.approx(KM, rel=1e-6)


def test_bursting() -> None:
    wall = (52 * MM - DRI) / 2
    speed = 4000 / 2.5 * math.pi / 30
    radial = TORQUE * math.tan(math.radians(30)) / (math.pi * D * wall * L)
    beam = 4 * TORQUE / (D**2 * L * 1.5)
    spin = 7850 * speed**2 / 16 * (3.3 * (52 * MM) ** 2 + 0.7 * DRI**2)
    check = check_of(BASE_RESULT, "bursting, internal member", "tabulated")
    assert check.value == pytest.approx(KA * KM * (radial + beam) + spin, rel=1e-6)
    assert check.allowable == pytest.approx(55_000 * PSI * KF, rel=1e-4)


def test_simulated_line_is_the_kernel_without_application_factor() -> None:
    inertia = 0.05 * 2.5**2 + 0.004
    mesh = 26 / 2 * 15e9 * L * (D / 2) ** 2
    starts = [0.0, -90 * 2.5 / 0.97]
    largest = max(
        float(
            peak(
                torque_rise=4800 * 2.5 * 0.97,
                peak_torque=TORQUE,
                driving_inertia=inertia,
                driven_inertia=2.4,
                stiffness=1 / (1 / 9000 + 1 / mesh),
                damping_ratio=0.03,
                lash=2 * 0.05e-3 / D,
                start_torque=start,
            ).peak_torque
        )
        for start in starts
    )
    assert BASE_RESULT.shock.peak_torque == pytest.approx(largest, rel=1e-9)
    simulated = check_of(BASE_RESULT, "root shear, external member", "simulated")
    assert simulated.factors["Ka"] == 1.0
    assert simulated.value == pytest.approx(16 * largest / (math.pi * DRE**3), rel=1e-9)


def test_fixed_seat_takes_a_ninth_and_the_fatigue_factor() -> None:
    fixed = assessed(('seat = "flexible"\ntilt = { angle = "0.08 deg" }', 'seat = "fixed"'))
    height = 0.9 * 25.4 / 20 * MM - (27 / 20 - 1.345) * 25.4 / 2 * MM
    check = check_of(fixed, "flank pressure", "tabulated")
    assert check.value == pytest.approx(2 * TORQUE * KA / (9 * D * 26 * L * height), rel=1e-6)
    assert check.allowable == pytest.approx(5_000 * PSI * KF, rel=1e-4)
    assert check.factors["Km"] == 1.0
    wear = fixed.joints[0].wear
    assert wear is not None
    assert wear.life is None
    assert "fixed seat" in wear.reason


def test_worn_step_thins_the_tooth_and_the_contact() -> None:
    worn = assessed(
        ("measured = { teeth = 26, major", 'measured = { teeth = 26, worn_step = "0.1 mm", major')
    )
    before, after = (check_of(r, "pitch-line tooth shear", "tabulated") for r in (BASE_RESULT, worn))
    thinner = T - 0.1e-3 / math.cos(math.radians(30))
    assert after.value / before.value == pytest.approx(T / thinner, rel=1e-9)
    assert (
        check_of(worn, "flank pressure", "tabulated").value
        > check_of(BASE_RESULT, "flank pressure", "tabulated").value
    )


def test_softer_flank_governs() -> None:
    soft = assessed(
        (
            'steel = "8620_carb_63"\nreused = false',
            'steel = "4140_PH28_32"\nhardness = "30 HRC"\nreused = false',
        )
    )
    check = check_of(soft, "flank pressure", "tabulated")
    assert check.member == "internal"
    assert check.allowable == pytest.approx(2_000 * PSI * KW, rel=1e-3)


def test_the_same_machine_in_inch_and_in_si() -> None:
    inch = (
        ('"240 N*m"', f'"{240 / 1.3558179483314004!r} lbf*ft"'),
        ('"4800 N*m/s"', f'"{4800 / 0.1129848290276167!r} lbf*in/s"'),
        ('"90 N*m"', f'"{90 / 1.3558179483314004!r} ft-lb"'),
        ('"0.05 kg*m^2"', f'"{0.05 / (0.45359237 * 0.0254**2)!r} lb*in^2"'),
        ('"2.4 kg*m^2"', f'"{2.4 / (0.45359237 * 0.3048**2)!r} lb*ft^2"'),
        ('"9000 N*m/rad"', f'"{9000 / 0.1129848290276167!r} lbf*in/rad"'),
        ('"0.40 mm"', f'"{0.40 / 25.4!r} in"'),
        ('"1.25 in"', '"31.75 mm"'),
        ('"0.05 mm"', f'"{0.05 / 0.0254!r} thou"'),
        ('"52 mm"', f'"{52 / 25.4!r} in"'),
        ('"1.345 in"', '"34.163 mm"'),
        ('"0.08 deg"', f'"{math.radians(0.08) * 1e3!r} mrad"'),
    )
    first, second = BASE_RESULT.to_dict(), assessed(*inch).to_dict()
    assert _numbers(first) == pytest.approx(_numbers(second), rel=1e-9)
    assert first["verdict"] == second["verdict"]


def _numbers(node: object) -> list[float]:
    if isinstance(node, dict):
        return [n for key in node if key != "assumptions" for n in _numbers(node[key])]
    if isinstance(node, list):
        return [n for item in node for n in _numbers(item)]
    return [float(node)] if isinstance(node, int | float) and not isinstance(node, bool) else []


def test_json_is_strict_and_keeps_its_names() -> None:
    for path in EXAMPLES:
        result = torqcheck.assess(path).to_dict()
        text = json.dumps(result, allow_nan=False)
        assert json.loads(text) == result
        assert {
            "format",
            "torqcheck",
            "scenario",
            "verdict",
            "decided_by",
            "undecided_by",
            "weakest",
            "shock",
            "joints",
            "assumptions",
            "cautions",
        } <= set(result)
        assert {
            "peak_torque_Nm",
            "steady_torque_Nm",
            "dynamic_factor",
            "natural_frequency_Hz",
            "closing_time_s",
            "closing_speed_rad_s",
            "blow_energy_J",
            "contact_losses",
            "slipped",
        } <= set(result["shock"])
        for joint in result["joints"]:
            assert {
                "name",
                "kind",
                "torque_Nm",
                "peak_torque_Nm",
                "lash_rad",
                "verdict",
                "checks",
                "mate",
                "wear",
                "fatigue",
            } <= set(joint)
            for check in joint["checks"]:
                assert {
                    "name",
                    "method",
                    "value",
                    "allowable",
                    "unit",
                    "safety_factor",
                    "target",
                    "verdict",
                    "mark",
                    "source",
                } <= set(check)
                assert check["safety_factor"] == pytest.approx(check["allowable"] / check["value"])
                assert check["source"]


def test_weakest_is_the_lowest_ratio_of_factor_to_target() -> None:
    for path in EXAMPLES:
        result = torqcheck.assess(path)
        lowest = min(
            (c for j in result.joints for c in j.checks if not c.local),
            key=lambda c: (c.safety_factor or 1e9) / c.target,
        )
        assert result.weakest is not None
        assert (result.weakest.joint, result.weakest.check) == (lowest.joint, lowest.name)
        assert result.weakest.safety_factor == lowest.safety_factor


def test_same_file_same_answer() -> None:
    assert torqcheck.assess(EXAMPLES[0]).to_dict() == torqcheck.assess(EXAMPLES[0]).to_dict()


def test_assess_takes_a_loaded_scenario_and_a_path() -> None:
    scenario = torqcheck.load_scenario(EXAMPLES[0])
    assert torqcheck.assess(scenario).to_dict() == torqcheck.assess(str(EXAMPLES[0])).to_dict()


def test_zero_lash_held_instant_and_rigid_are_no_surprises() -> None:
    result = assessed(
        ('clearance = "0.05 mm"', 'clearance = "0 mm"'),
        ('torque_rise = "4800 N*m/s"', 'torque_rise = "instant"'),
        ('inertia = "2.4 kg*m^2"\nstiffness = "9000 N*m/rad"', 'held = true\nstiffness = "rigid"'),
        ("damping_ratio = 0.03", "damping_ratio = 0.0"),
        ('regen_torque = "90 N*m"\n', ""),
    )
    # an instant torque on an undamped held path without lash doubles: textbook limit
    assert result.shock.dynamic_factor == pytest.approx(2.0, rel=1e-9)
    assert result.shock.closing_time is None
    json.dumps(result.to_dict(), allow_nan=False)


def test_two_joints_with_a_stage_between_share_the_torque_by_ratio() -> None:
    more = """
[[joint]]
name = "second shaft"
kind = "shaft"
diameter = "40 mm"
length = "200 mm"
steel = "4340_QT650"
reused = false
after = [[3.0, 0.95]]
"""
    result = assessed(base=edited() + more)
    second = result.joints[1]
    assert second.torque == pytest.approx(TORQUE * 3.0 * 0.95, rel=1e-12)
    assert second.peak_torque == pytest.approx(result.shock.peak_torque * 3.0 * 0.95, rel=1e-12)
    # driven inertia and stiffness stand at the last joint: both are a ninth at the first
    assert result.shock.driven_inertia == pytest.approx(2.4 / 9.0, rel=1e-12)
    yields = check_of(result, "torsional yield", "material", joint=1)
    assert yields.value == pytest.approx(
        16 * max(second.peak_torque, second.torque) / (math.pi * 0.04**3), rel=1e-9
    )


def test_a_stepped_bored_shaft_is_a_chain_of_springs() -> None:
    more = """
[[joint]]
name = "stub"
kind = "shaft"
diameter = "40 mm"
bore = "20 mm"
length = "100 mm"
steps = [{ diameter = "60 mm", length = "50 mm" }, { diameter = "50 mm", bore = "25 mm", length = "80 mm" }]
steel = "4340_QT650"
reused = false
"""
    result = assessed(base=edited() + more)
    shear = 80.0e9
    parts = [(0.04, 0.02, 0.1), (0.06, 0.0, 0.05), (0.05, 0.025, 0.08)]
    twist = sum(32 * length / (shear * math.pi * (D**4 - d**4)) for D, d, length in parts)
    mesh = 26 / 2 * 15e9 * L * (D / 2) ** 2
    assert result.shock.stiffness == pytest.approx(1.0 / (1 / 9000 + 1 / mesh + twist), rel=2e-3)
    shares = dict(result.shock.compliance)
    assert sum(shares.values()) == pytest.approx(1.0)
    assert shares["stub"] == pytest.approx(twist * result.shock.stiffness, rel=2e-3)
    assert result.shock.compliance[0][0] == result.shock.softest == "path behind the last joint"


def test_slip_caps_the_steady_torque_and_not_the_blow() -> None:
    slipping = assessed(("damping_ratio = 0.03", 'damping_ratio = 0.03\nslip = { torque = "300 N*m" }'))
    assert slipping.joints[0].torque == pytest.approx(300.0)
    assert slipping.shock.slipped
    assert slipping.shock.peak_torque == BASE_RESULT.shock.peak_torque
    assert any("slip" in caution.key for caution in slipping.cautions)


SLIP = 'damping_ratio = 0.03\nslip = { torque = "300 N*m", inertia_before = "0.3 kg*m^2" }'


def test_slip_with_the_inertia_before_it_is_the_kernel_with_a_slip_element() -> None:
    slipping = assessed(("damping_ratio = 0.03", SLIP))
    shock, firm = slipping.shock, BASE_RESULT.shock
    inertia = 0.05 * 2.5**2 + 0.004
    share = 2.4 / (2.4 + inertia)
    onset = 300.0 / (1.0 - 0.3 / 2.4)
    start = max(-90 * 2.5 / 0.97, -onset / share)
    blows = [
        peak(
            torque_rise=4800 * 2.5 * 0.97,
            peak_torque=TORQUE,
            driving_inertia=inertia,
            driven_inertia=2.4,
            stiffness=shock.stiffness,
            damping_ratio=0.03,
            lash=shock.lash,
            start_torque=torque,
            slip_torque=300.0,
            inertia_before_slip=0.3,
        )
        for torque in (0.0, start)
    ]
    assert shock.drive_peak_torque == pytest.approx(max(float(b.peak_torque) for b in blows), rel=1e-12)
    assert shock.slipped
    assert shock.slip_time is not None
    assert shock.firm_peak_torque == pytest.approx(firm.drive_peak_torque, rel=1e-12)
    # the ground lets half of the torque through, the blow loses little
    assert slipping.joints[0].torque == pytest.approx(300.0)
    assert 0.7 * firm.drive_peak_torque < shock.drive_peak_torque < firm.drive_peak_torque


def test_no_start_is_settled_under_more_than_the_slip_element_holds() -> None:
    weak = SLIP.replace("300", "100")
    slipping = assessed(
        ("damping_ratio = 0.03", weak), ('regen_torque = "90 N*m"', 'regen_torque = "150 N*m"')
    )
    assert slipping.shock.least_torque >= -100.0 / (1.0 - 0.3 / 2.4) * (1.0 + 1e-9)


def test_unknown_driven_inertia_tries_several_and_uses_the_worst() -> None:
    unknown = assessed(('inertia = "2.4 kg*m^2"\n', ""))
    held = assessed(('inertia = "2.4 kg*m^2"\n', "held = true\n"))
    assert unknown.shock.peak_torque >= held.shock.peak_torque
    assert any(entry.key == "driven.inertia" for entry in unknown.assumptions)


def test_nothing_at_all_is_known_of_inertia_stiffness_and_duty() -> None:
    bare = BASE.split("[[duty]]")[0] + "[[joint]]" + BASE.split("[[joint]]")[1]
    result = assessed(
        ('rotor_inertia = "0.05 kg*m^2"\n', ""),
        ('inertia = "2.4 kg*m^2"\nstiffness = "9000 N*m/rad"\ndamping_ratio = 0.03\n', ""),
        ('service_life = "400 hour"\nreliability = 0.9\nlash_limit = "0.40 mm"\n', ""),
        base=bare,
    )
    keys = {entry.key for entry in result.assumptions}
    assert {
        "motor.rotor_inertia",
        "driven.inertia",
        "driven.stiffness",
        "driven.damping_ratio",
        "duty",
        "targets.service_life",
        "targets.lash_limit",
    } <= keys
    json.dumps(result.to_dict(), allow_nan=False)


def test_loading_twice_gives_equal_scenarios() -> None:
    assert loaded() == loaded()


STANDARDS = {
    "b92.1 fillet": ('"ansi b92.1"', '{ teeth = 26, pitch = "20/40", root = "fillet" }'),
    "b92.1 37.5": ('"ansi b92.1"', '{ teeth = 26, pitch = "20/40", pressure_angle = "37.5 deg" }'),
    "b92.1 45": ('"ansi b92.1"', '{ teeth = 26, pitch = "20/40", pressure_angle = "45 deg" }'),
    "iso 4156": ('"iso 4156"', '{ teeth = 26, module = "1.25 mm" }'),
    "din 5480": ('"din 5480"', '{ teeth = 26, module = "1.25 mm", reference_diameter = "35 mm" }'),
    "own": (
        '"own"',
        '{ teeth = 26, pressure_angle = "30 deg", pitch_diameter = "33 mm", root_diameter = "31.3 mm", '
        'internal_major_diameter = "34.7 mm", tooth_thickness = "1.99 mm", contact_height = "1.1 mm" }',
    ),
}


@pytest.mark.parametrize("name", STANDARDS)
def test_every_involute_standard_goes_through_the_whole_check(name: str) -> None:
    standard, size = STANDARDS[name]
    result = assessed(
        ('"ansi b92.1"', standard),
        ('{ teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }', size),
        (', major_diameter = "1.345 in"', ""),
    )
    names = [check.name for check in result.joints[0].checks]
    assert names.count("flank pressure") == 2
    # all of them are about 33 mm splines of 26 teeth: the shear under the roots differs by the root only
    shear = check_of(result, "root shear, external member", "tabulated")
    assert shear.value == pytest.approx(
        check_of(BASE_RESULT, "root shear, external member", "tabulated").value, rel=0.25
    )
    json.dumps(result.to_dict(), allow_nan=False)


@pytest.mark.parametrize(
    ("standard", "size", "diameters", "width"),
    [
        ('"iso 14"', '{ designation = "8x32x38", chamfer = "0.4 mm" }', (38e-3, 32e-3), 6e-3),
        ('"own"', '{ teeth = 8, major_diameter = "38 mm", minor_diameter = "32 mm", tooth_width = "6 mm", '
         'chamfer = "0.4 mm" }', (38e-3, 32e-3), 6e-3),
    ],
)  # fmt: skip
def test_straight_sides_by_the_same_formulas(
    standard: str, size: str, diameters: tuple[float, float], width: float
) -> None:
    result = assessed(
        ('kind = "involute spline"', 'kind = "straight spline"'),
        ('"ansi b92.1"', standard),
        ('{ teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }', size),
        ('{ teeth = 26, major_diameter = "1.345 in" }', "{ teeth = 8 }"),
        ("measured = { teeth = 26 }", "measured = { teeth = 8 }"),
        ('tilt = { angle = "0.08 deg" }', 'tilt = { angle = "0 deg" }'),
    )
    major, minor = diameters
    mean, height = (major + minor) / 2, (major - minor) / 2 - 2 * 0.4e-3
    flank = check_of(result, "flank pressure", "tabulated")
    assert flank.value == pytest.approx(2 * TORQUE * KA / (8 * height * L * mean), rel=1e-9)
    root = check_of(result, "root shear, external member", "tabulated")
    assert root.value == pytest.approx(16 * TORQUE * KA / (math.pi * minor**3), rel=1e-9)
    # the hub's tooth is what the shaft's leaves of the pitch; the thinner of the two shears first
    tooth = check_of(result, "pitch-line tooth shear", "tabulated")
    thinner = min(width, math.pi * mean / 8 - width)
    assert tooth.value == pytest.approx(4 * TORQUE * KA / (mean * 8 * L * thinner), rel=1e-9)


def test_crowned_flanks_are_checked_by_line_contact() -> None:
    crowned = assessed(
        ('lubrication = "oil flooded"', 'lubrication = "oil flooded"\ncrown_height = "0.05 mm"')
    )
    check = check_of(crowned, "flank pressure", "tabulated")
    height = 0.9 * 25.4 / 20 * MM - (27 / 20 - 1.345) * 25.4 / 2 * MM
    radius = L**2 / (8 * 0.05e-3)
    # the guide's constant 2290 (psi, lb-in, inch) on 2 T/(D N h r2)
    inch = (2 * TORQUE * KA / 0.1129848290276167) / (D * 26 * height * radius / 0.0254**3)
    assert check.value / PSI == pytest.approx(2290 * math.sqrt(inch), rel=1e-3)
    assert check.allowable == pytest.approx(20_000 * PSI, rel=1e-4)
    assert check.factors["crowned"] == 1.0


def test_hollow_shaft_loses_what_the_bore_takes() -> None:
    hollow = assessed(('hardness = "60 HRC +/- 1"', 'hardness = "60 HRC +/- 1"\nbore = "20 mm"'))
    ratio = (
        check_of(hollow, "root shear, external member", "tabulated").value
        / check_of(BASE_RESULT, "root shear, external member", "tabulated").value
    )
    assert ratio == pytest.approx(1 / (1 - (20e-3 / DRE) ** 4), rel=1e-9)


SECOND = """
[[joint]]
name = "second shaft"
kind = "shaft"
diameter = "60 mm"
length = "200 mm"
steel = "4340_QT650"
reused = false
after = [[4.0, 0.95]]
"""


def test_braking_meets_the_losses_between_two_joints_the_other_way() -> None:
    # little drive and much braking, so that the swing into braking is the larger blow
    result = assessed(
        ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
        ('regen_torque = "90 N*m"', 'regen_torque = "100 N*m"'),
        base=edited() + SECOND,
    )
    assert result.shock.start == "drive into regeneration"
    assert result.joints[1].peak_torque == pytest.approx(result.shock.peak_torque * 4.0 / 0.95, rel=1e-12)


def test_unknown_stiffness_is_no_better_than_any_that_is_tried() -> None:
    unknown = assessed(('stiffness = "9000 N*m/rad"\n', ""))
    entry = next(e for e in unknown.assumptions if e.key == "driven.stiffness")
    assert entry.low is not None
    assert entry.high is not None
    for value in (entry.low, entry.high):
        known = assessed(('stiffness = "9000 N*m/rad"', f'stiffness = "{value!r} N*m/rad"'))
        assert unknown.shock.peak_torque >= known.shock.peak_torque * (1 - 1e-12)


def test_the_blow_with_the_driven_side_held_stands_beside() -> None:
    held = assessed(('inertia = "2.4 kg*m^2"\n', "held = true\n"))
    drive = [r.shock.held_peak_torque for r in (held, BASE_RESULT)]
    assert held.shock.peak_torque == pytest.approx(drive[0], rel=1e-12)
    assert drive[0] == pytest.approx(drive[1], rel=1e-12)


def test_a_duty_list_that_brakes_needs_no_braking_torque_to_be_stated() -> None:
    braking = ('torque = 0.3\nspeed = "2000 rpm"', 'torque = -0.5\nspeed = "2000 rpm"')
    result = assessed(braking, ('regen_torque = "90 N*m"\n', ""))
    assert result.joints[0].regen_torque == pytest.approx(0.5 * 240 * 2.5 / 0.97, rel=1e-12)
    assert any(entry.key == "motor.regen_torque" for entry in result.assumptions)


def test_a_duty_list_without_torque_cycles_gets_some() -> None:
    none = assessed(("events_per_hour = 20\n", ""))
    assert any(entry.key == "duty.events_per_hour" for entry in none.assumptions)
    first, second = (
        check_of(r, "root shear, external member", "tabulated").factors["life"] for r in (none, BASE_RESULT)
    )
    assert first == second


def test_measured_root_and_bottom_diameters_replace_larger_and_smaller_nominal_ones() -> None:
    worn = assessed(
        ('{ teeth = 26, major_diameter = "1.345 in" }', '{ teeth = 26, minor_diameter = "30.5 mm" }'),
        ("measured = { teeth = 26 }", 'measured = { teeth = 26, major_diameter = "35.6 mm" }'),
    )
    shear = check_of(worn, "root shear, external member", "tabulated")
    assert shear.value == pytest.approx(16 * TORQUE * KA / (math.pi * 30.5e-3**3), rel=1e-9)
    hub = check_of(worn, "torsional yield, internal member", "material")
    torque = max(worn.shock.peak_torque, TORQUE)
    assert hub.value == pytest.approx(16 * torque * 52e-3 / (math.pi * (52e-3**4 - 35.6e-3**4)), rel=1e-9)
