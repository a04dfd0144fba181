"""Order data of a scenario against what the standards' tables print, and against worked examples."""

from pathlib import Path
from typing import Any

import pytest
from builder import edited
from published._case import Case

from torqcheck.assessment.order.write import order
from torqcheck.geometry.drawing.data_block import MemberName
from torqcheck.report.order import order_data
from torqcheck.scenario import scenario_from_text

INCH = 0.0254
MM = 1e-3
FORUM = "Forum question on dimension across pins, ANSI B92.1, thread of practitioners, 2011"
TUTORIAL = "Tutorial that quotes the inspection values of DIN 5480-2"
HANDBOOK = "Machinery's Handbook, 31st edition, 2020, page 2356"
ISO_14 = "ISO 14:1982 (BS 5686:1986), Straight-sided splines, table of dimensions"
SAE = "SAE J499 (2014 copy), Parallel side splines, six-spline row of 1 in"
LIMITS = "Limits worked out independently from the remembered class 5 table of ANSI B92.1"
OLD = (
    'standard = "ansi b92.1"\nsize = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", '
    'root = "flat" }'
)
NOT_MEASURED = (
    ("measured = { teeth = 26, major_diameter = \"1.345 in\" }\n", ""),
    ("measured = { teeth = 26 }\n", ""),
    ('reused = true\n', "reused = false\n"),
    ('outside_diameter = "52 mm"', 'outside_diameter = "95 mm"'),
)  # fmt: skip


def ordered(spline: str, side: MemberName, *changes: tuple[str, str], **fit: Any) -> dict[str, Any]:
    """Order data of the base scenario with another spline."""
    text = edited((OLD, spline), *NOT_MEASURED, *changes)
    found = order(scenario_from_text(text.encode(), Path("test.toml")), "gearbox input", side, **fit)
    return order_data(found)


def test_hub_of_36_teeth_class_5() -> None:
    size = '{ teeth = 36, pitch = "16/32", pressure_angle = "30 deg", root = "fillet" }'
    hub = ordered(f'standard = "ansi b92.1"\nsize = {size}', "internal")["spline"]["internal"]
    for what, printed, ours in (
        ("minor diameter, least", "2.188", hub["minor_diameter_limits_mm"][0]),
        # printed 2.193, the sum of the rounded 2.188 and the tolerance; 35/16 + 0.005 is 2.1925
        ("minor diameter, most", "2.193", hub["minor_diameter_limits_mm"][1]),
        ("space width, least effective", "0.0982", hub["effective_space_width_mm"][0]),
        ("form diameter", "2.317", hub["form_diameter_mm"]),
        ("major diameter", "2.363", hub["major_diameter_limits_mm"][1]),
        ("pitch diameter", "2.25", hub["pitch_diameter_mm"]),
        ("base diameter", "1.949", hub["base_diameter_mm"]),
    ):
        case = Case(FORUM, f"internal spline 36T 16/32 class 5, {what}", "published", {}, printed, unit=INCH)
        case.check(ours * MM)


def test_inspection_of_50_x_2_x_24_of_din_5480() -> None:
    size = '{ reference_diameter = "50 mm", module = "2 mm", teeth = 24 }'
    shaft = ordered(f'standard = "din 5480"\nsize = {size}', "external")["spline"]["external"]
    Case(TUTORIAL, "W 50 x 2 x 24, pin", "published", {}, "4", unit=MM).check(shaft["pin_mm"] * MM)
    nominal = shaft["effective_over_pins_mm"][1]
    Case(TUTORIAL, "W 50 x 2 x 24, M1 at nominal thickness", "published", {}, "54.218", unit=MM).check(
        nominal * MM
    )


def test_fit_draws_the_shaft_of_module_2_in() -> None:
    spline = 'standard = "iso 4156"\nsize = { teeth = 20, module = "2 mm", root = "flat" }'
    plain = ordered(spline, "external")
    thin = ordered(spline, "external", fit="H/f")
    drawn_in = (
        plain["spline"]["external"]["major_diameter_limits_mm"][1]
        - thin["spline"]["external"]["major_diameter_limits_mm"][1]
    )
    Case(HANDBOOK, "Table 17, D 40, f, 30 deg", "published", {}, "0.043", unit=MM).check(drawn_in * MM)
    assert thin["fit"].startswith("H/f, tolerance class 5. The class is assumed")
    assert plain["fit"].startswith("H/h, tolerance class 5. The fit and the class are assumed")


def test_pins_of_27_teeth_in_the_steps_of_inspection() -> None:
    size = '{ teeth = 27, pitch = "24/48", pressure_angle = "30 deg", root = "flat" }'
    for side, printed in (("external", ("1.2430", "1.2450")), ("internal", ("1.0218", "1.0242"))):
        found = ordered(f'standard = "ansi b92.1"\nsize = {size}', side)  # type: ignore[arg-type]
        (made,) = found["sides"]
        step = next(
            s
            for s in made["inspection"]
            if " two pins" in s["what"] and s["stage"] != "before heat treatment"
        )
        for text, ours in zip(printed, (step["minimum_mm"], step["maximum_mm"]), strict=True):
            Case(LIMITS, f"27 24/48, {side}", "from memory", {}, text, unit=INCH).check(ours * MM)
        assert step["mark"] == "from memory"


@pytest.mark.parametrize(("fit", "minor"), [("A", "0.899 0.900"), ("B", "0.849 0.850"), ("C", "0.799 0.800")])
def test_six_spline_hole_of_1_in(fit: str, minor: str) -> None:
    spline = f'standard = "sae"\nsize = {{ teeth = 6, major_diameter = "1 in", fit = "{fit}" }}'
    kind = ('kind = "involute spline"', 'kind = "straight spline"')
    hub = ordered(spline, "internal", kind)["spline"]["internal"]
    rows = (
        ("major_diameter_limits_mm", "0.999 1.000"),
        ("space_width_mm", "0.248 0.250"),
        ("minor_diameter_limits_mm", minor),
    )
    for key, printed in rows:
        for end, text in zip(hub[key], printed.split(), strict=True):
            Case(SAE, f"fit {fit}", "published", {}, text, unit=INCH).check(end * MM)


def test_sizes_of_8_x_42_x_48_of_iso_14() -> None:
    kind = ('kind = "involute spline"', 'kind = "straight spline"')
    spline = 'standard = "iso 14"\nsize = { designation = "8x42x48" }'
    hub = ordered(spline, "internal", kind)["spline"]["internal"]
    for key, printed in (("minor_diameter_mm", "42"), ("major_diameter_mm", "48"), ("space_width_mm", "8")):
        value = hub[key] if isinstance(hub[key], float) else hub[key][0]
        Case(ISO_14, "8 x 42 x 48", "published", {}, printed, unit=MM).check(value * MM)
