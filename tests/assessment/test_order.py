"""Order data: which part, which mate, which steel, what must be settled first."""

import math

import pytest
from builder import EXAMPLES, loaded

from torqcheck.assessment.order.making import fillet_lines
from torqcheck.assessment.order.material import case_band
from torqcheck.assessment.order.result import Order, OrderSide
from torqcheck.assessment.order.write import order
from torqcheck.errors import UsageError
from torqcheck.geometry import ansi_b92_1, between_pins, din_5480, iso_4156, over_pins, straight
from torqcheck.geometry.standards.limits import Band, involute_limits
from torqcheck.materials import steel, treatment_note
from torqcheck.scenario import load_scenario
from torqcheck.scenario.joint_schema import SplineJoint

MM = 1e-3
INCH = 0.0254
SIZE = 'size = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }'
PLAIN = 'measured = { teeth = 26, major_diameter = "1.345 in" }'
OWN = (
    ('standard = "ansi b92.1"', 'standard = "own"'),
    (
        SIZE,
        'size = { teeth = 26, pressure_angle = "30 deg", pitch_diameter = "33.02 mm", '
        'root_diameter = "31.3 mm", internal_major_diameter = "34.8 mm", tooth_thickness = "1.99 mm", '
        'contact_height = "1.1 mm" }',
    ),
    (PLAIN, "measured = { teeth = 26 }"),
)
STRAIGHT = (
    ('kind = "involute spline"', 'kind = "straight spline"'),
    ('standard = "ansi b92.1"', 'standard = "iso 14"'),
    (SIZE, 'size = { designation = "8x36x42" }'),
    (PLAIN, "measured = { teeth = 8 }"),
    ("measured = { teeth = 26 }", "measured = { teeth = 8 }"),
)


def new_hub(*changes: tuple[str, str]) -> tuple[Order, OrderSide]:
    found = order(loaded(*changes))
    (made,) = found.sides
    assert made.side == "internal"
    return found, made


def words(lines: object, name: str) -> str:
    """Words of one line by its name."""
    (line,) = (line for line in lines if line.name == name)  # type: ignore[attr-defined]
    return str(line.words)


def band(lines: object, name: str) -> Band:
    (line,) = (line for line in lines if line.name == name)  # type: ignore[attr-defined]
    assert isinstance(line.band, Band)
    return line.band


# which part


def test_the_new_part_of_the_only_spline_is_ordered() -> None:
    found, made = new_hub()
    assert found.joint == "gearbox input"
    assert found.state == "ready"
    assert made.steel == steel("8620_carb_63")
    assert order(loaded(), "gearbox input", "external").sides[0].side == "external"


def test_both_parts_are_ordered_where_both_are_new() -> None:
    found = order(loaded(("reused = true", "reused = false")))
    assert [made.side for made in found.sides] == ["external", "internal"]
    assert "new too" in found.sides[0].mate.words[0]


def test_nothing_new_asks_for_the_side() -> None:
    with pytest.raises(UsageError, match=r"no part is new .* --side external or --side internal"):
        order(loaded(("reused = false", "reused = true")))
    with pytest.raises(UsageError, match="no part is new"):
        order(loaded(("reused = false\n", "")))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_splined_joint_of_the_examples_can_be_ordered(path) -> None:  # type: ignore[no-untyped-def]
    scenario = load_scenario(path)
    for joint in scenario.joint:
        if isinstance(joint, SplineJoint):
            for side in ("external", "internal"):
                (made,) = order(scenario, joint.name, side).sides
                assert made.making
                assert made.inspection
                assert made.mate.words
                assert all(line.words or line.band for line in (*made.material, *made.making))


# fit and class


def test_fit_and_class_are_assumed_and_passed_on() -> None:
    found, _ = new_hub()
    assert found.fit_words == (
        "side fit, tolerance class 5. The fit and the class are assumed, for the scenario has none; "
        "change them with --fit and --fit-class."
    )
    closer = order(loaded(), fit="side fit", fit_class=4)
    assert closer.fit_words == "side fit, tolerance class 4"
    wide, tight = found.block.space, closer.block.space
    assert wide is not None
    assert tight is not None
    assert wide.maximum is not None
    assert tight.maximum is not None
    assert tight.maximum < wide.maximum


@pytest.mark.parametrize(
    ("changes", "fit", "fit_class", "problem"),
    [
        ((), "H/h", None, "--fit H/h: ansi b92.1 has no fit 'H/h'; it has side fit, major diameter fit"),
        ((), None, 9, "--fit-class 9: "),
        (STRAIGHT, None, 5, "--fit-class 5: iso 14 has no tolerance classes here"),
        (STRAIGHT, "snug", None, "--fit snug: fit 'snug' is not one of sliding, close, fixed"),
        (OWN, "side fit", None, "--fit side fit: the fit of own is not chosen here"),
    ],
)
def test_a_fit_that_is_not_there_is_refused(
    changes: tuple[tuple[str, str], ...], fit: str | None, fit_class: int | None, problem: str
) -> None:
    with pytest.raises(UsageError) as caught:
        order(loaded(*changes), fit=fit, fit_class=fit_class)
    assert str(caught.value).startswith(problem)
    assert "\n" not in str(caught.value)


def test_a_module_spline_takes_the_errors_of_lead_of_its_engagement() -> None:
    found, _ = new_hub(
        ('standard = "ansi b92.1"', 'standard = "iso 4156"'),
        (SIZE, 'size = { teeth = 26, module = "1.25 mm", root = "flat" }'),
        (PLAIN, "measured = { teeth = 26 }"),
    )
    wanted = involute_limits(iso_4156.spline(26, 1.25 * MM), 5, "H/h", 1.25 * INCH)[1]
    assert found.block.internal == wanted


def test_a_hub_that_is_hardened_after_broaching_gets_the_wider_slot() -> None:
    hard, _ = new_hub(*STRAIGHT)  # 8620, carburised
    soft, _ = new_hub(
        *STRAIGHT, ('steel = "8620_carb_63"\nreused = false', 'steel = "1045_CD"\nreused = false')
    )
    assert hard.block.space is not None
    assert soft.block.space is not None
    assert hard.block.space.maximum is not None
    assert soft.block.space.maximum is not None
    assert hard.block.space.maximum > soft.block.space.maximum


# the mate


def reading(thickness: float) -> float:
    """Over pins of 0.096 in, on the shaft of the base, for a tooth of this thickness."""
    spline = ansi_b92_1.spline(26, "20/40")
    return float(over_pins(26, spline.module, spline.pressure_angle, thickness, 0.096 * INCH))


def with_pins(thickness: float, *more: tuple[str, str]) -> tuple[Order, OrderSide]:
    over = f"{reading(thickness) / MM:.6f} +/- 0.002 mm"
    return new_hub(
        (PLAIN, f'measured = {{ teeth = 26, over_pins = "{over}", pin = "0.096 +/- 0.00001 in" }}'), *more
    )


def test_play_with_a_worn_shaft_is_that_of_its_reading() -> None:
    spline = ansi_b92_1.spline(26, "20/40")
    least = involute_limits(spline)[0].tooth_thickness
    assert least is not None
    assert least.actual.minimum is not None
    worn = least.actual.minimum - 0.05 * MM
    found, made = with_pins(worn)
    assert made.mate.measured is not None
    assert made.mate.measured.width == pytest.approx(worn, abs=1e-8)
    assert made.mate.measured.beyond_new == pytest.approx(0.05 * MM, abs=1e-8)
    text = " ".join(made.mate.words)
    assert "WORN 0.050 mm" in text
    assert "renew both" in text
    hub = found.block.internal
    assert hub is not None
    assert hub.space_width is not None
    assert hub.space_width.effective is not None
    play, doubt = made.mate.clearance, made.mate.measured.tolerance
    assert play is not None
    assert play.minimum == pytest.approx(hub.space_width.effective.minimum - worn - doubt, abs=1e-8)
    assert play.maximum == pytest.approx(hub.space_width.effective.maximum - worn + doubt, abs=1e-8)
    assert found.state == "ready"


def test_a_mate_so_worn_that_the_play_begins_beyond_the_limit_comes_first() -> None:
    found, _ = with_pins(1.80 * MM, ('lash_limit = "0.40 mm"', 'lash_limit = "0.20 mm"'))
    assert found.state == "settle first"
    assert "renew the shaft as well" in found.lacking[0].text


def test_a_mate_within_the_limits_is_the_one_that_the_data_are_for() -> None:
    limits = involute_limits(ansi_b92_1.spline(26, "20/40"))[0].tooth_thickness
    assert limits is not None
    assert limits.actual.middle is not None
    _, made = with_pins(limits.actual.middle)
    assert made.mate.words[0] == (
        "The old shaft is within the limits of a new one: the data are for it as it is."
    )


def test_the_new_shaft_is_held_against_the_space_of_the_old_hub() -> None:
    spline = ansi_b92_1.spline(26, "20/40")
    wide = spline.space_width + 0.2 * MM
    over = float(between_pins(26, spline.module, spline.pressure_angle, wide, 0.0864 * INCH))
    measured = f'{{ teeth = 26, between_pins = "{over / MM:.6f} +/- 0.002 mm", pin = "0.0864 in" }}'
    scenario = loaded(
        ("reused = true", "reused = false"),
        ("reused = false\noutside", "reused = true\noutside"),
        ("measured = { teeth = 26 }", f"measured = {measured}"),
    )
    (made,) = order(scenario).sides
    assert made.side == "external"
    limits = involute_limits(spline)[0].tooth_thickness
    assert limits is not None
    assert limits.effective is not None
    assert made.mate.clearance is not None
    assert made.mate.measured is not None
    doubt = made.mate.measured.tolerance
    assert made.mate.clearance.minimum == pytest.approx(wide - doubt - limits.effective.maximum, abs=1e-8)
    assert made.mate.clearance.maximum == pytest.approx(wide + doubt - limits.effective.minimum, abs=1e-8)


def test_another_count_of_the_mate_forbids_the_part() -> None:
    found, made = new_hub(
        ("measured = { teeth = 26, major_diameter", "measured = { teeth = 25, major_diameter"),
        ('"1.345 in"', '"1.295 in"'),
    )
    assert found.state == "do not make"
    assert "has 25 teeth, the data are for 26" in found.lacking[0].text
    assert "another count" in made.mate.words[0]


def test_a_false_fit_is_ordered_for_the_part_that_stays() -> None:
    scenario = loaded(
        ("measured = { teeth = 26, major_diameter", "measured = { teeth = 25, major_diameter"),
        ('"1.345 in"', '"1.295 in"'),
        ("reused = false", "reused = true"),
    )
    found = order(scenario, side="external")
    assert found.state == "ready"
    (made,) = found.sides
    assert "FALSE FIT" in " ".join(made.mate.words)
    assert "Do not send the old part as a sample" in " ".join(made.mate.words)


def test_an_uncounted_mate_is_counted_first() -> None:
    found, _ = new_hub(("measured = { teeth = 26, major_diameter", "measured = { major_diameter"))
    assert found.state == "settle first"
    assert "have not been counted" in found.lacking[0].text


def test_only_readings_of_the_part_that_stays_are_asked_for() -> None:
    """The caliper over the old shaft cannot tell; that matters for a new hub, not for a new shaft."""
    (press,) = (path for path in EXAMPLES if path.stem == "cider_press")
    hub, shaft = order(press, side="internal"), order(press, side="external")
    assert hub.state == "settle first"
    assert "over pins" in hub.lacking[0].text
    assert shaft.state == "ready"


# the steel


def test_an_unknown_steel_is_chosen_first() -> None:
    found, made = new_hub(('steel = "8620_carb_63"\nreused = false', 'steel = "unknown"\nreused = false'))
    assert found.state == "settle first"
    assert "A steel must be chosen first" in found.lacking[0].text
    assert made.steel is None
    assert made.material == ()
    assert made.inspection


def test_a_thin_tooth_bears_less_case_than_the_row_has() -> None:
    row = steel("8620_carb_63")
    assert (row.case_depth_min, row.case_depth_max) == (0.6 * MM, 1.5 * MM)
    assert case_band(row, 2.5 * MM) == Band(pytest.approx(0.6 * MM), pytest.approx(1.0 * MM))  # type: ignore[arg-type]
    assert case_band(row, 5.0 * MM) == Band(pytest.approx(0.6 * MM), pytest.approx(1.5 * MM))  # type: ignore[arg-type]
    assert case_band(row, 1.4 * MM) is None
    assert case_band(steel("4140_ind"), 5.0 * MM) is None
    _, made = new_hub()
    # a pitch of 3.990 mm leaves a tooth of 1.995 mm: 0.798 mm of case at most
    line = band(made.material, "effective case on this tooth")
    assert line.maximum == pytest.approx(0.4 * 0.5 * math.pi * INCH / 20, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "stages", "cracks"),
    [("4140_PH28_32", {"finished", "with the mate"}, False),
     ("4140_QT540", {"finished", "with the mate"}, False),
     ("4140_ind", {"before heat treatment", "after heat treatment", "finished", "with the mate"}, True),
     ("17_4PH_H1025", {"before heat treatment", "after heat treatment", "finished", "with the mate"}, False)],
)  # fmt: skip
def test_what_is_hardened_later_is_measured_twice(name: str, stages: set[str], cracks: bool) -> None:
    row = ('steel = "8620_carb_63"\nreused = false', f'steel = "{name}"\nreused = false')
    _, made = new_hub(row)
    assert {step.stage for step in made.inspection} == stages
    assert any("cracks" in step.what for step in made.inspection) is cracks
    pins = [step for step in made.inspection if "two pins" in step.what]
    assert len(pins) == (2 if "before heat treatment" in stages else 1)
    assert made.inspection[-1].stage == "with the mate"
    assert "each of its 26 positions" in made.inspection[-1].what


def test_section_of_bar_and_of_wall() -> None:
    """A hub cut from hardened bar has the strength of the bar, one that is carburised that of its wall."""
    _, carburised = new_hub()
    assert "about 9 mm thick" in words(carburised.material, "section")  # (52 - 34.3)/2
    row = ('steel = "8620_carb_63"\nreused = false', 'steel = "C45E_QT_40"\nreused = false')
    _, bar = new_hub(row)
    text = words(bar.material, "section")
    assert "about 52 mm thick, MORE than the row holds for" in text


def test_lead_time_is_that_of_the_row_else_of_the_process() -> None:
    _, made = new_hub()
    row, note = steel("8620_carb_63"), treatment_note(steel("8620_carb_63"))
    assert (row.notes.lead_days_min, row.notes.lead_days_max) == (5.0, 15.0)
    assert (note.add_days_min, note.add_days_max) == (5.0, 15.0)
    assert words(made.material, "lead time") == "adds 5 to 15 working days to the machining"


# making


@pytest.mark.parametrize(
    ("spline", "least", "mark"),
    [
        (din_5480.spline(0.040, 0.002, 18), 0.32, "from memory"),
        (iso_4156.spline(20, 2 * MM), 0.4, "from memory"),
        (iso_4156.spline(20, 2 * MM, math.radians(30.0), "fillet"), 0.8, "from memory"),
        (iso_4156.spline(20, 2 * MM, math.radians(37.5), "fillet"), 0.6, "from memory"),
        (iso_4156.spline(20, 2 * MM, math.radians(45.0), "fillet"), 0.5, "from memory"),
        (ansi_b92_1.spline(27, "10/20"), 0.508, "common practice, no source"),
        (straight.iso_14("8x42x48"), 0.3, "common practice, no source"),
    ],
    ids=str,
)
def test_root_fillet(spline, least: float, mark: str) -> None:  # type: ignore[no-untyped-def]
    first, *more = fillet_lines(spline)
    assert first.band is not None
    assert first.band.minimum == pytest.approx(least * MM)
    assert first.mark == mark
    for line in more:
        assert line.band is not None
        assert line.band.minimum is not None
        assert line.band.minimum > least * MM


def test_full_teeth_and_run_out_of_the_cutter() -> None:
    (made,) = order(loaded(("reused = true", "reused = false"))).sides[:1]
    full, out, total = (
        band(made.making, n).minimum for n in ("full teeth", "run-out of the cutter", "teeth in all")
    )
    assert full == pytest.approx(1.25 * INCH + 2 * MM)
    depth = 0.5 * (27.0 - 24.65) * INCH / 20  # from the outside to the minor diameter, (N + 1) and (N - 1.35)
    assert out == pytest.approx(math.sqrt(depth * (63 * MM - depth)), rel=1e-9)
    assert full is not None
    assert out is not None
    assert total == pytest.approx(full + out)


def test_an_own_spline_says_what_its_drawing_lacks() -> None:
    found, made = new_hub(*OWN)
    assert found.state == "settle first"
    assert "The spline is of no standard: the drawing lacks the limits" in found.lacking[0].text
    assert found.fit_words == "none: the spline is of no standard"
    step = next(s for s in made.inspection if "two pins" in s.what)
    assert step.band is not None
    assert step.band.minimum == step.band.maximum
    assert "at the stated width; agree the tolerance" in [
        s.accept for s in made.inspection if "two pins" in s.what
    ]


def test_an_sae_shaft_has_no_limits_and_its_hole_has() -> None:
    sae = (
        STRAIGHT[0],
        ('standard = "ansi b92.1"', 'standard = "sae"'),
        (SIZE, 'size = { teeth = 6, major_diameter = "1.5 in", fit = "B" }'),
        (PLAIN, 'measured = { teeth = 6, major_diameter = "1.498 in" }'),
        ("measured = { teeth = 26 }", "measured = { teeth = 6 }"),
    )
    found = order(loaded(*sae), side="external")
    assert found.state == "settle first"
    assert "shaft sizes are left to the maker" in found.lacking[0].text
    assert order(loaded(*sae), side="internal").state == "ready"
