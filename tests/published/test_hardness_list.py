"""Conversion list of the ASTM E140 kind, read in a stockholder's reprint, and its soft end.

The soft end, with Rockwell B, was read where a steel data sheet prints it. Every printed row is held
against the converters; none of these numbers was taken from the shipped table.
"""

import pytest
from published._case import Case

from torqcheck.materials import (
    hb_from_hrb,
    hb_from_hrc,
    hb_from_hv,
    hrc_from_hb,
    hrc_from_hv,
    hv_from_hb,
    hv_from_hrc,
    tabulated_strength_from_hb,
    ultimate_strength_from_hb,
)

SOURCE = "Hardness conversion list of the ASTM E140 kind, stockholder's reprint"
SOFT = "Hardness and strength list, Rockwell B part, printed with a steel data sheet"
KSI = 6.894757e6

# HRC HV HB ksi; "-" where the list prints nothing
HARD_ROWS = """
    68 940 - -     67 900 - -     66 865 - -     65 832 - -     64 800 - -     63 772 - -     62 746 - -
    61 720 - -     60 697 - -     59 674 - 351   58 653 615 338 57 633 595 325 56 613 577 313 55 595 560 301
    54 577 543 292 53 560 525 283 52 544 512 273 51 528 496 264 50 513 481 255 49 498 469 246 48 484 451 238
    47 471 442 229 46 458 432 221 45 446 421 215 44 434 409 208 42 412 390 194 40 392 371 182 38 372 353 171
    36 354 336 161 34 336 319 152 32 318 301 146 30 302 286 138 28 286 271 131 26 272 258 125 24 260 247 119
    22 248 237 115 20 238 226 110
"""
# HRB HB ksi
SOFT_ROWS = """
    99.0 237 114   97.8 226 110   96.4 217 105   94.6 207 100   92.8 197 95   90.7 187 90   87.8 174 85
    86.0 167 81    82.9 156 76    78.7 143 71    74.0 131 65    69.8 121 60   65.7 111 56
"""
HARD = [tuple(HARD_ROWS.split()[i : i + 4]) for i in range(0, len(HARD_ROWS.split()), 4)]
SOFT_LIST = [tuple(SOFT_ROWS.split()[i : i + 3]) for i in range(0, len(SOFT_ROWS.split()), 3)]


def test_the_lists_are_whole() -> None:
    assert (len(HARD), len(SOFT_LIST)) == (37, 13)


@pytest.mark.parametrize(("hrc", "hv", "hb", "ksi"), HARD, ids=lambda text: text)
def test_row_of_rockwell_c(hrc: str, hv: str, hb: str, ksi: str) -> None:
    where = f"row of {hrc} HRC"
    Case(SOURCE, where, "published", {}, hv).check(hv_from_hrc(float(hrc)))
    Case(SOURCE, where, "published", {}, hrc).check(hrc_from_hv(float(hv)))
    if hb == "-":
        return
    Case(SOURCE, where, "published", {}, hb).check(hb_from_hrc(float(hrc)))
    Case(SOURCE, where, "published", {}, hrc).check(hrc_from_hb(float(hb)))
    Case(SOURCE, where, "published", {}, hv).check(hv_from_hb(float(hb)))
    Case(SOURCE, where, "published", {}, hb).check(hb_from_hv(float(hv)))
    if hrc != "22":  # at 237 HB the soft list is lower by 1 ksi, and is taken
        Case(SOURCE, where, "published", {}, ksi, unit=KSI).check(tabulated_strength_from_hb(float(hb)))


@pytest.mark.parametrize(("hrb", "hb", "ksi"), SOFT_LIST, ids=lambda text: text)
def test_row_of_rockwell_b(hrb: str, hb: str, ksi: str) -> None:
    where = f"row of {hrb} HRB"
    Case(SOFT, where, "published", {}, hb).check(hb_from_hrb(float(hrb)))
    Case(SOFT, where, "published", {}, ksi, unit=KSI).check(tabulated_strength_from_hb(float(hb)))


def test_printed_pair_of_4140() -> None:
    # ASM values of AISI 4140, oil quenched, tempered 540 C: 951 MPa (published), 285 HB (from memory)
    case = Case("ASM values of AISI 4140", "tempered at 540 C", "from memory", {"hardness": 286.0}, "951")
    case.check(tabulated_strength_from_hb(**case.inputs) / 1e6)


def test_textbook_rule_lies_above_the_low_side_by_five_percent_at_most() -> None:
    # Shigley, Mechanical Engineering Design, Eq. (2-21), from memory: Sut = 500 HB psi = 3.4 HB MPa.
    for hardness in range(131, 372):
        rule = 500.0 * hardness * 6894.757
        assert 0.95 * rule < ultimate_strength_from_hb(float(hardness)) < rule
        assert ultimate_strength_from_hb(float(hardness)) < 3.4e6 * hardness


def test_strength_over_hardness_of_the_printed_rows() -> None:
    """The low side is 3.29 MPa per HB: no printed row between 20 and 42 HRC lies below it by 0.2 %."""
    ratios = [float(ksi) * KSI / float(hb) for hrc, _, hb, ksi in HARD if hb != "-" and float(hrc) <= 42]
    assert 0.998 * 3.29e6 < min(ratios) < 1.002 * 3.29e6
