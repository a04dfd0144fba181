"""Which torque ramp to set in the controller: the fastest that keeps the targets, and two stages."""
