"""Splines, fits and keys as standards give them: sizes, limits, tolerances."""
