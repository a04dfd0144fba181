"""The axial stack: engagement, room to seal and plug, shims."""
