"""One number taken apart: its formula, its symbols, its sources, and what they come from."""
