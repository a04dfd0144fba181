"""Pins, balls and span: from a reading to the thickness of a tooth and back."""
