"""Which standard spline fits the readings of the bench."""
