"""Base circle and base pitch of a part from two readings, with neither pitch nor angle assumed."""

import math

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import refuse
from torqcheck.errors import NoSolutionError
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_bad_count, refuse_unless_positive
from torqcheck.geometry.involute import involute
from torqcheck.geometry.measuring.pins import PIN, TEETH, opposition
from torqcheck.geometry.measuring.span import SPANNED
from torqcheck.geometry.pairs.bench_readings import PinReading, Reading, Side, SpanReading
from torqcheck.provenance import Source

__all__ = [
    "FLANK_FORM",
    "base_diameter_from_between_pins",
    "base_diameter_from_over_pins",
    "base_diameter_of_pins",
    "base_pitch_from_spans",
    "base_pitch_of_spans",
]

TWO_PINS = Source("Two sizes of pin on one flank, from the geometry of the involute", "", "derived")
TWO_SPANS = Source(
    "J. Marsch, reverse engineering of gears, trade article, December 2005",
    "step 1: spans over k and k + 1 teeth differ by the base pitch",
    "published",
)
FLANK_FORM = 5e-6
"""
What a flank that is still called good (about class 5) may depart from its involute, normal to it, m, two
sigma; no instrument takes it away. Mark: assumed.
"""

BASE_DIAMETER = Symbol("Db", "m", "base diameter")
SECOND_PIN = Symbol("d2", "m", "diameter of the pins of the second size")
_MOST_STEPS = 60


def _base_diameter(teeth: Numeric, centres: tuple[Numeric, Numeric], apart: Numeric) -> Numeric:
    """
    Return Db from the diameters on which the centres of two sizes of pin lie, the outer first.

    Db (inv(phi1) - inv(phi2)) - apart falls with Db, with slope phi2 - phi1, ever steeper: Newton's
    method from the largest possible Db comes down on the root from one side.
    """
    N = np.asarray(teeth, dtype=np.float64)
    refuse_bad_count(N)
    outer, inner = (np.asarray(centre, dtype=np.float64) / opposition(teeth) for centre in centres)
    refuse(np.less_equal(inner, 0.0), "the pins are larger than the reading")
    impossible = "no involute gives these two readings: reading, pin diameters or number of teeth are wrong"
    refuse(np.less_equal(outer - inner, apart), impossible)
    base: FloatArray = inner * np.ones_like(outer)
    refuse(np.greater(_excess(base, outer, inner) - apart, 0.0), impossible)
    for _ in range(_MOST_STEPS):
        slope = np.arccos(np.minimum(base / outer, 1.0)) - np.arccos(np.minimum(base / inner, 1.0))
        step = (_excess(base, outer, inner) - apart) / slope
        base = base + step
        if not np.any(np.abs(step) > 1e-13 * base):
            return base[()]
    raise NoSolutionError("no base diameter found between 0 and the circle of the pins' centres")


def _excess(base: FloatArray, outer: FloatArray, inner: FloatArray) -> FloatArray:
    """Return Db (inv(phi1) - inv(phi2))."""
    angles = (np.arccos(np.minimum(base / centre, 1.0)) for centre in (outer, inner))
    first, second = (np.asarray(involute(angle)) for angle in angles)
    return np.asarray(base * (first - second))


@formula(
    "Db such that inv(phi1) - inv(phi2) = (d1 - d2)/Db, cos(phi_i) = f Db / (M_i - d_i)",
    result=BASE_DIAMETER,
    source=TWO_PINS,
    teeth=TEETH,
    over_pins=Symbol("M1", "m", "dimension over two pins"),
    pin_diameter=PIN,
    second_over_pins=Symbol("M2", "m", "dimension over two pins of the second size"),
    second_pin_diameter=SECOND_PIN,
)
def base_diameter_from_over_pins(
    teeth: Numeric,
    over_pins: Numeric,
    pin_diameter: Numeric,
    second_over_pins: Numeric,
    second_pin_diameter: Numeric,
) -> Numeric:
    """
    Base diameter of external teeth from readings over two sizes of pin.

    ::

        Db such that inv(phi1) - inv(phi2) = (d1 - d2)/Db, cos(phi_i) = f Db / (M_i - d_i)
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    over_pins : float or array, m
        M1, over the larger pins.
    pin_diameter : float or array, m
        d1, the larger pins.
    second_over_pins : float or array, m
        M2, over the smaller pins.
    second_pin_diameter : float or array, m
        d2, the smaller pins.

    Returns
    -------
    float or array, m
        Db. Pitch, pressure angle and thickness drop out.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, the second pins
        are not the smaller ones, or no involute gives the two readings.

    Notes
    -----
    Badly conditioned, since both pins rest on nearly the same place: an error of the reading comes
    back some thirty times in Db. It tells 30 from 37.5 and 45 deg, and pitches that differ by some
    percent. NaN in gives NaN out.

    References
    ----------
    .. [1] Two sizes of pin on one flank, from the geometry of the involute. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 30 deg, over 0.0800 in and 0.0720 in pins:

    >>> inch = 0.0254
    >>> base = base_diameter_from_over_pins(
    ...     27, 1.242525 * inch, 0.08 * inch, 1.219719 * inch, 0.072 * inch
    ... )
    >>> print(f"{base / inch:.4f} in")
    0.9743 in
    """
    refuse_unless_positive(over_pins=over_pins, second_over_pins=second_over_pins)
    apart = _difference(pin_diameter, second_pin_diameter)
    centres = (np.subtract(over_pins, pin_diameter), np.subtract(second_over_pins, second_pin_diameter))
    return _base_diameter(teeth, centres, apart)


def _difference(pin_diameter: Numeric, second_pin_diameter: Numeric) -> Numeric:
    """Return d1 - d2; the first pins must be the larger ones."""
    refuse_unless_positive(pin_diameter=pin_diameter, second_pin_diameter=second_pin_diameter)
    apart = np.subtract(pin_diameter, second_pin_diameter)
    refuse(np.less_equal(apart, 0.0), "second_pin_diameter must be below pin_diameter")
    return np.asarray(apart, dtype=np.float64)[()]


@formula(
    "Db such that inv(phi2) - inv(phi1) = (d1 - d2)/Db, cos(phi_i) = f Db / (M_i + d_i)",
    result=BASE_DIAMETER,
    source=TWO_PINS,
    teeth=TEETH,
    between_pins=Symbol("M1", "m", "dimension between two pins"),
    pin_diameter=PIN,
    second_between_pins=Symbol("M2", "m", "dimension between two pins of the second size"),
    second_pin_diameter=SECOND_PIN,
)
def base_diameter_from_between_pins(
    teeth: Numeric,
    between_pins: Numeric,
    pin_diameter: Numeric,
    second_between_pins: Numeric,
    second_pin_diameter: Numeric,
) -> Numeric:
    """
    Base diameter of internal teeth from readings between two sizes of pin.

    ::

        Db such that inv(phi2) - inv(phi1) = (d1 - d2)/Db, cos(phi_i) = f Db / (M_i + d_i)
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    between_pins : float or array, m
        M1, between the larger pins.
    pin_diameter : float or array, m
        d1, the larger pins.
    second_between_pins : float or array, m
        M2, between the smaller pins.
    second_pin_diameter : float or array, m
        d2, the smaller pins.

    Returns
    -------
    float or array, m
        Db. Pitch, pressure angle and space width drop out.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, the second pins
        are not the smaller ones, or no involute gives the two readings.

    Notes
    -----
    See ``base_diameter_from_over_pins``. NaN in gives NaN out.

    References
    ----------
    .. [1] Two sizes of pin on one flank, from the geometry of the involute. Mark: derived.

    Examples
    --------
    A hub of 27 teeth, 24/48 pitch, 30 deg, space of the basic width:

    >>> from torqcheck.geometry.measuring.pins import between_pins
    >>> m, s = 0.0254 / 24, 0.0254 * np.pi / 48
    >>> first, second = (between_pins(27, m, np.radians(30.0), s, d) for d in (1.85e-3, 1.75e-3))
    >>> base = base_diameter_from_between_pins(27, first, 1.85e-3, second, 1.75e-3)
    >>> print(f"{base / 0.0254:.4f} in")
    0.9743 in
    """
    refuse_unless_positive(between_pins=between_pins, second_between_pins=second_between_pins)
    apart = _difference(pin_diameter, second_pin_diameter)
    centres = (np.add(second_between_pins, second_pin_diameter), np.add(between_pins, pin_diameter))
    return _base_diameter(teeth, centres, apart)


@formula(
    "pb = (W1 - W2) / (k1 - k2)",
    result=Symbol("pb", "m", "base pitch"),
    source=TWO_SPANS,
    span=Symbol("W1", "m", "span over k1 teeth"),
    spanned_teeth=SPANNED,
    second_span=Symbol("W2", "m", "span over k2 teeth"),
    second_spanned_teeth=Symbol("k2", "-", "number of teeth of the second span"),
)
def base_pitch_from_spans(
    span: Numeric, spanned_teeth: Numeric, second_span: Numeric, second_spanned_teeth: Numeric
) -> Numeric:
    """
    Base pitch from spans over two numbers of teeth.

    ::

        pb = (W1 - W2) / (k1 - k2)

    Parameters
    ----------
    span : float or array, m
        W1, the longer span.
    spanned_teeth : int or array, -
        k1, teeth in it.
    second_span : float or array, m
        W2, the shorter span.
    second_spanned_teeth : int or array, -
        k2, teeth in it.

    Returns
    -------
    float or array, m
        pb, which is pi m cos(a).

    Raises
    ------
    DomainError
        If a span is not positive, the second does not hold fewer teeth, or is not the shorter one.

    Notes
    -----
    Neither thickness nor wear that is alike on all flanks enters. Average several places, since the
    spacing error of the teeth comes in whole. NaN in gives NaN out.

    References
    ----------
    .. [1] J. Marsch, reverse engineering of gears, trade article, December 2005, step 1.
       Mark: published.

    Examples
    --------
    Shaft 50 x 2 x 24 of DIN 5480: 5.4414 mm is pi x 2 mm x cos(30 deg):

    >>> print(f"{base_pitch_from_spans(26.6207e-3, 5, 21.1793e-3, 4) * 1e3:.4f} mm")
    5.4414 mm
    """
    refuse_unless_positive(span=span, second_span=second_span)
    more = np.subtract(spanned_teeth, second_spanned_teeth)
    refuse(
        np.less(second_spanned_teeth, 1.0)
        | np.less(more, 1.0)
        | np.greater(np.abs(more - np.round(more)), 0.0),
        "second_spanned_teeth must be at least 1 and whole teeth below spanned_teeth",
    )
    longer = np.subtract(span, second_span)
    refuse(np.less_equal(longer, 0.0), "span must be longer than second_span")
    return np.asarray(longer / more, dtype=np.float64)[()]


def base_diameter_of_pins(side: Side, teeth: int, pins: tuple[PinReading, ...]) -> Reading | None:
    """
    Base diameter of one part, with its tolerance, from its largest and smallest pins.

    Tolerances of readings, pins and flank form as root sum square, through the slopes
    dDb/dM = sin(phi) / (f (phi1 - phi2)) and dDb/dd = (1 + sin(phi)/f) / (phi1 - phi2). Mark: derived.

    Parameters
    ----------
    side : str
        "external" or "internal".
    teeth : int, -
        Number of teeth.
    pins : tuple of PinReading
        Readings of the part, m.

    Returns
    -------
    Reading or None
        m; None with fewer than two sizes of pin.

    Raises
    ------
    DomainError
        If no involute gives the readings.
    """
    small, large = (choice(pins, key=lambda p: p.pin, default=None) for choice in (min, max))
    if small is None or large is None or not small.pin < large.pin:
        return None
    outside = side == "external"
    function = base_diameter_from_over_pins if outside else base_diameter_from_between_pins
    base = float(function(teeth, large.reading, large.pin, small.reading, small.pin))
    f = float(opposition(teeth))
    sign = -1.0 if outside else 1.0
    angles = [math.acos(min(f * base / (p.reading + sign * p.pin), 1.0)) for p in (large, small)]
    parts = []
    for pin, phi in zip((large, small), angles, strict=True):
        # a flank off by FLANK_FORM on either side of the pin lifts it by 2 FLANK_FORM f/sin(phi)
        slope = math.sin(phi) / f
        parts += [
            slope * pin.reading_tolerance,
            (1.0 + slope) * pin.pin_tolerance,
            2.0 * FLANK_FORM,
        ]
    return Reading(base, math.hypot(*parts) / abs(angles[0] - angles[1]))


def base_pitch_of_spans(spans: tuple[SpanReading, ...]) -> Reading | None:
    """
    Base pitch of a part, with its tolerance, from its longest and shortest span.

    Returns
    -------
    Reading or None
        m; None with spans over fewer than two numbers of teeth.

    Raises
    ------
    DomainError
        If the longer span does not hold more teeth.
    """
    short, long = (choice(spans, key=lambda s: s.spanned_teeth, default=None) for choice in (min, max))
    if short is None or long is None or short.spanned_teeth == long.spanned_teeth:
        return None
    pitch = base_pitch_from_spans(long.reading, long.spanned_teeth, short.reading, short.spanned_teeth)
    error = math.hypot(long.reading_tolerance, short.reading_tolerance, 2.0 * FLANK_FORM)
    return Reading(float(pitch), error / (long.spanned_teeth - short.spanned_teeth))
