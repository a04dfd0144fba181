"""The worst blow at the settings of the ramp as a torque-time trace."""

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.ramp.result import Ramp, TracedBlow
from torqcheck.report.plots.trace_events import TracePicture, motor_line, trace_picture
from torqcheck.shock import peak, trace

__all__ = ["blow_picture", "ramp_pictures"]


def ramp_pictures(ramp: Ramp) -> tuple[TracePicture, ...]:
    """Trace the worst blow at each setting that the report names, the recommended one first."""
    return tuple(blow_picture(blow) for blow in ramp.traced)


def blow_picture(blow: TracedBlow) -> TracePicture:
    """Follow one blow in time and find its events."""
    arguments: dict[str, Any] = dict(blow.arguments)
    found = trace(**arguments)
    start = f"start: {blow.start}"
    if blow.start == "drive into regeneration":
        start += ", braking torque drawn upwards"
    return trace_picture(
        found,
        motor=_motor(arguments, float(found.times[-1])),
        steady_torque=float(peak(**arguments).steady_torque),
        title=f"{blow.setting}, {start}",
    )


def _motor(arguments: Mapping[str, float], until: float) -> tuple[FloatArray, FloatArray]:
    """Corners of the motor torque, with the rest at the closing torque if there is one."""
    rise, full, start = (arguments[name] for name in ("torque_rise", "peak_torque", "start_torque"))
    rest = arguments.get("closing_torque")
    if rest is None or math.isinf(rise):
        return motor_line(rise, full, until, start)
    first = (rest - start) / rise
    second = first + arguments["closing_time"]
    end = second + (full - rest) / rise
    return np.array([0.0, first, second, end, max(until, end)]), np.array([start, rest, rest, full, full])
