"""Many points at once: the keys that vary, the design of the points, their answers."""
