"""Wear of the flanks: slip, the linear wear law, limits, and the life as a range. SI in, SI out."""

from torqcheck.wear.alignment import (
    offset_from_runout,
    tilt_from_face_reading,
    tilt_from_offset,
)
from torqcheck.wear.axes import (
    offset_along,
    tilt_at_slip_speed,
    tilt_between_planes,
    tilt_of_mesh,
    total_offset,
    total_tilt,
)
from torqcheck.wear.clock import (
    GreaseClock,
)
from torqcheck.wear.coefficient import (
    CUBIC_MILLIMETRE_PER_NEWTON_METRE,
    HARD_FLANK_VICKERS,
    KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE,
    Convention,
    hardness_scale,
    implied_wear_coefficient,
    wear_coefficient_from_hardness,
)
from torqcheck.wear.contact import (
    flank_height,
    wear_flank_pressure,
)
from torqcheck.wear.course import (
    Course,
    DepthRates,
    HardLayer,
    wear_course,
)
from torqcheck.wear.floating_sleeve import (
    tilt_where_offset_was_read,
    tilts_of_floating_sleeve,
)
from torqcheck.wear.friction import (
    elastic_slip,
    friction_lock_tilt,
    tilt_friction_moment,
)
from torqcheck.wear.indicator import (
    closing_error,
    fixed_part,
    offset_component,
    tilt_component,
    total_indicator_reading,
    turning_part,
)
from torqcheck.wear.inspection import (
    LashObservation,
    Reread,
    reread_runs,
)
from torqcheck.wear.law import (
    depth_per_revolution,
    worn_depth,
    worn_volume,
    worn_volume_per_revolution,
)
from torqcheck.wear.life import (
    LEAST_DRAWS,
    LifeDraws,
    Runs,
    WearLimit,
    drawn_runs,
    first_of,
    hours_to_depth,
    life_draws,
    percentiles,
    share_reaching,
)
from torqcheck.wear.limits import (
    THICKNESS_LOSS_LIMIT,
    clearance_growth,
    depth_at_thickness_loss,
    depth_sum_at_lash_limit,
    lash_growth,
)
from torqcheck.wear.running_in import (
    depth_with_feedback,
    running_in_depth,
)
from torqcheck.wear.sliding import (
    reversal_slip_path,
    sliding_path_per_hour,
)
from torqcheck.wear.slip import (
    GROSS_SLIP_LIMIT,
    SLIDING_LIMIT,
    SLIP_SPEED_LIMIT,
    SlipRegime,
    offset_slip_path,
    peak_slip_speed,
    slip_amplitude,
    slip_path_per_revolution,
    slip_regime,
)
from torqcheck.wear.spread import (
    COEFFICIENT_SIGMA_OWN,
    COEFFICIENT_SIGMA_UNKNOWN,
    LIMIT_SIGMA,
    LOAD_SIGMA,
    SLIP_SIGMA_ASSUMED,
    SLIP_SIGMA_MEASURED,
    Percentiles,
    combined_sigma,
    lognormal_percentiles,
    sigma_from_variation,
)

__all__ = [
    "COEFFICIENT_SIGMA_OWN",
    "COEFFICIENT_SIGMA_UNKNOWN",
    "CUBIC_MILLIMETRE_PER_NEWTON_METRE",
    "GROSS_SLIP_LIMIT",
    "HARD_FLANK_VICKERS",
    "KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE",
    "LEAST_DRAWS",
    "LIMIT_SIGMA",
    "LOAD_SIGMA",
    "SLIDING_LIMIT",
    "SLIP_SIGMA_ASSUMED",
    "SLIP_SIGMA_MEASURED",
    "SLIP_SPEED_LIMIT",
    "THICKNESS_LOSS_LIMIT",
    "Convention",
    "Course",
    "DepthRates",
    "GreaseClock",
    "HardLayer",
    "LashObservation",
    "LifeDraws",
    "Percentiles",
    "Reread",
    "Runs",
    "SlipRegime",
    "WearLimit",
    "clearance_growth",
    "closing_error",
    "combined_sigma",
    "depth_at_thickness_loss",
    "depth_per_revolution",
    "depth_sum_at_lash_limit",
    "depth_with_feedback",
    "drawn_runs",
    "elastic_slip",
    "first_of",
    "fixed_part",
    "flank_height",
    "friction_lock_tilt",
    "hardness_scale",
    "hours_to_depth",
    "implied_wear_coefficient",
    "lash_growth",
    "life_draws",
    "lognormal_percentiles",
    "offset_along",
    "offset_component",
    "offset_from_runout",
    "offset_slip_path",
    "peak_slip_speed",
    "percentiles",
    "reread_runs",
    "reversal_slip_path",
    "running_in_depth",
    "share_reaching",
    "sigma_from_variation",
    "sliding_path_per_hour",
    "slip_amplitude",
    "slip_path_per_revolution",
    "slip_regime",
    "tilt_at_slip_speed",
    "tilt_between_planes",
    "tilt_component",
    "tilt_friction_moment",
    "tilt_from_face_reading",
    "tilt_from_offset",
    "tilt_of_mesh",
    "tilt_where_offset_was_read",
    "tilts_of_floating_sleeve",
    "total_indicator_reading",
    "total_offset",
    "total_tilt",
    "turning_part",
    "wear_coefficient_from_hardness",
    "wear_course",
    "wear_flank_pressure",
    "worn_depth",
    "worn_volume",
    "worn_volume_per_revolution",
]
