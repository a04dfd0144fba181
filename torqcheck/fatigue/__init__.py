"""Torsional fatigue: strength line, notch, mean stress, damage, counting of cycles. SI in, SI out."""

from torqcheck.fatigue.beyond_the_line import (
    LIFE_AT_LIMIT,
    amplitude_below_limit,
    amplitude_of_few_cycles,
    life_below_limit,
)
from torqcheck.fatigue.combined_load import combined_load, shaft_standard_diameter
from torqcheck.fatigue.counting import (
    CountedCycles,
    counted_cycles,
)
from torqcheck.fatigue.cross_hole import (
    LARGEST_HOLE,
    cross_hole_bending_concentration,
    cross_hole_torsion_concentration,
)
from torqcheck.fatigue.damage import (
    LIFE_SCATTER,
    boundary_stress_share,
    damage_sum,
    equivalent_full_cycles,
    first_ringing_share,
)
from torqcheck.fatigue.din_743 import (
    DIN_743_LEAST_SAFETY,
    din_allowable_amplitude,
    din_endurance_limit,
    din_mean_sensitivity,
)
from torqcheck.fatigue.din_743_factors import (
    din_roughness_factor,
    din_size_factor,
    din_spline_notch_factor,
    din_strength_size_factor,
    din_total_factor,
)
from torqcheck.fatigue.din_743_notches import (
    DIN_NOTCH_RANGE,
    din_keyseat_bending_factor,
    din_keyseat_torsion_factor,
    din_press_fit_bending_factor,
    din_press_fit_torsion_factor,
)
from torqcheck.fatigue.endurance import (
    SHEAR_TO_TENSILE_ULTIMATE,
    bending_limit,
    endurance_limit,
    shear_ultimate_strength,
)
from torqcheck.fatigue.endurance_factors import (
    SURFACE_FINISHES,
    TORSION_LOAD_FACTOR,
    SurfaceFinish,
    load_factor_of_strength,
    reliability_factor,
    size_factor,
    surface_factor,
    temperature_factor,
)
from torqcheck.fatigue.first_cycle_yield import (
    first_cycle_yield_factor,
)
from torqcheck.fatigue.keyseat import (
    KEYSEAT_RANGE,
    LOADED_KEYSEAT_TORSION,
    RING_GROOVE_BENDING,
    RING_GROOVE_RADIUS_OVER_WIDTH,
    RING_GROOVE_TORSION,
    SLED_RUNNER_BENDING,
    keyseat_bending_concentration,
    keyseat_torsion_concentration,
    loaded_keyseat_torsion_concentration,
)
from torqcheck.fatigue.mean_stress import (
    elliptic_amplitude,
    gerber_amplitude,
    goodman_amplitude,
    morrow_amplitude,
    soderberg_amplitude,
)
from torqcheck.fatigue.notch import (
    NOTCH_RANGE,
    fatigue_notch_factor,
    notch_constant_in_bending,
    notch_constant_in_torsion,
    notch_sensitivity,
)
from torqcheck.fatigue.safety_factors import (
    elliptic_safety_factor,
    gerber_safety_factor,
    linear_safety_factor,
)
from torqcheck.fatigue.shaft_diameters import (
    de_elliptic_diameter,
    de_gerber_diameter,
    de_goodman_diameter,
    de_soderberg_diameter,
)
from torqcheck.fatigue.shaft_safety import (
    de_elliptic_factor,
    de_gerber_factor,
    de_goodman_factor,
    de_soderberg_factor,
)
from torqcheck.fatigue.shoulder_fillet import (
    governing_shoulder_formula,
    shoulder_bending_concentration,
    shoulder_torsion_concentration,
)
from torqcheck.fatigue.shoulder_polynomials import (
    shoulder_bending_by_polynomial,
    shoulder_torsion_by_polynomial,
)
from torqcheck.fatigue.shoulder_power import (
    shoulder_bending_by_power,
    shoulder_torsion_by_power,
)
from torqcheck.fatigue.strength_line import (
    LOW_CYCLE_LIFE,
    BelowLimit,
    StrengthLine,
    amplitude_on_line,
    life_on_line,
)
from torqcheck.fatigue.strength_line_constants import (
    line_coefficient,
    line_exponent,
    low_cycle_exponent,
    strength_fraction,
    strength_fraction_11th,
)
from torqcheck.fatigue.stress_concentration import (
    diameter_share,
    equivalent_diameter,
    spline_stress_concentration,
    yoshitake_stress_concentration,
)
from torqcheck.fatigue.weld_class import (
    BENDING_SLOPE,
    FILLET_BENDING_CLASS,
    FILLET_CLASS,
    FULL_PENETRATION_BENDING_CLASS,
    FULL_PENETRATION_CLASS,
    WELD_CYCLES,
    WELD_NOTCH_FACTORS,
    WELD_SLOPE,
    weld_life,
    weld_range,
)

__all__ = [
    "BENDING_SLOPE",
    "DIN_743_LEAST_SAFETY",
    "DIN_NOTCH_RANGE",
    "FILLET_BENDING_CLASS",
    "FILLET_CLASS",
    "FULL_PENETRATION_BENDING_CLASS",
    "FULL_PENETRATION_CLASS",
    "KEYSEAT_RANGE",
    "LARGEST_HOLE",
    "LIFE_AT_LIMIT",
    "LIFE_SCATTER",
    "LOADED_KEYSEAT_TORSION",
    "LOW_CYCLE_LIFE",
    "NOTCH_RANGE",
    "RING_GROOVE_BENDING",
    "RING_GROOVE_RADIUS_OVER_WIDTH",
    "RING_GROOVE_TORSION",
    "SHEAR_TO_TENSILE_ULTIMATE",
    "SLED_RUNNER_BENDING",
    "SURFACE_FINISHES",
    "TORSION_LOAD_FACTOR",
    "WELD_CYCLES",
    "WELD_NOTCH_FACTORS",
    "WELD_SLOPE",
    "BelowLimit",
    "CountedCycles",
    "StrengthLine",
    "SurfaceFinish",
    "amplitude_below_limit",
    "amplitude_of_few_cycles",
    "amplitude_on_line",
    "bending_limit",
    "boundary_stress_share",
    "combined_load",
    "counted_cycles",
    "cross_hole_bending_concentration",
    "cross_hole_torsion_concentration",
    "damage_sum",
    "de_elliptic_diameter",
    "de_elliptic_factor",
    "de_gerber_diameter",
    "de_gerber_factor",
    "de_goodman_diameter",
    "de_goodman_factor",
    "de_soderberg_diameter",
    "de_soderberg_factor",
    "diameter_share",
    "din_allowable_amplitude",
    "din_endurance_limit",
    "din_keyseat_bending_factor",
    "din_keyseat_torsion_factor",
    "din_mean_sensitivity",
    "din_press_fit_bending_factor",
    "din_press_fit_torsion_factor",
    "din_roughness_factor",
    "din_size_factor",
    "din_spline_notch_factor",
    "din_strength_size_factor",
    "din_total_factor",
    "elliptic_amplitude",
    "elliptic_safety_factor",
    "endurance_limit",
    "equivalent_diameter",
    "equivalent_full_cycles",
    "fatigue_notch_factor",
    "first_cycle_yield_factor",
    "first_ringing_share",
    "gerber_amplitude",
    "gerber_safety_factor",
    "goodman_amplitude",
    "governing_shoulder_formula",
    "keyseat_bending_concentration",
    "keyseat_torsion_concentration",
    "life_below_limit",
    "life_on_line",
    "line_coefficient",
    "line_exponent",
    "linear_safety_factor",
    "load_factor_of_strength",
    "loaded_keyseat_torsion_concentration",
    "low_cycle_exponent",
    "morrow_amplitude",
    "notch_constant_in_bending",
    "notch_constant_in_torsion",
    "notch_sensitivity",
    "reliability_factor",
    "shaft_standard_diameter",
    "shear_ultimate_strength",
    "shoulder_bending_by_polynomial",
    "shoulder_bending_by_power",
    "shoulder_bending_concentration",
    "shoulder_torsion_by_polynomial",
    "shoulder_torsion_by_power",
    "shoulder_torsion_concentration",
    "size_factor",
    "soderberg_amplitude",
    "spline_stress_concentration",
    "strength_fraction",
    "strength_fraction_11th",
    "surface_factor",
    "temperature_factor",
    "weld_life",
    "weld_range",
    "yoshitake_stress_concentration",
]
