"""Splines as shapes: involutes, pins, the standards' dimensions, play, and what fits into what."""

from torqcheck.geometry.axial.shims import MOST_PIECES, fewest_shims
from torqcheck.geometry.axial.stack import (
    axial_holding_force,
    statistical_tolerance,
    thermal_growth,
    usable_engagement,
    worst_case_tolerance,
)
from torqcheck.geometry.axial.stack_chance import chance_below, chance_of_sum_below, deviation_of_sum
from torqcheck.geometry.involute import inverse_involute, involute, width_at_radius
from torqcheck.geometry.measuring.pin_contact import (
    between_pins_contact_diameter,
    over_pins_contact_diameter,
    pin_at_pitch_circle_of_gap,
    pin_at_pitch_circle_of_space,
)
from torqcheck.geometry.measuring.pin_sensitivity import (
    between_pins_per_pin,
    between_pins_per_space,
    over_pins_per_pin,
    over_pins_per_thickness,
)
from torqcheck.geometry.measuring.pins import between_pins, over_pins, space_from_pins, thickness_from_pins
from torqcheck.geometry.measuring.span import (
    chordal_height,
    chordal_thickness,
    span_over_teeth,
    thickness_from_span,
)
from torqcheck.geometry.pairs.lash import (
    angle_from_clearance,
    angle_from_travel,
    clearance_from_angle,
    clearance_from_travel,
    travel_from_clearance,
)
from torqcheck.geometry.pairs.mating import CentredAssembly, centred_assembly, neighbour
from torqcheck.geometry.pairs.radial_play import clearance_from_radial_play, radial_play_from_clearance
from torqcheck.geometry.spline import InvoluteSpline, Member, NewClearance, Root, StraightSpline
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156, straight
from torqcheck.geometry.standards.own import own_spline

__all__ = [
    "MOST_PIECES",
    "CentredAssembly",
    "InvoluteSpline",
    "Member",
    "NewClearance",
    "Root",
    "StraightSpline",
    "angle_from_clearance",
    "angle_from_travel",
    "ansi_b92_1",
    "axial_holding_force",
    "between_pins",
    "between_pins_contact_diameter",
    "between_pins_per_pin",
    "between_pins_per_space",
    "centred_assembly",
    "chance_below",
    "chance_of_sum_below",
    "chordal_height",
    "chordal_thickness",
    "clearance_from_angle",
    "clearance_from_radial_play",
    "clearance_from_travel",
    "deviation_of_sum",
    "din_5480",
    "fewest_shims",
    "inverse_involute",
    "involute",
    "iso_4156",
    "neighbour",
    "over_pins",
    "over_pins_contact_diameter",
    "over_pins_per_pin",
    "over_pins_per_thickness",
    "own_spline",
    "pin_at_pitch_circle_of_gap",
    "pin_at_pitch_circle_of_space",
    "radial_play_from_clearance",
    "space_from_pins",
    "span_over_teeth",
    "statistical_tolerance",
    "straight",
    "thermal_growth",
    "thickness_from_pins",
    "thickness_from_span",
    "travel_from_clearance",
    "usable_engagement",
    "width_at_radius",
    "worst_case_tolerance",
]
