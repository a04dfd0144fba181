"""Whether a weld can be trusted to be whole, and what its heat has done to the steel beside it."""

from collections.abc import Iterator, Sequence

from torqcheck.materials import Preheat, Steel, composition_of_grade, preheat_for, softened_by_welding
from torqcheck.scenario.kinds.weld import WeldJoint
from torqcheck.scenario.ledger import Ledger

__all__ = ["beside_weld", "warn_of_heat", "weigh_soundness"]

HARD_BRINELL = 230.0
"""HB: steel that hard was hardened, or hardened itself in air."""
READY_TO_CRACK = 0.65
"""Carbon equivalent above which slow cooling alone does not do."""
THICKEST = 0.4
HEATED = 15e-3
"""m: so far from a weld the hardness of teeth counts as drawn."""
FREEZING = 273.15

_HOW = (
    "two days after welding test all around for cracks with magnetic particles (dye where that cannot be "
    "had), and measure the hardness beside the weld: below 350 HV; then write crack_tested = true. Or write "
    "preheat and post_weld, if they were as needed"
)


def weigh_soundness(
    joint: WeldJoint, key: str, name: str, steels: Sequence[Steel], thickness: float, ledger: Ledger
) -> None:
    """
    Ask for a crack test where the steel, or what is known of the welding, makes cracks likely.

    No strength is left to compute in a weld that has cracked, and no crack shows in a reading of sizes;
    so a pass is not given on stress alone. It is not called a fail either: such welds do hold where they
    were preheated and relieved, and a test two days later tells. A statement of preheat and treatment
    clears steel that needs nothing more; sulphur, hard layers and unknown steel only the test can clear.
    """
    doubts = list(dict.fromkeys(doubt for steel in steels for doubt in _doubts(steel, joint, thickness)))
    if not doubts:
        return
    if not joint.crack_tested:
        ledger.miss(name, "soundness of the weld", _HOW)
    proved = " The crack test that is stated outweighs that." if joint.crack_tested else ""
    ledger.warn(f"{key} soundness", f"{name}: {'; '.join(doubts)}.{proved}")


def _doubts(steel: Steel, joint: WeldJoint, thickness: float) -> Iterator[str]:
    """Why the weld may have cracked on the side of one steel, in words."""
    composition = composition_of_grade(steel.grade)
    if composition is None:
        yield f"how readily {steel.id} cracks beside a weld is not known: it has no carbon equivalent here"
        return
    if composition.resulphurised:
        yield f"the sulphur of {steel.id} makes it crack hot, which no preheat prevents: no steel for a weld"
    if steel.surface_treatment != "none" and joint.post_weld != "heat treated":
        yield f"{steel.id} has a hard layer, which cracks in welding and is drawn beside it"
    preheat = _preheat(composition.carbon_equivalent, thickness)
    if preheat.needed and (joint.preheat is None or joint.preheat.value < preheat.least):
        yield (
            f"{steel.id}, carbon equivalent {composition.carbon_equivalent:.2f}, {thickness * 1e3:.0f} mm "
            f"thick{_by_diameter(joint)}, needs a preheat of "
            f"{preheat.least - FREEZING:.0f} to {preheat.most - FREEZING:.0f} C ({preheat.note}); "
            f"{_warmth(joint)}"
        )
    treated = joint.post_weld in {"stress relieved", "heat treated"}
    if steel.core_hardness_min > HARD_BRINELL and not treated:
        yield (
            f"{steel.id} was hardened before it was welded, which is advised against: it needs stress relief "
            "some 15 C below the temperature of its temper, or hardening and tempering anew"
        )
    elif composition.carbon_equivalent > READY_TO_CRACK and joint.post_weld in {None, "none"}:
        yield f"{steel.id} must be kept warm after welding and cooled slowly: post_weld does not say so"


def _preheat(equivalent: float, thickness: float) -> Preheat:
    return preheat_for(equivalent, min(thickness, THICKEST))


def _by_diameter(joint: WeldJoint) -> str:
    return "" if joint.thickness is not None else " (the diameter: no thickness is stated)"


def _warmth(joint: WeldJoint) -> str:
    return "none is stated" if joint.preheat is None else f"it was welded at {joint.preheat.text}"


def beside_weld(steel: Steel, joint: WeldJoint, key: str, ledger: Ledger) -> Steel:
    """Steel as the weld has left it: hardening and cold work are gone, unless it was hardened again."""
    worked = steel.core_hardness_min > HARD_BRINELL or steel.condition.startswith("cold")
    if joint.post_weld == "heat treated" or not worked:
        return steel
    ledger.assume_word(
        f"{key}.strength", "annealed beside the weld", "its heat takes hardening and cold work away"
    )
    return softened_by_welding(steel)


def warn_of_heat(joint: WeldJoint, key: str, name: str, ledger: Ledger) -> None:
    """Say where the weld is too near to teeth."""
    distance = joint.distance_to_teeth
    if distance is None or distance.value >= joint.diameter.value:
        return
    near = ""
    if distance.value <= HEATED:
        near = " So near the teeth count as annealed: write welded_near = true at that part of the spline."
    ledger.warn(
        f"{key} heat",
        f"{name}: the weld is {distance.text} from the teeth. Keep welds a diameter of the part away "
        f"({joint.diameter.value * 1e3:.0f} mm): the heat draws the teeth and pulls them out of round. "
        f"Harden and finish the teeth after welding, and measure their hardness.{near}",
    )
