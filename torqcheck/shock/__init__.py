"""Blow and torsional vibration of a path with lash, solved exactly.

``peak`` and ``trace`` follow the torque through contact and gap; the other functions are closed
forms for single questions, and independent of the solver.
"""

from torqcheck.shock.closing import blow_energy, closing_speed, closing_time, closing_torque_from_blow
from torqcheck.shock.factors import (
    natural_frequency,
    ramp_factor,
    ramp_factor_envelope,
    step_factor,
    torque_share,
)
from torqcheck.shock.first_blow import first_blow_on_ramp, step_peak_with_lash
from torqcheck.shock.kernel import Blow, peak
from torqcheck.shock.slip import sliding_torque, slip_onset_torque
from torqcheck.shock.trace import Trace, trace

__all__ = [
    "Blow",
    "Trace",
    "blow_energy",
    "closing_speed",
    "closing_time",
    "closing_torque_from_blow",
    "first_blow_on_ramp",
    "natural_frequency",
    "peak",
    "ramp_factor",
    "ramp_factor_envelope",
    "sliding_torque",
    "slip_onset_torque",
    "step_factor",
    "step_peak_with_lash",
    "torque_share",
    "trace",
]
