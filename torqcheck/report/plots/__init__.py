"""Curves and bars: for the terminal in letters, for the printout as figures."""
