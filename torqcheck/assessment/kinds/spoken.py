"""Numbers in the sentences that notes and cautions of a joint are made of."""

from torqcheck.units import in_unit

__all__ = ["in_kn", "in_mm", "in_mpa", "in_um", "three_digits", "torque_in_words"]


def three_digits(value: float) -> str:
    """Write a number to three digits and without an exponent."""
    return f"{float(f'{value:.3g}'):.9g}"


def in_mm(length: float) -> str:
    """Write a length, m, in mm without the unit."""
    return three_digits(length * 1e3)


def in_um(length: float) -> str:
    """Write a length, m, in micrometres without the unit."""
    return three_digits(length * 1e6)


def in_kn(force: float) -> str:
    """Write a force, N, in kN without the unit."""
    return three_digits(force / 1e3)


def in_mpa(stress: float) -> str:
    """Write a stress, Pa, in MPa without the unit."""
    return three_digits(stress / 1e6)


def torque_in_words(torque: float) -> str:
    """Write a torque, N m, in both systems with their units."""
    inch, name = in_unit(torque, "torque", "inch")
    return f"{three_digits(torque)} N m ({three_digits(inch)} {name})"
