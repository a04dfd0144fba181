"""What the drawing says of making the teeth: fillet, finish, lengths, the diameters that locate the part."""

from collections.abc import Iterator

from torqcheck.assessment.fatigue.members import FILLET_ROOT_FILLET, FLAT_ROOT_FILLET, STRAIGHT_FILLET
from torqcheck.assessment.order.result import OrderLine
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import InvoluteSpline, StraightSpline, din_5480, iso_4156
from torqcheck.geometry.drawing.cut_lengths import cutter_run_out
from torqcheck.geometry.drawing.data_block import DataBlock, MemberName
from torqcheck.geometry.standards.limits import Band
from torqcheck.provenance import Mark

__all__ = ["fillet_lines", "making_lines", "runout"]

PRACTICE: Mark = "common practice, no source"
RACK_FILLETS = {(30.0, "flat"): 0.2, (30.0, "fillet"): 0.4, (37.5, "fillet"): 0.3, (45.0, "fillet"): 0.25}
"""Fillet radius of the basic rack of ISO 4156 over module (mark: from memory)."""
DIN_FILLET = 0.16
"""Fillet radius of the cut basic rack of DIN 5480 over module (mark: from memory)."""
FINISH = {"fixed": "Ra 1.6 micrometre", "flexible": "Ra 0.8 micrometre, for flanks that move on each other"}
RUNOUT = {"fixed": 0.03e-3, "flexible": 0.05e-3}
"""m; total indicator reading of the teeth against the locating diameter."""
SPARE = 2e-3
"""m; full teeth beyond the engagement, for the place of the part along the axis."""
HOB = 63e-3
"""m; outside diameter of a common hob."""
RELIEF = 5e-3
"""m; width of the groove that a shaper cutter or a slotting tool needs behind blind teeth."""
EDGE = (0.2e-3, 0.4e-3)


def runout(state: SplineState) -> float:
    """Total indicator reading allowed between teeth and locating diameter, m (common practice)."""
    return RUNOUT[state.joint.seat]


def making_lines(state: SplineState, block: DataBlock, side: MemberName) -> Iterator[OrderLine]:
    """Lines of the drawing on the making of one part."""
    yield from fillet_lines(state.spline)
    yield OrderLine(name="flank finish", words=FINISH[state.joint.seat], mark=PRACTICE)
    yield from _ends(side)
    yield from _lengths(state, block, side)
    yield from _locating(state, side)


def fillet_lines(spline: InvoluteSpline | StraightSpline) -> Iterator[OrderLine]:
    """
    Least root fillet radius, and the one that the fatigue check counts on where that is larger.

    Parameters
    ----------
    spline : InvoluteSpline or StraightSpline
        The spline.
    """
    if isinstance(spline, StraightSpline):
        counted = STRAIGHT_FILLET * 0.5 * (spline.major_diameter - spline.minor_diameter)
        least, mark, words = counted, PRACTICE, "a tenth of the tooth height; no sharp corner, no tool mark"
    else:
        share = FLAT_ROOT_FILLET if spline.root == "flat" else FILLET_ROOT_FILLET
        counted = share * spline.module
        least, mark, words = _rack_fillet(spline)
    yield OrderLine(name="root fillet radius, least", words=words, band=Band(least, None), mark=mark)
    if counted > least * (1.0 + 1e-9):
        yield OrderLine(
            name="fillet that the fatigue check counts on",
            words="order it where the cutter can give it and it stays clear of the true flank",
            band=Band(counted, None),
            mark="assumed",
        )


def _rack_fillet(spline: InvoluteSpline) -> tuple[float, Mark, str]:
    """Fillet of the standard's rack; that of ISO 4156 as practice where there is none."""
    if spline.standard == din_5480.STANDARD:
        return DIN_FILLET * spline.module, "from memory", "basic rack of DIN 5480, cut"
    nearest = min(
        RACK_FILLETS, key=lambda key: abs(key[0] - _degrees(spline)) + 100.0 * (key[1] != spline.root)
    )
    radius = RACK_FILLETS[nearest] * spline.module
    if spline.standard == iso_4156.STANDARD:
        return radius, "from memory", "basic rack of ISO 4156"
    return radius, PRACTICE, "as the basic rack of ISO 4156; this standard's own could not be read"


def _degrees(spline: InvoluteSpline) -> float:
    return float(spline.pressure_angle * 57.29577951308232)


def _ends(side: MemberName) -> Iterator[OrderLine]:
    """Chamfers and edges."""
    reach = "minor" if side == "external" else "major"
    yield OrderLine(
        name="ends of the teeth",
        words=f"chamfer of 30 to 45 deg down to the {reach} diameter at every end where the mate goes on",
        mark=PRACTICE,
    )
    yield OrderLine(
        name="edges of the teeth",
        words="broken all round, no burr; a burr from hardening or handling holds the mate off",
        band=Band(*EDGE),
        mark=PRACTICE,
    )


def _lengths(state: SplineState, block: DataBlock, side: MemberName) -> Iterator[OrderLine]:
    """Engagement, full teeth, and what the tool needs behind them."""
    full = state.engagement + SPARE
    yield OrderLine(
        name="engagement",
        words="length over which both parts have full teeth on each other, as checked",
        band=Band(state.engagement, None),
        mark="measured",
    )
    yield OrderLine(
        name="full teeth",
        words=f"engagement and {SPARE * 1e3:g} mm for the place along the axis",
        band=Band(full, None),
        mark=PRACTICE,
    )
    if side == "internal":
        yield OrderLine(
            name="behind blind teeth",
            words="relief groove deeper than the major diameter; none where the teeth are broached through",
            band=Band(RELIEF, None),
            mark=PRACTICE,
        )
        return
    diameters = block.diameters("external")
    out = float(cutter_run_out(0.5 * (diameters.major_diameter - diameters.minor_diameter), HOB))
    yield OrderLine(
        name="run-out of the cutter",
        words=(f"with a hob of {HOB * 1e3:g} mm; the mate must end before it, shoulder and seal stay clear"),
        band=Band(out, None),
        mark="derived",
    )
    yield OrderLine(
        name="teeth in all",
        words="full teeth and run-out",
        band=Band(full + out, None),
        mark=PRACTICE,
    )


def _locating(state: SplineState, side: MemberName) -> Iterator[OrderLine]:
    """Bore, outside diameter, and how true the teeth run to what locates the part."""
    if side == "external":
        bore = Band(None, state.bore) if state.bore > 0.0 else None
        words = "as checked, no larger" if bore else "none stated: the shaft was checked as solid"
        yield OrderLine(name="bore", words=words, band=bore, mark="measured")
    else:
        outside = state.outside_diameter
        words = (
            "as checked, no smaller"
            if outside
            else "not stated: bursting was not checked, put it on the drawing"
        )
        band = None if outside is None else Band(outside, None)
        yield OrderLine(name="outside diameter", words=words, band=band, mark="measured")
    where = {
        "fixed": "of the pitch circle to the seat or bore that locates the part, both ends of the teeth",
        "flexible": "of the pitch circle to bore, bearing seat or outside diameter, both ends of the teeth",
    }[state.joint.seat]
    yield OrderLine(name="runout, total", words=where, band=Band(None, runout(state)), mark=PRACTICE)
