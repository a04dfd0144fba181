"""Pass, marginal, fail or undecided: what decides, why, and what to beware of."""
