"""What the report says of a bolted flange, and what to beware of."""

from torqcheck.assessment.kinds.flange_state import FlangeState
from torqcheck.assessment.kinds.spoken import in_kn, in_mm, three_digits
from torqcheck.capacity.joining import hole_spacing, preload_from_torque, share_of_proof, tightening_torque
from torqcheck.materials import nut_factor
from torqcheck.scenario.kinds.flange import BoltedFlangeJoint
from torqcheck.scenario.ledger import Ledger

__all__ = ["flange_notes", "warn_of_flange", "warn_of_path"]

USUAL, PERMANENT = 0.75, 0.90
"""Usual shares of the proof load, for bolts that are taken out again and for those that stay."""
LEAST_PITCH, LEAST_EDGE, LEAST_THICKNESS, LEAST_THREAD = 2.5, 2.0, 0.8, 1.0
"""In bolt diameters: hole to hole, hole to edge, flange, thread in tapped steel; common practice."""
STRUCTURAL = frozenset({"as rolled", "wire-brushed", "zinc silicate paint", "blasted"})
WAX_TELLS = 1.05


def flange_notes(state: FlangeState) -> tuple[str, ...]:
    """Sentences for the report: preload, radius, what counts in shear, which torque would be usual."""
    return (
        _preload(state),
        _usual_torque(state),
        f"Friction radius: {in_mm(state.face_radius)} mm by the mean of the face, "
        f"{in_mm(state.circle_radius)} mm by the bolt circle (a thin flange grips near its bolts only); "
        "the grip takes the smaller.",
        _shear(state),
        "Friction, bolts and dowels are paths beside one another and are never added: the grip breaks before "
        "the others bear. One path holds the joint, the others are shown beside it.",
    )


def _preload(state: FlangeState) -> str:
    preload, bolt = state.preload, state.bolt
    share = float(share_of_proof(preload.meant, bolt.tensile_area, bolt.strength.proof))
    by = "Each bolt has"
    if preload.torque is not None and preload.factor is not None:
        by = f"{three_digits(preload.torque)} N m with a nut factor K of {preload.factor:.2f} give each bolt"
    return (
        f"{by} {in_kn(preload.meant)} kN, {100 * share:.0f} % of its proof load of "
        f"{in_kn(bolt.proof_load)} kN ({preload.words}). It may be {in_kn(preload.least)} to "
        f"{in_kn(preload.greatest)} kN; "
        f"{in_kn(state.grip_force)} kN of the least are left when the faces have settled. The bolt check "
        "passes up to the proof load and fails above the yield load."
    )


def _usual_torque(state: FlangeState) -> str:
    bolt, factor = state.bolt, state.preload.factor or nut_factor("plain").factor
    torques = [
        three_digits(float(tightening_torque(share * bolt.proof_load, bolt.thread.diameter, factor)))
        for share in (USUAL, PERMANENT)
    ]
    return (
        f"With K = {factor:.2f}, {torques[0]} N m bring a bolt to {100 * USUAL:.0f} % of its proof load, "
        f"usual for bolts that are taken out again, and {torques[1]} N m to {100 * PERMANENT:.0f} %, for "
        "those that stay."
    )


def _shear(state: FlangeState) -> str:
    section = "the root of the thread" if state.threaded else "the shank"
    holes = "reamed" if state.reamed else "clearance"
    text = (
        f"In shear {state.bearing:.3g} of {state.count} bolts count ({holes} holes), each with {section} in "
        "the shear plane and no friction beside it"
    )
    pins = state.pins
    if pins is None:
        return f"{text}."
    return (
        f"{text}; the dowels alone, {pins.bearing:.3g} of {pins.count}, as if there were no bolts. The load "
        "of a dowel is the one that breaks it."
    )


def warn_of_flange(joint: BoltedFlangeJoint, state: FlangeState, key: str, ledger: Ledger) -> None:
    """Cautions of bolts, faces and sizes."""
    _warn_of_torque(state, key, ledger)
    _warn_of_bolts(joint, state, key, ledger)
    _warn_of_room(joint, state, key, ledger)
    _warn_of_thickness(joint, state, key, ledger)
    if joint.face.condition in STRUCTURAL:
        ledger.warn(
            f"{key} faces",
            f"{state.name}: the friction of faces {joint.face.condition} was found on structural plates, "
            "prepared, dry and tested; one drop of oil and it is that of an oily face.",
        )
    if state.pins is not None:
        ledger.warn(
            f"{key} dowels",
            f"{state.name}: dowels carry only in reamed holes that are drilled through both flanges "
            "together; press them in, do not hammer, and keep one end open to drive them out.",
        )


def _warn_of_torque(state: FlangeState, key: str, ledger: Ledger) -> None:
    """The same torque on a slippery thread breaks the bolt."""
    preload, bolt = state.preload, state.bolt
    if preload.torque is None or preload.factor is None:
        return
    wax = nut_factor("waxed")
    force = float(preload_from_torque(preload.torque, bolt.thread.diameter, wax.factor))
    share = force / bolt.proof_load
    if preload.factor > wax.factor * WAX_TELLS and share > 1.0:
        ledger.warn(
            f"{key} lubrication",
            f"{state.name}: {three_digits(preload.torque)} N m hold for K = {preload.factor:.2f}. On a "
            f"waxed bolt (K = {wax.factor:.2f}) the same torque pulls {in_kn(force)} kN, {100 * share:.0f} % "
            "of the proof load, and may break it; anti-seize is not far from that.",
        )


def _warn_of_bolts(joint: BoltedFlangeJoint, state: FlangeState, key: str, ledger: Ledger) -> None:
    bolts, name = joint.bolts, state.name
    if bolts.reused is not False:
        stated = "used bolts" if bolts.reused else "old or new bolts are not stated: if they were used"
        ledger.warn(
            f"{key} used bolts",
            f"{name}: {stated}, run a nut over the whole thread by hand and hold a thread gauge to it; renew "
            "every bolt that is longer, necked or rusty, and all of them if they were ever stretched past "
            "proof.",
        )
    if bolts.ends_in == "blind hole":
        ledger.warn(
            f"{key} blind holes",
            f"{name}: blind holes: a bolt that bottoms, or oil or chips below it, takes the torque and "
            "presses nothing; measure the depth against the bolt, blow the holes out.",
        )


def _warn_of_room(joint: BoltedFlangeJoint, state: FlangeState, key: str, ledger: Ledger) -> None:
    """Metal between the holes, and to the edge."""
    diameter, name = state.bolt.thread.diameter, state.name
    spacing = float(hole_spacing(state.circle_diameter, float(state.count)))
    if spacing < LEAST_PITCH * diameter:
        ledger.warn(
            f"{key} spacing",
            f"{name}: the holes are {in_mm(spacing)} mm apart, {spacing / diameter:.2g} bolt diameters; keep "
            f"{LEAST_PITCH:g} to 3, for the metal between them and for the spanner.",
        )
    face = joint.face
    edge = joint.edge_distance
    inner = face.inner_diameter.value if face.inner_diameter is not None else 0.0
    rim = 0.5 * (face.outer_diameter.value - state.circle_diameter)
    inside = 0.5 * (state.circle_diameter - inner)
    nearest = edge.value if edge is not None else min(rim, inside)
    if nearest < LEAST_EDGE * diameter:
        what = "the edge" if edge is not None else "the edge of the face"
        ledger.warn(
            f"{key} edge",
            f"{name}: {what} is {in_mm(max(nearest, 0.0))} mm from the centre of the holes, below "
            f"{LEAST_EDGE:g} bolt diameters; the hole may tear out, and the face does not lie all around the "
            "bolt.",
        )


def _warn_of_thickness(joint: BoltedFlangeJoint, state: FlangeState, key: str, ledger: Ledger) -> None:
    diameter, name = state.bolt.thread.diameter, state.name
    thin = min(state.sides, key=lambda side: side.thickness)
    tapped = joint.bolts.ends_in != "nut"
    if thin.thickness < LEAST_THICKNESS * diameter:
        ledger.warn(
            f"{key} thin",
            f"{name}: the {thin.side} is {in_mm(thin.thickness)} mm thick, below {LEAST_THICKNESS:g} bolt "
            "diameters; it bends between the bolts and presses at them alone.",
        )
    elif tapped and thin.thickness < LEAST_THREAD * diameter:
        ledger.warn(
            f"{key} thread",
            f"{name}: a thread needs {LEAST_THREAD:g} diameter of steel to hold its bolt; the {thin.side} is "
            f"{in_mm(thin.thickness)} mm thick.",
        )


def warn_of_path(state: FlangeState, key: str, holding: str, reverses: bool, ledger: Ledger) -> None:
    """Say which path holds the joint where that is not a matter of course."""
    if reverses:
        beside = "The dowels are" if state.pins is not None else "Bolts in shear are"
        ledger.warn(
            f"{key} reversing",
            f"{state.name}: the torque reverses, so the friction of the faces must hold it alone: a flange "
            f"that slips to and fro turns its bolts loose. {beside} shown beside it. Mark bolts and flange "
            "with paint, and look again after the first hour.",
        )
    elif holding != "grip":
        what = "dowels" if holding == "dowels" else "reamed bolts"
        ledger.warn(
            f"{key} slips",
            f"{state.name}: the {what} are counted on, as the stronger path. Should the faces slip until "
            "they bear, the bolts may turn loose: lock them, mark them with paint, and look again after the "
            "first hour.",
        )
