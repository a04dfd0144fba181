"""Steels whose strength does not come from a row: unknown, softened by a weld, or as measured."""

import re
from dataclasses import replace

from torqcheck.errors import DomainError
from torqcheck.materials.allowables import class_of, hardness_class
from torqcheck.materials.hardness import SOFTEST_BRINELL, hv_from_hb
from torqcheck.materials.hardness_strength import (
    ultimate_strength_from_hb,
    yield_strength_of_unknown_state,
)
from torqcheck.materials.readings import Hardness
from torqcheck.materials.steels import Steel
from torqcheck.provenance import Source, weakest_mark

__all__ = ["as_measured", "softened_by_welding", "unknown_steel", "without_case"]

_LOWEST_BAND = 160.0  # HB, low end of the softest band of the guide
_HARD_CASE = 432.0  # HB: above it a reading is more often that of a case than of a whole bar
_SOUNDEST = 351.0  # HB, as hard as a steel of which nothing is known is hoped to be
_THIN_SKIN = 0.25e-3  # m: a thin case; nobody knows the depth of this one (common practice, no source)
_BRINELL_ENDS = 615.0
_DERATING = 0.9  # converted strengths are indicative
_PLAIN_CARBON = re.compile(r"(AISI |SAE )?10\d\d|C\d\d")
_WORK = "Own choice of this project"


def unknown_steel(hardness_hb: float | None = None, *, soundest: bool = False) -> Steel:
    """
    Return a steel of which nothing is known, or nothing but a hardness reading on the part.

    Parameters
    ----------
    hardness_hb : float, HB, optional
        Reading less its tolerance; above 615 HB give 615.
    soundest : bool, optional
        Take what no reading proves, the whole or the core under a hard skin, at 351 HB instead of at 160.

    Returns
    -------
    Steel
        In the lowest band that the hardness allows (the lowest of all without one), with the
        strengths that the hardness proves whatever the state of the steel, times 0.9. Mark: assumed.

    Raises
    ------
    DomainError
        If hardness_hb lies outside 80 to 615 HB.

    Notes
    -----
    Above 432 HB (46 HRC) the reading is as likely that of a case on a soft core: the class of the
    guide is that of 302 to 351 HB, but the strength is that of the lowest band. The flank is as hard as
    it was read, down to 0.25 mm.
    """
    unread = _SOUNDEST if soundest else _LOWEST_BAND
    hardness = unread if hardness_hb is None else hardness_hb
    if not SOFTEST_BRINELL <= hardness <= _BRINELL_ENDS:
        raise DomainError(f"hardness must lie between 80 and 615 HB, not at {hardness:g}")
    skin = hardness > _HARD_CASE
    core = unread if skin else hardness
    where = (
        "lowest hardness band of all" if hardness_hb is None else f"lowest band that {hardness:g} HB allows"
    )
    flags = ["unknown steel: file, spark and portable hardness test would narrow it"]
    if skin:
        flags.append("a reading this hard may be that of a case: strength taken for the softest core")
    return Steel(
        id="unknown",
        grade="unknown steel",
        condition="unknown" if hardness_hb is None else f"measured {hardness:g} HB",
        ultimate_strength=ultimate_strength_from_hb(core),
        yield_strength=yield_strength_of_unknown_state(core),
        core_hardness_min=core,
        core_hardness_max=core,
        surface_hardness_min_hv=hv_from_hb(hardness) if skin else None,
        surface_hardness_max_hv=hv_from_hb(hardness) if skin else None,
        case_depth_min=_THIN_SKIN if skin else None,
        hardness_class=hardness_class(hardness),
        strength_factor=_DERATING,
        data_flag="; ".join(flags),
        source=Source(_WORK, where, "assumed"),
        constants_mark="assumed",
    )


def without_case(steel: Steel) -> Steel:
    """
    Return a steel without its hard surface: what lies beneath, all through.

    Parameters
    ----------
    steel : Steel
        Hardened at its surface or not.
    """
    return replace(
        steel,
        surface_treatment="none",
        surface_hardness_min=None,
        surface_hardness_max=None,
        surface_hardness_min_hv=None,
        surface_hardness_max_hv=None,
        case_depth_min=None,
        case_depth_max=None,
        hardness_class=hardness_class(steel.core_hardness_min),
    )


def softened_by_welding(steel: Steel) -> Steel:
    """
    Return a steel as a weld beside the teeth may have left it: as soft as annealed, no case.

    Taken at 160 HB and the strengths of that hardness times 0.9, never above the steel's own.
    One practitioner measured 18 HRC (218 HB) on teeth softened so. Mark: assumed.

    Parameters
    ----------
    steel : Steel
        Of the part before it was welded.
    """
    soft = min(_LOWEST_BAND, steel.core_hardness_min)
    factor = min(_DERATING, steel.strength_factor)
    soft_all_through = replace(steel, core_hardness_min=soft, core_hardness_max=soft)
    return replace(
        without_case(soft_all_through),
        condition=f"{steel.condition}; softened by a weld",
        ultimate_strength=min(ultimate_strength_from_hb(soft), steel.ultimate_strength),
        yield_strength=min(yield_strength_of_unknown_state(soft), steel.yield_strength),
        surface_mark=None,
        strength_factor=factor,
        strength_of="whole section",
        data_flag=_joined(steel.data_flag, "hardness beside the weld not measured, taken as annealed"),
        source=Source(_WORK, "annealed by a weld beside the teeth", "assumed"),
    )


def as_measured(steel: Steel, measured: Hardness) -> Steel:
    """
    Return a steel with the hardness that was measured on the part, less the tolerance.

    On a surface-hardened steel the reading is that of the surface, and the core stays as it is. On
    any other it sets hardness and strength: the ultimate strength from the hardness, the yield
    strength in the row's own ratio to it, both times 0.9. Plain carbon steel, whose skin may be
    harder than its core, is not taken to be stronger than its row; iron neither, and it loses
    strength in proportion to its hardness.

    Parameters
    ----------
    steel : Steel
        Of the part, by its row.
    measured : Hardness
        The reading with its tolerance.
    """
    low = measured.lowest
    name = class_of(steel, measured)
    flag = _joined(steel.data_flag, f"hardness as measured, {measured.text}")
    if steel.surface_treatment != "none":
        return replace(
            steel,
            surface_hardness_min=low.hrc,
            surface_hardness_max=measured.hrc,
            surface_hardness_min_hv=low.hv,
            surface_hardness_max_hv=measured.hv,
            surface_mark="measured",
            hardness_class=name,
            data_flag=flag,
        )
    hardness = _BRINELL_ENDS if low.hb is None else low.hb
    upper = _BRINELL_ENDS if measured.hb is None else measured.hb
    ultimate = ultimate_strength_from_hb(hardness)
    if steel.is_iron:
        ultimate = steel.ultimate_strength * min(1.0, hardness / steel.core_hardness_min)
    elif _PLAIN_CARBON.match(steel.grade):
        ultimate = min(ultimate, steel.ultimate_strength)
    return replace(
        steel,
        condition=f"{steel.condition}; measured {measured.text}",
        ultimate_strength=ultimate,
        yield_strength=ultimate * steel.yield_strength / steel.ultimate_strength,
        core_hardness_min=hardness,
        core_hardness_max=upper,
        hardness_class=name,
        strength_factor=min(_DERATING, steel.strength_factor),
        data_flag=flag,
        source=Source(
            steel.source.work,
            f"strength from the measured {measured.text} by the conversion list",
            weakest_mark(("derived", steel.source.mark)),
        ),
    )


def _joined(*flags: str) -> str:
    """Join flags into one text."""
    return "; ".join(flag for flag in flags if flag)
