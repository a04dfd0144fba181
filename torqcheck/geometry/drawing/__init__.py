"""Profiles, outlines and data blocks for drawing and cutting."""
