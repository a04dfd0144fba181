"""Importance of Induction Hardened Case Depth in Torsional Applications, Heat Treating Progress, 2009.

Read in full; it reprints a list of strengths by hardness after SAE J413. One of its figures
contradicts the rest of the list and is mended.
"""

import pytest
from published._case import Case

from torqcheck.materials import hb_from_hrc, table, yield_strength_from_hb, yield_strength_of_unknown_state

SOURCE = "Importance of Induction Hardened Case Depth in Torsional Applications, 2009"

# HRC HB ultimate yield torsional yield (MPa)
PRINTED = (
    ("52", "514", "1793", "1614", "966"),
    ("50", "481", "1690", "1524", "917"),
    ("40", "371", "1276", "1152", "690"),
    ("30", "286", "966", "941", "503"),
    ("20", "226", "759", "614", "366"),
    ("10", "187", "655", "503", "303"),
    ("0", "150", "517", "366", "221"),
)


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: f"{row[0]} HRC")
def test_yield_by_hardness(row: tuple[str, ...]) -> None:
    hrc, hb, _, printed, torsional = row
    case = Case(SOURCE, f"row of {hrc} HRC", "published", {"hardness": float(hb)}, printed, unit=1e6)
    if hrc == "30":  # 941 MPa would make the torsional yield 0.53 of it; everywhere else it is 0.6
        assert yield_strength_from_hb(286.0) == pytest.approx(float(torsional) / 0.6 * 1e6, rel=1e-3)
        with pytest.raises(AssertionError, match="prints 941"):
            case.check(yield_strength_from_hb(**case.inputs))
        return
    case.check(yield_strength_from_hb(**case.inputs))
    assert float(torsional) / float(printed) == pytest.approx(0.6, abs=0.005)


@pytest.mark.parametrize(("hrc", "hb"), [row[:2] for row in PRINTED if row[0] != "52"], ids=str)
def test_hardness_pairs_agree_with_the_conversion_list(hrc: str, hb: str) -> None:
    Case(SOURCE, f"row of {hrc} HRC", "published", {}, hb).check(hb_from_hrc(float(hrc)))


def test_shipped_list_is_the_printed_one() -> None:
    shipped = {
        row["hardness_HRC"]: (
            row["hardness_HRC"],
            row["hardness_HB"],
            row["ultimate_MPa"],
            row["yield_printed_MPa"],
            row["torsional_yield_MPa"],
        )
        for row in table("hardness_yield")
    }
    assert shipped == {row[0]: row for row in PRINTED}


@pytest.mark.parametrize(
    ("hardness", "ultimate", "yields"),
    # Shigley, Mechanical Engineering Design, Table A-20, hot rolled rows (published): HB, MPa, MPa
    [(116, 400, 220), (111, 380, 210), (143, 500, 270), (163, 570, 310), (179, 620, 340)],
    ids=["1018", "1020", "1035", "1045", "1050"],
)
def test_hot_rolled_bar_yields_where_the_unknown_state_says(
    hardness: float, ultimate: float, yields: float
) -> None:
    """The printed yield lies above what is assumed for an unknown steel, and not far above."""
    assert 0.85 * yields * 1e6 < yield_strength_of_unknown_state(hardness) < yields * 1e6
    assert 0.54 <= yields / ultimate < 0.555
