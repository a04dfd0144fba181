"""Fatigue of shafts, teeth, welds and notches over the cycles of the duty."""
