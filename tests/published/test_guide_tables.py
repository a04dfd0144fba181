"""Tables of the spline guide: Dudley 1957 and Machinery's Handbook.

Allowable shear and flank stresses were read in two reproductions of Dudley's Tables I and V, the life
factors on a page of the handbook (Tables 9 and 10), application and load distribution factors on an
engineering reference page that follows it. The tensile column and the inch widths of the load
distribution table are from memory. The numbers below were typed from those, not from the shipped
tables.
"""

import math

import pytest
from published._case import Case

from torqcheck.materials import allowable_stresses, application_factor, fatigue_life_factor, source, table

DUDLEY = "Dudley, When Splines Need Stress Control, 1957"
HANDBOOK = "Machinery's Handbook, involute splines"
REFERENCE_PAGE = "Engineering reference page on spline design factors"
PSI = 6894.757293168

# class: shear, flank straight, flank crowned (published), tension (from memory); psi
ALLOWABLES = {
    "HB160_200": ("20000", "1500", "6000", "22000"),
    "HB230_260": ("30000", "2000", "8000", "32000"),
    "HB302_351": ("40000", "3000", "12000", "45000"),
    "SH48_53": ("40000", "4000", "16000", "45000"),
    "CH58_63": ("50000", "5000", "20000", "55000"),
    "TH42_46": ("45000", "", "", "50000"),
}
# band limits: HB least, most, HRC least, most
BANDS = {
    "HB160_200": ("160", "200", "", ""),
    "HB230_260": ("230", "260", "", ""),
    "HB302_351": ("302", "351", "33", "38"),
    "SH48_53": ("", "", "48", "53"),
    "CH58_63": ("", "", "58", "63"),
}
# MPa as the guide is usually converted: shear, straight, crowned, tension
IN_MPA = {
    "HB160_200": ("137.9", "10.3", "41.4", "151.7"),
    "HB230_260": ("206.8", "13.8", "55.2", "220.6"),
    "HB302_351": ("275.8", "20.7", "82.7", "310.3"),
    "SH48_53": ("275.8", "27.6", "110.3", "310.3"),
    "CH58_63": ("344.7", "34.5", "137.9", "379.2"),
}

LOADS = ("uniform", "light shock", "intermittent shock", "heavy shock")
APPLICATION = {
    "uniform": ("1.0", "1.2", "1.5", "1.8"),
    "light shock": ("1.2", "1.3", "1.8", "2.1"),
    "medium shock": ("2.0", "2.2", "2.4", "2.8"),
}

WIDTHS = (0.5, 1.0, 2.0, 4.0)  # in, from memory; the page read prints 12, 25, 50 and 100 mm
DISTRIBUTION = {
    0.001: (1, 1, 1, 1.5),
    0.002: (1, 1, 1.5, 2),
    0.004: (1, 1.5, 2, 2.5),
    0.008: (1.5, 2, 2.5, 3),
}

FATIGUE = {
    1e3: ("1.8", "1.8"),
    1e4: ("1.0", "1.0"),
    1e5: ("0.5", "0.4"),
    1e6: ("0.4", "0.3"),
    1e7: ("0.3", "0.2"),
}
WEAR = {1e4: "4.0", 1e5: "2.8", 1e6: "2.0", 1e7: "1.4", 1e8: "1.0", 1e9: "0.7", 1e10: "0.5"}


@pytest.mark.parametrize("name", ALLOWABLES)
def test_allowable_stresses(name: str) -> None:
    ours = allowable_stresses(name)
    columns = (ours.shear, ours.flank_straight, ours.flank_crowned, ours.tension)
    for i, (printed, value) in enumerate(zip(ALLOWABLES[name], columns, strict=True)):
        if printed:
            mark = "from memory" if i == 3 else "published"
            Case(DUDLEY, f"Tables I and V, {name}", mark, {}, printed, unit=PSI).check(value)
    assert ours.source.mark == "published"
    assert ours.tension_source.mark == "from memory"


@pytest.mark.parametrize("name", IN_MPA)
def test_allowable_stresses_in_megapascal(name: str) -> None:
    ours = allowable_stresses(name)
    columns = (ours.shear, ours.flank_straight, ours.flank_crowned, ours.tension)
    for printed, value in zip(IN_MPA[name], columns, strict=True):
        Case(DUDLEY, f"Tables I and V, {name}", "derived", {}, printed, unit=1e6).check(value)


def test_aircraft_band_has_no_flank_pressure_of_its_own() -> None:
    row = next(row for row in table("allowables") if row["hardness_class"] == "TH42_46")
    assert (row["flank_straight_psi"], row["flank_crowned_psi"]) == ("", "")
    ours, floor = allowable_stresses("TH42_46"), allowable_stresses("HB302_351")
    assert (ours.flank_straight, ours.flank_crowned) == (floor.flank_straight, floor.flank_crowned)
    assert "302 to 351 HB" in ours.note


def test_hardness_bands() -> None:
    names = ("hardness_min_HB", "hardness_max_HB", "hardness_min_HRC", "hardness_max_HRC")
    shipped = {
        row["hardness_class"]: tuple(row[name] for name in names)
        for row in table("allowables")
        if row["hardness_class"] != "TH42_46"
    }
    assert shipped == BANDS


@pytest.mark.parametrize("character", APPLICATION)
@pytest.mark.parametrize("load", LOADS)
def test_application_factor(character: str, load: str) -> None:
    printed = APPLICATION[character][LOADS.index(load)]
    case = Case(REFERENCE_PAGE, f"application factor, {character}, {load}", "published", {}, printed)
    case.check(application_factor(character, load))


def test_load_distribution_factors() -> None:
    shipped = {
        (float(row["misalignment_mm_mm"]), float(row["face_width_in"])): float(row["factor"])
        for row in table("load_distribution_factors")
    }
    printed = {
        (misalignment, width): factor
        for misalignment, factors in DISTRIBUTION.items()
        for width, factor in zip(WIDTHS, factors, strict=True)
    }
    assert shipped == printed


@pytest.mark.parametrize("misalignment", DISTRIBUTION)
def test_load_distribution_follows_the_end_gap_alone(misalignment: float) -> None:
    """Derived: Km = max(1, 1 + 0.5 log2(e / 0.0508 mm)), e the gap at the end, exact in all cells."""
    for width, factor in zip(WIDTHS, DISTRIBUTION[misalignment], strict=True):
        gap = misalignment * width * 25.4
        assert max(1.0, 1.0 + 0.5 * math.log2(gap / 0.0508)) == pytest.approx(factor, abs=1e-12)


def test_printed_metric_widths_of_the_load_distribution_table() -> None:
    shipped = {
        (float(row["face_width_in"]), float(row["face_width_printed_mm"]))
        for row in table("load_distribution_factors")
    }
    assert shipped == {(0.5, 12.0), (1.0, 25.0), (2.0, 50.0), (4.0, 100.0)}


@pytest.mark.parametrize("cycles", FATIGUE)
@pytest.mark.parametrize("reversed_torque", [False, True], ids=["one way", "reversed"])
def test_fatigue_life_factor(cycles: float, reversed_torque: bool) -> None:
    printed = FATIGUE[cycles][reversed_torque]
    ours = fatigue_life_factor(cycles, reversed_torque)
    Case(HANDBOOK, f"Table 9, {cycles:g} cycles", "published", {}, printed).check(ours.value)
    assert ours.value == float(printed)
    assert not ours.extrapolated


def test_wear_life_factors() -> None:
    assert {float(row["revolutions"]): float(row["factor"]) for row in table("wear_life_factors")} == {
        revolutions: float(printed) for revolutions, printed in WEAR.items()
    }


@pytest.mark.parametrize("revolutions", WEAR)
def test_wear_life_factor_follows_a_power_law(revolutions: float) -> None:
    """Derived: Kw = 2^((8 - log10 revolutions)/2), within the rounding of the table."""
    case = Case(HANDBOOK, f"Table 10, {revolutions:g} revolutions", "published", {}, WEAR[revolutions])
    case.check(2.0 ** ((8.0 - math.log10(revolutions)) / 2.0))


def test_marks_of_the_guide_tables() -> None:
    for name in (
        "application_factors",
        "load_distribution_factors",
        "fatigue_life_factors",
        "wear_life_factors",
    ):
        assert {source(row).mark for row in table(name)} == {"published"}
    assert {row["face_width_mark"] for row in table("load_distribution_factors")} == {"from memory"}
