"""Solve for the one unknown of a joint: how long, how hard, how thick, how loose."""
