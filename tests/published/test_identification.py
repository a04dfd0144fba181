"""Parts of known make, offered to the identification by the numbers that their sources print."""

import math

import pytest
from published._case import Case

from torqcheck.geometry import between_pins, space_from_pins
from torqcheck.geometry.identifying.identification import Identification
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import candidates

INCH, MM = 0.0254, 1e-3
B92 = "Forum question on the dimension across pins by ANSI B92.1, thread of practitioners"
DIN = "Tutorial that quotes inspection values of DIN 5480-2"
BITS = "Forum question on an internal spline measured with drill bits, thread of practitioners"
MACHINE = "Sale of a motor with a shaft that was no 1 in, thread of practitioners"


def best(found: Identification) -> str:
    assert found.best is not None
    return found.best.candidate.designation


def test_hub_of_36_teeth() -> None:
    """Minor diameter 2.188/2.193 in and pin 0.108 in as published; reading for the published width."""
    width = Case(B92, "circular space width, least effective", "published", {}, "0.0982", unit=INCH)
    (part,) = (p for p in candidates(36) if p.designation == "36T 16/32 30 deg fillet root")
    width.check(part.rooms["internal"].width.basic)
    for printed in ("2.188", "2.193"):
        reading = between_pins(36, INCH / 16, math.radians(30.0), 0.0982 * INCH, 0.108 * INCH)
        found = identify(
            "internal",
            Readings(
                teeth=36,
                minor_diameter=Measured(float(printed) * INCH, 0.001 * INCH),
                major_diameter=Measured(2.363 * INCH, 0.001 * INCH),
                pins=(
                    PinPair(Measured(float(reading), 0.0005 * INCH), Measured(0.108 * INCH, 0.0001 * INCH)),
                ),
            ),
        )
        assert best(found) == "36T 16/32 30 deg fillet root"
        assert found.verdict == "identified"


def test_din_5480_shaft_50_x_2_x_24() -> None:
    """Printed: measuring pins 4 mm, M1 = 54.218 mm (mark: published); tip diameter 49.6 mm (from memory)."""
    found = identify(
        "external",
        Readings(
            teeth=24,
            major_diameter=Measured(49.6 * MM, 0.02 * MM),
            pins=(PinPair(Measured(54.218 * MM, 0.01 * MM), Measured(4.0 * MM, 0.002 * MM)),),
        ),
    )
    assert found.verdict == "identified"
    assert best(found) == "50 x 2 x 24"
    why = "half a unit of the printed 54.218 is 0.3 um of thickness"
    nominal = Case(DIN, "W 50 x 2 x 24", "derived", {}, "3.0261", unit=MM, slack=4e-4, because=why)
    assert found.best is not None
    assert found.best.width is not None
    nominal.check(found.best.width)


@pytest.mark.parametrize(
    ("teeth", "pitch", "printed"),
    [
        (9, "16/32", 0.625), (11, "16/32", 0.75), (12, "16/32", 0.8125), (13, "16/32", 0.875),
        (14, "12/24", 1.25), (14, "10/20", 1.5), (13, "8/16", 1.75),
    ],
)  # fmt: skip
def test_catalogue_diameters(teeth: int, pitch: str, printed: float) -> None:
    """A stockholder's table of hubs (mark: published): its sizes lead; the angle stays open."""
    found = identify(
        "external", Readings(teeth=teeth, major_diameter=Measured(printed * INCH, 0.05 * MM), flanks="curved")
    )
    assert found.candidates[0].candidate.pitch == pitch
    assert found.verdict == "cannot tell"
    assert found.next_reading is not None


@pytest.mark.parametrize(("size", "width"), [("6x23x26", 6.0), ("8x52x60", 10.0), ("10x112x125", 18.0)])
def test_iso_14_shaft(size: str, width: float) -> None:
    """ISO 14:1982 (BS 5686:1986), table rows N x d x D, B (mark: published); shaft amid its printed fits."""
    teeth, minor, major = (int(number) for number in size.split("x"))
    found = identify(
        "external",
        Readings(
            teeth=teeth,
            major_diameter=Measured((major - 0.35) * MM, 0.05 * MM),
            minor_diameter=Measured((minor - 0.02) * MM, 0.02 * MM),
            width=Measured((width - 0.05) * MM, 0.02 * MM),
        ),
    )
    assert found.verdict == "identified"
    assert best(found) == size


@pytest.mark.parametrize(
    ("fit", "minor"), [("A", (0.899, 0.900)), ("B", (0.849, 0.850)), ("C", (0.799, 0.800))]
)
def test_sae_hub_of_one_inch(fit: str, minor: tuple[float, float]) -> None:
    """SAE J499: D 0.999/1.000, W 0.248/0.250, minor diameters of the three fits (mark: published)."""
    for index in (0, 1):
        found = identify(
            "internal",
            Readings(
                teeth=6,
                major_diameter=Measured((0.999, 1.000)[index] * INCH, 0.03 * MM),
                minor_diameter=Measured(minor[index] * INCH, 0.03 * MM),
                width=Measured((0.248, 0.250)[index] * INCH, 0.03 * MM),
            ),
        )
        assert best(found) == f"6-spline, 1 in, 6{fit}"


def test_sae_fits_are_not_told_apart_by_outside_diameter_and_width() -> None:
    found = identify(
        "internal", Readings(teeth=6, major_diameter=Measured(1.0 * INCH), width=Measured(0.25 * INCH))
    )
    assert found.verdict == "cannot tell"
    assert found.next_reading is not None
    assert found.next_reading.kind == "minor diameter"


# ---- drill bits: 12 teeth, 5/10, internal, bits of 0.374 and 0.375 in, 1.885 in between them ----
PAIR = PinPair(Measured(1.885 * INCH), Measured(0.3745 * INCH, 0.0005 * INCH))


def drill_bits() -> Identification:
    return identify("internal", Readings(teeth=12, pins=(PAIR,), module=INCH / 5))


@pytest.mark.parametrize(
    ("angle", "printed"), [(30.0, "0.3594"), (37.5, "0.3702"), (45.0, "0.3936")]
)  # worked out independently from the reading
def test_drill_bits_space_width(angle: float, printed: str) -> None:
    case = Case(BITS, f"space width at {angle:g} deg", "derived", {}, printed, unit=INCH)
    case.check(float(space_from_pins(12, INCH / 5, math.radians(angle), 1.885 * INCH, 0.3745 * INCH)))
    widths = {
        round(math.degrees(r.candidate.pressure_angle or 0.0), 1): r.width for r in drill_bits().candidates
    }
    case.check(widths[angle] or 0.0)


def test_drill_bits_get_no_single_answer() -> None:
    found = drill_bits()
    assert found.verdict == "cannot tell"
    assert found.best is None


def test_drill_bits_may_have_been_another_pin() -> None:
    """With the pin that tables give, 0.3456 in, a new 30 deg hub reads 1.8867 in."""
    first = drill_bits().pin_doubts[0]
    assert first.designation.startswith("12T 5/10 30 deg")
    Case(BITS, "tabulated pin", "from memory", {}, "0.3456", unit=INCH).check(first.pin)
    Case(BITS, "reading with that pin", "derived", {}, "1.8867", unit=INCH).check(first.reading)


def test_drill_bits_or_else_excess_space() -> None:
    flat = next(r for r in drill_bits().candidates if r.candidate.root == "flat")
    assert not flat.allowed
    Case(BITS, "excess space at 30 deg", "derived", {}, "1.15", unit=MM).check(flat.excess or 0.0)
    assert any("1.15 mm" in reason for reason in drill_bits().reasons)


def test_drill_bits_leave_37_and_45_degrees_undecided_and_ask_for_another_pin() -> None:
    found = drill_bits()
    assert any("37.5 deg" in note and "45 deg" in note for note in found.indistinguishable)
    assert found.next_reading is not None
    assert found.next_reading.kind == "between pins"
    assert found.next_reading.pin is not None
    assert abs(found.next_reading.pin - 0.3745 * INCH) > 0.5 * MM


def test_a_shaft_taken_for_one_inch() -> None:
    """0.982 in was sold as 1 in and is 25 mm (mark: common practice, no source)."""
    from torqcheck.geometry.identifying.near_miss import near_miss

    near = near_miss(0.982 * INCH, "in")
    assert near is not None
    assert (near.words, near.own) == ("25 mm", "1 in")
    Case(MACHINE, "0.982 in in mm", "derived", {}, "24.94", unit=MM).check(0.982 * INCH)


def test_one_tooth_apart_and_almost_the_same_diameter() -> None:
    """One tooth may hide behind 0.010 in of outside diameter (mark: common practice, no source).

    27 teeth 24/48 and 28 teeth of DIN 5480 30 x 1 lie closer than that: only the count decides.
    """
    one = next(p for p in candidates(27) if p.designation == "27T 24/48 30 deg flat root")
    other = next(p for p in candidates(28) if p.designation == "30 x 1 x 28")
    tips = [p.rooms["external"].major_diameter.basic for p in (one, other)]
    assert abs(tips[1] - tips[0]) < 0.010 * INCH
    found = identify("external", Readings(teeth=27, major_diameter=Measured(29.63 * MM, 0.05 * MM)))
    assert best(found) == one.designation
    assert {n.teeth: n.fits for n in found.neighbours}[28] == f"din 5480 {other.designation}"
