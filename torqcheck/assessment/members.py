"""The two halves of a joint: which steel, how hard, and what stress is allowed."""

from dataclasses import dataclass

from torqcheck.checks import Member
from torqcheck.materials import (
    AllowableStresses,
    Hardness,
    Steel,
    allowable_stresses,
    as_measured,
    band_words,
    design_yield,
    hrc_from_hv,
    hv_from_hb,
    hv_from_hrc,
    softened_by_welding,
    softest_brinell,
    steel,
    unknown_steel,
    without_case,
)
from torqcheck.scenario import joint_schema
from torqcheck.scenario.joint_schema import SteelPart
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.sizes import worn_step
from torqcheck.scenario.steel_library import Library

__all__ = [
    "HARDNESS_APART",
    "MemberState",
    "core_unknown",
    "highest_vickers",
    "member_state",
    "steel_unknown",
    "surface_vickers",
]

HARDNESS_APART = 1.15
HARDEST_CLASS, HARDEST_VICKERS = "CH58_63", 653.0
BRINELL_ENDS = 615.0
BRITTLE_BAR, AIRCRAFT_CLASS = 42.0, "TH42_46"
"""HRC from which on the guide allows more only to steel of aircraft quality, and the class of that."""

_HOW_HARDNESS = "portable hardness tester or test files on the flank or end face"
_HOW_STEEL = "file, spark and hardness test; a spectrometer check where the answer matters"


@dataclass(frozen=True, slots=True)
class MemberState:
    """What one member can take. Pa, HV."""

    side: Member
    steel: Steel
    allowable: AllowableStresses
    yield_strength: float
    vickers: float


def member_state(
    side: Member,
    key: str,
    joint_name: str,
    member: SteelPart,
    diameter: float,
    library: Library,
    ledger: Ledger,
) -> MemberState:
    """
    Resolve the steel and the hardness of one member.

    Parameters
    ----------
    side : str
        ``external`` or ``internal`` in a spline, a plain shaft is external; else what the part is.
    key, joint_name : str
        Place in the scenario and name of the joint.
    member : SteelPart
        What the file says.
    diameter : float
        Largest thickness of the metal, m; the section for which the row must hold.
    library : tuple of mappings
        Own tables of steels.
    ledger : Ledger
        Takes assumptions, missing readings and cautions.
    """
    found = _steel(side, key, joint_name, member, library, ledger)
    if member.welded_near:
        found = _welded(found, key, joint_name, ledger)
    elif member.hardness is not None and not steel_unknown(member):
        _warn_of_other_steel(found, member.hardness, key, joint_name, _words(side, member), ledger)
        found = as_measured(found, member.hardness)
    found = _worn_through(found, member, key, joint_name, ledger)
    _ask_for_hardness(side, key, joint_name, member, ledger)
    _warn_of_section(found, diameter, key, joint_name, ledger)
    _warn_of_hard_bar(found, key, joint_name, _words(side, member), ledger)
    name, vickers = found.hardness_class, surface_vickers(found)
    if (
        ledger.outlook == "favourable"
        and steel_unknown(member)
        and member.hardness is None
        and not member.welded_near
    ):
        name, vickers = HARDEST_CLASS, HARDEST_VICKERS
    allowable = allowable_stresses(name, softest_brinell(found))
    if allowable.note and side in {"external", "internal"}:
        ledger.warn(f"{key} allowables", f"{joint_name}, {_words(side, member)}: {allowable.note}.")
    return MemberState(side, found, allowable, design_yield(found), vickers)


def core_unknown(found: Steel) -> bool:
    """Whether nothing is known of a part but that its skin is hard."""
    return found.id == "unknown" and found.case_depth_min is not None


def _words(side: Member, part: SteelPart) -> str:
    """A part in words: only a spline has an external and an internal member."""
    if isinstance(part, joint_schema.Member):
        return f"{side} member"
    return "shaft" if side == "external" else side


def steel_unknown(member: SteelPart) -> bool:
    """Whether the file says that the steel of a part is not known."""
    return member.steel.strip().lower() == "unknown"


def _steel(
    side: Member, key: str, joint_name: str, member: SteelPart, library: Library, ledger: Ledger
) -> Steel:
    """Return the row that the file names, or the worst that an unknown steel can be."""
    if not steel_unknown(member):
        return steel(member.steel, library)
    low = None
    if member.hardness is not None:
        low = member.hardness.lowest.hb or BRINELL_ENDS
    found = unknown_steel(low, soundest=ledger.outlook == "favourable")
    skin = core_unknown(found)
    ledger.assume_word(
        f"{key}.steel",
        f"unknown, taken as one of {band_words(found.hardness_class)}"
        + (f" under a hard skin, with a core of {found.core_hardness_min:.0f} HB" if skin else ""),
        "the lowest band that the measured hardness allows, the lowest of all without one",
    )
    if skin:
        _warn_of_skin(key, f"{joint_name}, {_words(side, member)}", ledger)
    ledger.warn(
        "unknown steel",
        f"Where a steel is not known, test it: {_HOW_STEEL}. Never file or spark a working flank or a seal "
        "land.",
    )
    ledger.warn(
        f"{key} unknown steel",
        f"{joint_name}: the steel of the {_words(side, member)} is not known.",
    )
    return found


def _warn_of_skin(key: str, part: str, ledger: Ledger) -> None:
    ledger.warn(
        f"{key} hard skin",
        f"{part}: an unknown steel that reads so hard may be so in its skin alone. Its strength counts as "
        "that of the softest steel, its wear as that of the hardness read. How deep the skin goes is not "
        "known: where a worn step can be felt, read the hardness in it.",
    )


def _welded(found: Steel, key: str, joint_name: str, ledger: Ledger) -> Steel:
    """Near a weld the hardness counts as annealed, whatever was measured elsewhere on the part."""
    ledger.assume_word(
        f"{key}.hardness", "annealed by the weld", "a weld within about 15 mm of the teeth draws the temper"
    )
    ledger.warn(
        f"{key} weld",
        f"{joint_name}: welding on or beside hardened teeth draws the temper and can crack the steel; "
        "crack-test, and measure the hardness at the teeth; with that reading, leave welded_near out.",
    )
    return softened_by_welding(found)


def _warn_of_other_steel(
    found: Steel, measured: Hardness, key: str, joint_name: str, part: str, ledger: Ledger
) -> None:
    """A hardness far from that of the row is more likely another steel than another heat."""
    if measured.hv is None:
        return
    low, high = surface_vickers(found), highest_vickers(found)
    if not low / HARDNESS_APART <= measured.hv <= high * HARDNESS_APART:
        ledger.warn(
            f"{key} other steel",
            f"{joint_name}, {part}: {measured.text} is far from the {low:.0f} to {high:.0f} HV of "
            f"{found.id}. Is it that steel, and was the flank measured?",
        )


def highest_vickers(found: Steel) -> float:
    """Vickers hardness of the flank, high end."""
    if found.surface_hardness_max_hv is not None:
        return found.surface_hardness_max_hv
    if found.surface_hardness_max is not None:
        return hv_from_hrc(found.surface_hardness_max)
    return hv_from_hb(found.core_hardness_max)


def _worn_through(found: Steel, member: SteelPart, key: str, joint_name: str, ledger: Ledger) -> Steel:
    """Where the worn band is deeper than the case, the flank is that of the core."""
    if found.case_depth_min is None or not isinstance(member, joint_schema.Member):
        return found
    if worn_step(member) < found.case_depth_min:
        return found
    ledger.warn(
        f"{key} case",
        f"{joint_name}: the worn band is as deep as the hard case ({found.case_depth_min * 1e3:.2f} mm); the "
        "flank counts as the core. Renew the part.",
    )
    return without_case(found)


def surface_vickers(found: Steel) -> float:
    """Vickers hardness of the flank, low end: what wear depends on."""
    if found.surface_hardness_min_hv is not None:
        return found.surface_hardness_min_hv
    if found.surface_hardness_min is not None:
        return hv_from_hrc(found.surface_hardness_min)
    return hv_from_hb(found.core_hardness_min)


def _ask_for_hardness(side: Member, key: str, joint_name: str, member: SteelPart, ledger: Ledger) -> None:
    """A reused part, or one that may be, needs a hardness reading before a pass."""
    if member.reused is None:
        ledger.assume_word(f"{key}.reused", "true", "not stated; an old part is assumed")
    if member.hardness is None and member.reused is not False and not member.welded_near:
        ledger.miss(joint_name, f"hardness of the {_words(side, member)}", _HOW_HARDNESS)
    elif member.hardness is None and steel_unknown(member):
        ledger.miss(joint_name, f"steel or hardness of the {_words(side, member)}", _HOW_STEEL)


def _warn_of_section(found: Steel, diameter: float, key: str, joint_name: str, ledger: Ledger) -> None:
    """A thicker bar of the same steel is weaker."""
    if found.section_max is not None and diameter > found.section_max:
        ledger.warn(
            f"{key} section",
            f"{joint_name}: the row {found.id} holds up to {found.section_max * 1e3:.0f} mm, the part is "
            f"about {diameter * 1e3:.0f} mm thick; a thicker bar of the same steel is weaker. "
            "Choose the row of its section.",
        )


def _warn_of_hard_bar(found: Steel, key: str, joint_name: str, part: str, ledger: Ledger) -> None:
    """A bar that is as hard inside as outside has nothing tough to stop a crack."""
    vickers = surface_vickers(found)
    cased = found.case_depth_min is not None
    if cased or vickers < hv_from_hrc(BRITTLE_BAR) or found.hardness_class == AIRCRAFT_CLASS:
        return
    ledger.warn(
        f"{key} hard bar",
        f"{joint_name}, {part}: {hrc_from_hv(vickers):.0f} HRC, and no hard layer on a tough core is "
        "stated. Steel that hard all through is brittle, above all in frost: it breaks without a warning "
        "where a root is sharp or a tool has left a mark. Round and polish the roots and crack-test them, or "
        "take 28 to 32 HRC (common practice, no source).",
    )
