"""Allowable stresses of the spline guide, by hardness band."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from torqcheck.errors import DomainError
from torqcheck.materials.columns import SURFACE_TREATMENTS
from torqcheck.materials.hardness import hb_from_hrc, hb_from_hv, hv_from_hb, hv_from_hrc
from torqcheck.materials.readings import Hardness
from torqcheck.materials.steels import Steel
from torqcheck.materials.tables import Row, number, optional_number, source, table
from torqcheck.provenance import Source

__all__ = [
    "BELOW_TABLE",
    "AllowableStresses",
    "HardnessBand",
    "allowable_stresses",
    "band_words",
    "class_of",
    "hardness_bands",
    "hardness_class",
    "softest_brinell",
]

BELOW_TABLE = "below HB160"
"""Class of steel softer than the softest band of the guide."""

_PSI = 6894.757293168  # Pa
_LOWEST, _HIGHEST, _AIRCRAFT = "HB160_200", "HB302_351", "TH42_46"
_SURFACE, _CASE = "SH48_53", "CH58_63"
_BRINELL_ENDS = 615.0
_SCALES = {"HB": "HB", "TH": "HRC through-hardened", "SH": "HRC surface-hardened", "CH": "HRC case-hardened"}


def band_words(hardness_class: str) -> str:
    """
    Name a band of the guide as people say it.

    Parameters
    ----------
    hardness_class : str
        The band as the tables name it.

    Returns
    -------
    str
        Both ends with their scale.

    Examples
    --------
    >>> band_words("HB302_351"), band_words("CH58_63"), band_words("below HB160")
    ('302 to 351 HB', '58 to 63 HRC case-hardened', 'below 160 HB')
    """
    scale = _SCALES.get(hardness_class[:2])
    if scale is None:
        return hardness_class.replace("HB160", "160 HB")
    return f"{hardness_class[2:].replace('_', ' to ')} {scale}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowableStresses:
    """The guide's limits for one hardness class, Pa, before any life factor.

    `source` stands for shear and flanks, `tension_source` for tension. `note` says what had to be
    decided that the guide leaves open; empty if nothing.
    """

    hardness_class: str
    shear: float
    flank_straight: float
    flank_crowned: float
    tension: float
    note: str
    source: Source
    tension_source: Source


@dataclass(frozen=True, slots=True)
class HardnessBand:
    """One band of the guide: its class, of which steel, and its ends in HV (of the surface if hardened)."""

    hardness_class: str
    description: str
    low: float
    high: float


def hardness_bands() -> tuple[HardnessBand, ...]:
    """
    Return the bands of the guide, softest first, on one scale.

    Examples
    --------
    >>> band = hardness_bands()[0]
    >>> band.hardness_class, band.low < band.high
    ('HB160_200', True)
    """
    bands = []
    for name, row in _rows().items():
        brinell = optional_number(row, "hardness_min_HB") is not None
        scale, vickers = ("HB", hv_from_hb) if brinell else ("HRC", hv_from_hrc)
        ends = (vickers(number(row, f"hardness_{end}_{scale}")) for end in ("min", "max"))
        bands.append(HardnessBand(name, row["description"], *ends))
    return tuple(bands)


def hardness_class(
    core_hb: float,
    surface_treatment: str = "none",
    surface_hrc: float | None = None,
    aircraft_quality: bool = False,
) -> str:
    """
    Return the class of the guide for a core and a surface: every gap goes to the band below.

    Parameters
    ----------
    core_hb : float, HB
        Low end of the core hardness; for a part that is not surface-hardened, of the part.
    surface_treatment : str
        "none", "induction", "carburised" or "nitrided".
    surface_hrc : float, HRC, optional
        Low end of the surface hardness.
    aircraft_quality : bool
        Whether the steel was bought to an aircraft specification.

    Returns
    -------
    str
        A class of allowables.csv, or "below HB160".

    Raises
    ------
    DomainError
        If core_hb is not a positive number or the treatment is unknown.

    Notes
    -----
    The band of 42 to 46 HRC is the guide's for aircraft quality alone, so other steel of 390 HB and
    more stays with the band of 302 to 351 HB, however hard. Aircraft quality above 432 HB stays with
    42 to 46 HRC. A nitrided case is too thin for the guide: its class is that of the core. A surface
    that is softer than its band asks for falls to the next band that it reaches, and in the end to
    the class of what is softer, surface or core.

    Examples
    --------
    >>> hardness_class(271.0)
    'HB230_260'
    >>> hardness_class(185.0, "carburised", surface_hrc=58.0)
    'CH58_63'
    """
    if not core_hb > 0.0:
        raise DomainError(f"core hardness must be a positive number of HB, not {core_hb:g}")
    if surface_treatment not in SURFACE_TREATMENTS:
        raise DomainError(
            f"surface treatment must be one of {', '.join(SURFACE_TREATMENTS)}, not {surface_treatment!r}"
        )
    core = _through_class(core_hb, aircraft_quality)
    if surface_hrc is None or surface_treatment == "none":
        return core
    if surface_treatment == "nitrided" or surface_hrc < _lowest_hrc(_SURFACE):
        surface_hb = hb_from_hrc(surface_hrc) if surface_hrc < _lowest_hrc(_SURFACE) else core_hb
        return _through_class(min(core_hb, surface_hb), aircraft_quality)
    return _CASE if surface_treatment == "carburised" and surface_hrc >= _lowest_hrc(_CASE) else _SURFACE


def class_of(steel: Steel, measured_hardness: Hardness | None = None) -> str:
    """
    Return the class of the guide for a steel, or for what was measured on the part itself.

    Parameters
    ----------
    steel : Steel
        Row of the tables, or an estimate.
    measured_hardness : Hardness, optional
        Reading on the part. Less its tolerance it overrides the hardness of the row. On a
        surface-hardened steel it is taken as that of the surface.
    """
    if measured_hardness is None:
        return steel.hardness_class
    aircraft = steel.hardness_class == _AIRCRAFT
    low = measured_hardness.lowest
    if steel.surface_treatment == "none":
        return hardness_class(_BRINELL_ENDS if low.hb is None else low.hb, aircraft_quality=aircraft)
    if low.hrc is not None:
        return hardness_class(steel.core_hardness_min, steel.surface_treatment, low.hrc, aircraft)
    softer = steel.core_hardness_min if low.hb is None else min(low.hb, steel.core_hardness_min)
    return hardness_class(softer, aircraft_quality=aircraft)


def softest_brinell(steel: Steel) -> float:
    """
    Return the Brinell hardness of flank or core, whichever is softer, low ends.

    Parameters
    ----------
    steel : Steel
        A row, with its measured hardness if there is one.
    """
    surface, core = steel.surface_hardness_min_hv, steel.core_hardness_min
    if surface is None and steel.surface_hardness_min is not None:
        surface = hv_from_hrc(steel.surface_hardness_min)
    return core if surface is None or surface >= hv_from_hb(core) else hb_from_hv(surface)


def allowable_stresses(hardness_class: str, core_hb: float | None = None) -> AllowableStresses:
    """
    Return the allowable stresses of the guide for a hardness class.

    Parameters
    ----------
    hardness_class : str
        As `hardness_class` returns it.
    core_hb : float, HB, optional
        Needed for "below HB160" alone: the guide ends there, and its lowest row is scaled down in
        proportion to the hardness.

    Raises
    ------
    DomainError
        If the class is unknown, or core_hb is missing or no hardness below 160 HB.

    Examples
    --------
    >>> print(f"{allowable_stresses('HB302_351').shear / 1e6:.1f} MPa")
    275.8 MPa
    """
    rows = _rows()
    if hardness_class == BELOW_TABLE:
        return _below_the_table(rows[_LOWEST], core_hb)
    if hardness_class not in rows:
        raise DomainError(
            f"there is no hardness class {hardness_class!r}; the classes are {', '.join(rows)}, {BELOW_TABLE}"
        )
    row, note, flank = rows[hardness_class], "", rows[hardness_class]
    if optional_number(row, "flank_straight_psi") is None:
        flank = rows[_HIGHEST]
        note = "the guide gives no flank pressure for this band; that of 302 to 351 HB is used"
    return _stresses(hardness_class, row, flank, note, source(row), source(row, "tension_mark"))


def _below_the_table(lowest: Row, core_hb: float | None) -> AllowableStresses:
    """Lowest row of the guide in proportion to the hardness."""
    least = number(lowest, "hardness_min_HB")
    if core_hb is None or not 0.0 < core_hb < least:
        raise DomainError(f"class {BELOW_TABLE!r} needs a core hardness below {least:g} HB, not {core_hb}")
    note = f"softer than the guide's lowest band; its stresses are scaled by {core_hb:g}/{least:g} HB"
    origin = Source(source(lowest).work, f"lowest row, scaled by {core_hb:g}/{least:g} HB", "assumed")
    return _stresses(BELOW_TABLE, lowest, lowest, note, origin, origin, core_hb / least)


def _stresses(
    name: str, row: Row, flank: Row, note: str, origin: Source, tension_origin: Source, scale: float = 1.0
) -> AllowableStresses:
    """Stresses of a row in Pa, the flank pressures from another row where it must be."""
    return AllowableStresses(
        hardness_class=name,
        shear=number(row, "shear_psi", _PSI * scale),
        flank_straight=number(flank, "flank_straight_psi", _PSI * scale),
        flank_crowned=number(flank, "flank_crowned_psi", _PSI * scale),
        tension=number(row, "tension_psi", _PSI * scale),
        note=note,
        source=origin,
        tension_source=tension_origin,
    )


def _through_class(hb: float, aircraft_quality: bool) -> str:
    """Highest band of through-hardened steel whose low end is reached."""
    reached = BELOW_TABLE
    for name, row in _rows().items():
        least = optional_number(row, "hardness_min_HB")
        if least is not None and hb >= least and (aircraft_quality or name != _AIRCRAFT):
            reached = name
    return reached


def _lowest_hrc(name: str) -> float:
    """Low end of a band of surface hardness."""
    return number(_rows()[name], "hardness_min_HRC")


@cache
def _rows() -> Mapping[str, Row]:
    """Rows of the guide by class, softest first."""
    return MappingProxyType({row["hardness_class"]: row for row in table("allowables")})
