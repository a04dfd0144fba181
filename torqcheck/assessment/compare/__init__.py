"""Steels side by side before ordering: the choices, a row for each, what it takes to choose."""
