"""Axial stacks: sums of distances, their chances, shims."""
