"""The teeth of a splined joint: their state, how they share the load, their stresses and checks."""
